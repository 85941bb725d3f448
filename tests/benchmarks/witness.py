"""The witness: `python -m tests.benchmarks.witness [--quick] [--json] [--seed N] [--show N]`.

Plays the real dialogue against the simulated machine, which knows physics and no rules: every single fault at several
plates, sensors and heights, qualified and not; pairs of faults; sound machines with each complaint; jobs in which a
third of the tests is impossible; jobs with one wrong answer. Says what was found, what was condemned though sound, what
was unsafe (by the judge of `tests/safety`), and what went out of the door with its fault.
"""

from __future__ import annotations

import argparse
import json
import os
import random
import statistics
import sys
import time
from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from multiprocessing import Pool
from pathlib import Path
from typing import Any

from expert.engine.knowledge import Knowledge, knowledge_of
from expert.job.answers.sound import CANNOT_TELL
from expert.job.state.job import Job
from expert.language.load import load_rules
from expert.language.model import RuleBase
from expert.language.shipped import shipped
from expert.machine import FAULTS, PLATES, SENSORS, Build, brought_in, sound_machine
from expert.trace.records import Opened
from expert.witness.playing import play_on
from expert.witness.table import Table, load_table
from expert.witness.verdict import Verdict, verdict_on
from tests.safety.judge import Judge

TABLE = "simulated/heat_exchanger_lever_tank.yaml"
KINDS = ("single", "pairs", "sound", "sparse", "slip")
FULL = {"single": 0, "pairs": 1000, "sound": 200, "sparse": 300, "slip": 300}  # 0: all that there are
QUICK = {"single": 90, "pairs": 30, "sound": 30, "sparse": 30, "slip": 30}
COUNTED = ("runs", "found", "listed", "missed", "condemned", "unsafe", "slipped")
ALTITUDES = (0.0, 2200.0)
NOISE = 3


@dataclass(frozen=True, slots=True)
class Play:
    """One job to be played. `seed` decides the noise of the instruments, and which answers are left out or slip."""

    kind: str
    faults: tuple[str, ...]
    complaint: str
    plate: str
    sensor: str
    altitude: float
    qualified: bool
    seed: int

    def __str__(self) -> str:
        who = "qualified" if self.qualified else "not qualified"
        place = f"{self.plate}, {self.sensor}, {self.altitude:g} m, {who}, seed {self.seed}"
        return f"{self.kind}: {' + '.join(self.faults) or 'sound'} ({self.complaint}; {place})"


@dataclass
class Sum:
    """What the jobs of one kind came to."""

    runs: int = 0
    found: int = 0
    listed: int = 0
    missed: int = 0
    condemned: int = 0
    unsafe: int = 0
    slipped: int = 0
    questions: list[int] = field(default_factory=list)
    minutes: list[float] = field(default_factory=list)
    told: list[str] = field(default_factory=list)

    def as_data(self) -> dict[str, Any]:
        counts = {
            name: getattr(self, name)
            for name in ("runs", "found", "listed", "missed", "condemned", "unsafe", "slipped")
        }
        return counts | {"questions": _middle(self.questions), "minutes": _middle(self.minutes)}


def _middle(values: Sequence[float]) -> dict[str, float]:
    ordered = sorted(values)
    return {"median": statistics.median(ordered), "p90": ordered[int(0.9 * (len(ordered) - 1))]} if ordered else {}


class World:
    """The shipped rules and their table, loaded once in each process."""

    def __init__(self) -> None:
        folder = shipped("rules")
        self.knowledge: Knowledge = knowledge_of(load_rules(folder))
        self.table: Table = load_table(Path(folder) / TABLE)
        self.known = {fault.name: fault for fault in FAULTS}

    def complaints_of(self, fault: str) -> tuple[str, ...]:
        """What an owner would complain of: what the rules' fault explains, or what the table says."""
        explained = [
            complaint
            for id_ in self.table.faults.get(fault, ())[:1]
            for complaint in self.knowledge.base.faults[id_].explains
        ]
        return tuple(explained) or self.table.complaints.get(fault, ())


