"""`python -m tests.benchmarks.slips [--each N] [--seed N] [--only TEXT] [--from N] [--minutes M] [--cases] [--json]`.

Slips planted in the shipped rules: N of each kind at random places (20). Each is shown to `expert check`, and what it
does not say at its place to `cases --changed`, which tells every record that means something else now (`told`); with
`--cases` it also plays the worked cases that the slip touches, where check does not see it. Prints for each kind how
many were seen by whom, then every slip that nobody saw, and every one told elsewhere than at its record.
`--from 40 --minutes 4`: from the fortieth kind on, for so long. `--meaning`: only those that change the meaning. Keys:
`kinds`, `planted`, `by_check`, `by_told`, `by_cases`, `by_nobody`, `at_its_place`, `rows`, `unseen`, `elsewhere`, and
`next`, the kind to go on from.
"""

from __future__ import annotations

import argparse
import gc
import json
import math
import multiprocessing
import os
import random
import time
from collections import Counter
from dataclasses import dataclass, field

from expert.language.load import read_rules
from expert.workbench.case_runs.changed import Meanings, changed_meanings, meanings_in
from tests.workbench.judging import Cases, Judge
from tests.workbench.slips import Files, Kind, Slip, planted, shipped_files, table_kinds, texts_of
from tests.workbench.slips_of_meaning import meaning_kinds
from tests.workbench.slips_of_records import record_kinds

COUNTED = ("planted", "by_check", "by_told", "by_cases", "by_nobody", "at_its_place")


@dataclass
class Bench:
    """What every process works with; made before they part."""

    files: Files
    texts: dict[str, str]
    judge: Judge
    meanings: Meanings
    cases: Cases | None
    kinds: dict[str, Kind] = field(default_factory=dict)


_bench: list[Bench] = []


@dataclass(frozen=True, slots=True)
class Seen:
    """Who saw one slip: check, cases, told, or '' for nobody; and what was said of it."""

    kind: str
    by: str
    at_its_place: bool
    told: str


def one(work: tuple[str, int, int]) -> Seen | None:
    """The slip of this kind with this number and seed; None where no place will do."""
    name, number, seed = work
    bench = _bench[0]
    slip = planted(bench.files, bench.texts, bench.kinds[name], random.Random(f"{name} {number} {seed}"))
    return None if slip is None else _seen(bench, slip)


def _seen(bench: Bench, slip: Slip) -> Seen:
    base, found = bench.judge.look(slip)
    place = f"{slip.place.path} {'.'.join(map(str, slip.place.way))}: {slip.change}"
    here = bench.judge.at_its_place(slip, found)
    told = [] if here or base is None else list(changed_meanings(base, bench.meanings))
    here = here or bench.judge.at_its_place(slip, told)
    said = f"{place}: {(*found, *told)[0]}" if found or told else place
    if found:
        return Seen(slip.kind.name, "check", here, said)
    if base is not None and bench.cases is not None and bench.cases.see(base):
        return Seen(slip.kind.name, "cases", here, said)
    return Seen(slip.kind.name, "told" if told else "", here, said)


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--each", type=int, default=20)
    parser.add_argument("--seed", type=int, default=0)
    parser.add_argument("--only", default="", help="only kinds whose name contains this")
    parser.add_argument("--meaning", action="store_true", help="only slips that change the meaning")
    parser.add_argument("--from", dest="first", type=int, default=1, help="the number of the first kind")
    parser.add_argument("--minutes", type=float, default=math.inf, help="kinds are begun for so long")
    parser.add_argument("--cases", action="store_true", help="play the cases for all that check does not see")
    parser.add_argument("--json", action="store_true")
    arguments = parser.parse_args()
    files = shipped_files()
    kinds = [*([] if arguments.meaning else table_kinds(files)), *meaning_kinds(files), *record_kinds(files)]
    kinds = [kind for kind in kinds if arguments.only in kind.name][arguments.first - 1 :]
    texts = texts_of(files)
    meanings = meanings_in(read_rules(texts))
    cases = Cases(texts) if arguments.cases else None
    _bench.append(Bench(files, texts, Judge(files), meanings, cases, {kind.name: kind for kind in kinds}))
    work = [(kind.name, number, arguments.seed) for kind in kinds for number in range(arguments.each)]
    rows = {kind.name: Counter[str]() for kind in kinds}
    unseen: list[str] = []
    elsewhere: list[str] = []
    until, done = time.monotonic() + 60 * arguments.minutes, 0
    gc.freeze()  # what is there stays; what a slip makes is let go by itself
    gc.disable()
    # Forked, so that every process has what was made above.
    with multiprocessing.get_context("fork").Pool(os.cpu_count()) as pool:
        for number, seen in enumerate(pool.imap(one, work, chunksize=2), 1):
            if seen is not None:
                rows[seen.kind]["planted"] += 1
                rows[seen.kind][f"by_{seen.by or 'nobody'}"] += 1
                rows[seen.kind]["at_its_place"] += seen.at_its_place
                if not seen.at_its_place:
                    (elsewhere if seen.by else unseen).append(f"{seen.kind}: {seen.told}")
            if number % arguments.each:
                continue
            done += 1
            name = work[number - 1][0]
            if not arguments.json:
                print(*(f"{rows[name][key]:3}" for key in COUNTED), "", name, flush=True)
            if time.monotonic() > until:
                break
    rows = {kind.name: rows[kind.name] for kind in kinds[:done]}
    left = 0 if done == len(kinds) else arguments.first + done
    sums = {key: sum(row[key] for row in rows.values()) for key in COUNTED}
    planted_kinds = sum(row["planted"] > 0 for row in rows.values())
    if arguments.json:
        told = [{"kind": name, **{key: row[key] for key in COUNTED}} for name, row in rows.items()]
        lists = {"rows": told, "unseen": unseen, "elsewhere": elsewhere}
        print(json.dumps({"kinds": planted_kinds, "seed": arguments.seed, "next": left, **sums, **lists}))
        return
    print("seen by nobody:", *unseen, sep="\n")
    print("told elsewhere:", *elsewhere, sep="\n")
    print(f"{planted_kinds} kinds: {sums}" + (f"; go on with --from {left}" if left else ""))


if __name__ == "__main__":
    main()
