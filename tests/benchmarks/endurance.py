"""Does it hold: `python -m tests.benchmarks.endurance [--jobs N] [--json]`.

Random jobs; contradictions sought from the rules and cleared in every way; programs killed at any moment and resumed;
edits of traces, each found or of a kind that no chain can find; rule files that nobody wrote in good faith. N random
jobs set the dose of the others: the full one, with 1,500, is 500 kills, 10,000 edits and 2,000 contradictions.
Leaves with 1 when an answer was lost, an edit was not found that can be, or anything ended in a traceback; interrupted,
it prints what it has come to so far and leaves with 128 and the number of the signal. What dies on the way is named.
"""

from __future__ import annotations

import argparse
import json
import os
import random
import signal
import sys
import tempfile
import traceback
from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import cache, partial
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from expert.engine.knowledge import Knowledge, knowledge_of
from expert.language.load import load_rules
from expert.language.shipped import shipped
from expert.terminal.leaving import EndedFromOutside, told_when_ended
from tests.benchmarks.progress import ProcessDied, on_all_cores, within
from tests.dialogue.small_folder import small_folder
from tests.dialogue.small_rules import small_knowledge, small_shop
from tests.dialogue.test_never_lost import be_killed_and_go_on
from tests.endurance.contradicting import WAYS, contradict
from tests.endurance.editing import EDITS, NOT_TO_BE_FOUND, Written, edited, is_found
from tests.language.small_base import SMALL
from tests.language.test_never_crashes import only_refused
from tests.safety.hunting import Hunt
from tests.safety.readings import Readings
from tests.safety.seeking import Collision, Seeker

FULL = 1_500
KILLS_EACH = 2
LONGEST = 60.0  # seconds for one job
MOST_SHOWN = 10
PIECES = (
    "{",
    "}",
    "[",
    "]",
    ": ",
    "- ",
    "\t",
    "\n  ",
    "#",
    "&a ",
    "*a",
    "!x ",
    "|",
    ">",
    "'",
    '"',
    "\0",
    "\u202e",
    "\x1b[31m",
    "",
)
TYPED = ("Ann", "1", "ok", "no fill", "ok", "no", "1", "yes", "no", "take back 1", "yes", "hand over")

Sum = Counter[str]
"""What was counted; a key that begins with "! " is a failure in words."""


@cache
def known() -> Knowledge:
    return knowledge_of(load_rules(shipped("rules")))


@cache
def hunt() -> Hunt:
    return Hunt(known())


@cache
def collisions() -> tuple[Collision, ...]:
    base = known().base
    return tuple(Seeker(base, next(iter(base.machines)), random.Random(1)).collisions())


@cache
def readings() -> Readings:
    return Readings()


def a_random_job(number: int) -> Sum:
    caught = hunt().job(number)
    failed = {} if caught.played.ended else {f"! random job {number} does not end": 1}
    return Counter({"random jobs": 1, "random lines": len(caught.played.lines), **failed})


def a_contradiction(number: int) -> Sum:
    collision = collisions()[number % len(collisions())]
    result = contradict(known(), readings(), collision, WAYS[number % len(WAYS)], number)
    failed = {} if result.ended else {f"! contradiction {number} is not cleared": 1}
    return Counter({"jobs with a contradiction": bool(result.conflicts), "contradictions": result.conflicts, **failed})


def a_killed_job(number: int) -> Sum:
    with TemporaryDirectory() as name:
        folder = Path(name)
        rules = small_folder(folder / "rules")
        be_killed_and_go_on(random.Random(number), small_knowledge(), rules, folder, KILLS_EACH)
    return Counter({"kills": KILLS_EACH})


def an_edit(number: int) -> Sum:
    chance = random.Random(number)
    kind = list(EDITS)[number % len(EDITS)]
    with TemporaryDirectory() as name:
        (Path(name) / "copy").mkdir()
        found = is_found(edited(chance, kind, _written(), Path(name) / "copy"))
    beyond = kind in NOT_TO_BE_FOUND
    failed = {} if found or beyond else {f"! edit {number} ({kind}) is not found": 1}
    unfound = {f"beyond a chain: {kind}": 1} if beyond and not found else {}
    return Counter({"edits": 1, "edits found": found, **unfound, **failed})