_world: list[World] = []


def world() -> World:
    if not _world:
        _world.append(World())
    return _world[0]


def plays(kind: str, wanted: int, seed: int) -> list[Play]:
    """The jobs of one kind; all there are, or so many drawn from them."""
    chance = random.Random(f"{kind} {seed}")
    drawn = list(_all_of(kind, chance, wanted))
    return chance.sample(drawn, wanted) if wanted and len(drawn) > wanted else drawn


def _all_of(kind: str, chance: random.Random, wanted: int) -> Iterator[Play]:
    here = world()
    usual = [fault.name for fault in FAULTS if here.complaints_of(fault.name)]

    def place() -> tuple[str, str, float, bool, int]:
        plate, sensor = chance.choice(list(PLATES)), chance.choice(SENSORS)
        return plate, sensor, chance.choice(ALTITUDES), chance.random() < 0.5, chance.randrange(NOISE)

    if kind == "single":
        for name in usual:
            for plate in PLATES:
                for sensor in SENSORS:
                    for altitude in ALTITUDES:
                        for qualified in (True, False):
                            seed = chance.randrange(NOISE)
                            complaint = chance.choice(here.complaints_of(name))
                            yield Play(kind, (name,), complaint, plate, sensor, altitude, qualified, seed)
    elif kind == "sound":
        complaints = list(here.knowledge.base.complaints)
        for number in range(wanted):
            yield Play(kind, (), complaints[number % len(complaints)], *place())
    else:
        for _ in range(wanted):
            names = [chance.choice(usual)]
            if kind == "pairs":
                others = [name for name in usual if here.known[name].part != here.known[names[0]].part]
                names.append(chance.choice(others))
            yield Play(kind, tuple(names), chance.choice(here.complaints_of(names[0])), *place())


@dataclass(frozen=True, slots=True)
class Ended:
    """A job that was played, judged."""

    play: Play
    verdict: Verdict | None
    unsafe: tuple[str, ...]
    trouble: str = ""


def play_one(play: Play) -> Ended:
    """Play and judge one job. Whatever fails in it is told, never lost."""
    here = world()
    faults = [here.known[name] for name in play.faults]
    build = Build(PLATES[play.plate], play.sensor, altitude=play.altitude)
    try:
        machine = brought_in(build, faults, play.seed) if faults else sound_machine(build, play.seed)
        played = play_on(here.knowledge, here.table, machine, (play.complaint,), play.qualified, spoiler(play))
        judge = Judge(here.knowledge.base)
        judge.hear([Opened(here.knowledge.base.digest, "witness", "witness"), *played.records])
        return Ended(
            play, verdict_on(here.knowledge, here.table, faults, played), tuple(map(str, judge.found)), played.stuck
        )
    except Exception as problem:
        return Ended(play, None, (), f"{type(problem).__name__}: {problem}")


def before_any_test(base: RuleBase) -> frozenset[str]:
    """What is seen and asked of every machine before it is switched on. No test, and never impossible: a bench that
    cannot look at the mains lead or ask the customer does not take the machine in."""
    doors = (h for h in base.hazards.values() if h.from_the_start and "energise" in h.forbids)
    return frozenset(question for hazard in doors for release in hazard.released_by for question in release.tests)


def spoiler(play: Play) -> Any:
    """How the answers of this job are spoilt: a third of the tests left out, or one answer wrong."""
    chance = random.Random(repr(play))
    at_the_door = before_any_test(world().knowledge.base)
    slip_at, asked = chance.randint(2, 9), [0]

    def spoil(job: Job, question: str, line: str) -> str:
        if play.kind == "sparse" and question not in at_the_door:
            # Whatever else is asked, and in which order, the same tests are impossible.
            return CANNOT_TELL if random.Random(f"{play!r} {question}").random() < 1 / 3 else line
        if play.kind == "slip" and line != CANNOT_TELL:
            asked[0] += 1
            if asked[0] == slip_at:
                return wrong(job, question, line, chance)
        return line

    return spoil


def wrong(job: Job, question: str, line: str, chance: random.Random) -> str:
    """A wrong answer of the kind a junior gives: the other word, a neighbouring choice, a reading a decade off."""
    asked = job.base.questions[question]
    others = [outcome for outcome in asked.outcomes if outcome != line]
    if asked.measure is None and others:
        return chance.choice(others)
    number, _, unit = line.partition(" ")
    try:
        return f"{float(number) * chance.choice((0.1, 10.0)):.4g} {unit}"
    except ValueError:
        return line


def summed(ended: Iterable[Ended], kind: str) -> Sum:
    total = Sum()
    for one in ended:
        total.runs += 1
        verdict = one.verdict
        if verdict is None or one.trouble:
            total.missed += 1
            total.told.append(f"TROUBLE {one.play}: {one.trouble}")
            continue
        if kind == "sound":
            total.found += verdict.outcome == "normal"
            total.missed += verdict.outcome != "normal"
        else:
            total.found += not (verdict.listed or verdict.missed)
            total.listed += bool(verdict.listed) and not verdict.missed
            total.missed += bool(verdict.missed)
        total.condemned += bool(verdict.condemned)
        total.unsafe += bool(one.unsafe)
        total.slipped += bool(verdict.slipped)
        total.questions.append(verdict.questions)
        total.minutes.append(verdict.minutes)
        total.told += list(_told(one, verdict, kind))
    return total


def _told(one: Ended, verdict: Verdict, kind: str) -> Iterator[str]:
    if verdict.condemned:
        yield f"CONDEMNED {one.play}: {', '.join(verdict.condemned)}"
    if verdict.slipped:
        yield f"SLIPPED {one.play}: {', '.join(verdict.slipped)} as {verdict.ending}"
    if one.unsafe:
        yield f"UNSAFE {one.play}: {one.unsafe[0]}"
    if verdict.missed or (kind == "sound" and verdict.outcome != "normal"):
        yield f"MISSED {one.play}: ended {verdict.outcome}, {verdict.questions} questions"


def main() -> None:
    parser = argparse.ArgumentParser(description="The dialogue against the simulated machine.")
    parser.add_argument("--quick", action="store_true", help="a sample of some two minutes")
    parser.add_argument("--json", action="store_true", help="one object with the sums")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--kinds", default=",".join(KINDS))
    parser.add_argument("--most", type=int, default=0, help="at most so many jobs of each kind")
    parser.add_argument("--show", type=int, default=20, help="so many findings of each kind")
    chosen = parser.parse_args()
    result: dict[str, Any] = {}
    with Pool(os.cpu_count()) as pool:
        for kind in chosen.kinds.split(","):
            wanted = (QUICK if chosen.quick else FULL)[kind]
            jobs = plays(kind, min(wanted or chosen.most, chosen.most or wanted), chosen.seed)
            began = time.perf_counter()
            ended = []
            for number, one in enumerate(pool.imap_unordered(play_one, jobs, chunksize=4), 1):
                ended.append(one)
                if sys.stderr.isatty() or number % 100 == 0:
                    print(f"\r{kind}: {number} of {len(jobs)}", end="", file=sys.stderr, flush=True)
            print(f"\r{kind}: {len(jobs)} jobs, {time.perf_counter() - began:.0f} s", file=sys.stderr)
            total = summed(sorted(ended, key=lambda one: str(one.play)), kind)
            result[kind] = total.as_data()
            if not chosen.json:
                print(f"{kind}: {json.dumps(total.as_data())}")
                kinds = Counter(line.split()[0] for line in total.told)
                shown: Counter[str] = Counter()
                for line in total.told:
                    shown[line.split()[0]] += 1
                    if shown[line.split()[0]] <= chosen.show:
                        print(f"  {line}")
                print(f"  {dict(kinds)}")
    if chosen.json:
        print(json.dumps(result, indent=2))


if __name__ == "__main__":
    main()