@cache
def _written() -> Written:
    return Written.play(Path(tempfile.mkdtemp()), small_knowledge(), small_shop(), TYPED)


def a_hostile_file(number: int) -> Sum:
    chance = random.Random(number)
    path = chance.choice(sorted(SMALL))
    text = SMALL[path]
    for _ in range(chance.randrange(1, 4)):
        start = chance.randrange(len(text))
        text = text[:start] + chance.choice(PIECES) + text[start + chance.randrange(8) :]
    only_refused({**SMALL, path: text})
    return Counter({"hostile files": 1})


@dataclass(frozen=True, slots=True)
class Trial:
    """One kind of trial: what one of them does, how many there are for each random job, and for how many processes on
    a core there is work: where it waits for the disk, more than one."""

    one: Callable[[int], Sum]
    share: float = 1.0
    on_a_core: int = 1


TRIALS = {
    "random jobs": Trial(a_random_job),
    "contradictions": Trial(a_contradiction),
    "kills": Trial(a_killed_job, 1 / 6, on_a_core=6),
    "edits": Trial(an_edit, 20 / 3, on_a_core=2),
    "hostile files": Trial(a_hostile_file, 1 / 3),
}


def some(kind: str, numbers: range) -> Sum:
    """What these numbers come to; whatever is raised is a traceback that a technician might have seen."""
    counted: Sum = Counter()
    for number in numbers:
        try:
            with within(LONGEST):
                counted += TRIALS[kind].one(number)
        except Exception:
            counted["tracebacks"] += 1
            counted[f"! {kind} {number}: {traceback.format_exc(limit=-3)}"] += 1
    return counted


def endure(jobs: int) -> Iterator[Sum]:
    """The whole of it, as it comes in."""
    with TemporaryDirectory() as folder:
        tempfile.tempdir = folder  # whoever is killed leaves no folder behind
        for kind, trial in TRIALS.items():
            count = max(1, round(jobs * trial.share))
            at_a_time = max(1, min(25, count // 40))
            parts = [range(n, min(n + at_a_time, count)) for n in range(0, count, at_a_time)]
            processes = trial.on_a_core * (os.cpu_count() or 1)
            yield from on_all_cores(partial(some, kind), parts, kind, processes=processes, died=partial(_died, kind))
    tempfile.tempdir = None


def _died(kind: str, problem: ProcessDied) -> Sum:
    return Counter({"processes that died": 1, f"! {kind}: {problem}": 1})


def as_data(counted: Sum) -> dict[str, Any]:
    data: dict[str, Any] = {name: count for name, count in counted.items() if not name.startswith("! ")}
    data.setdefault("tracebacks", 0)
    return {**data, "failures": [name.removeprefix("! ") for name in counted if name.startswith("! ")]}


def main() -> None:
    parser = argparse.ArgumentParser(prog="python -m tests.benchmarks.endurance", description=__doc__)
    parser.add_argument("--jobs", type=int, default=FULL)
    parser.add_argument("--json", action="store_true", help="print one JSON object")
    wanted = parser.parse_args()
    counted: Sum = Counter()
    ended = 0
    try:
        with told_when_ended():
            for part in endure(wanted.jobs):
                counted += part
    except KeyboardInterrupt as interrupt:
        ended = 128 + int(interrupt.signal if isinstance(interrupt, EndedFromOutside) else signal.SIGINT)
    data = as_data(counted)
    if ended:
        data["ended"] = f"before its time, by {signal.Signals(ended - 128).name}"
    if wanted.json:
        print(json.dumps(data))
    else:
        print("\n".join(f"{name:44}{count!s:>9}" for name, count in data.items() if name != "failures"))
        print(*data["failures"][:MOST_SHOWN], sep="\n")
    sys.exit(ended or (1 if data["failures"] else 0))


if __name__ == "__main__":
    main()
