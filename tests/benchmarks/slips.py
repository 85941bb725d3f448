"""`python -m tests.benchmarks.slips [--each N] [--seed N] [--no-cases] [--only TEXT] [--meaning] [--json]`.

Slips planted in the shipped rules: N of each kind at random places (20). Each is shown to `expert check`; what check
does not see is shown to the worked cases that it touches. Of the rest it is said whether `cases --changed` tells what
the edit changed (`told`): nobody judges that but the author. Prints for each kind how many there were of each, and
every slip that nobody judged. Keys: `kinds`, `planted`, `by_check`, `by_cases`, `by_told`, `by_nobody`, `at_its_place`
(what was said points at the record), `rows`, `unseen`.
"""

from __future__ import annotations

import argparse
import json
import multiprocessing
import os
import random
from collections import Counter
from dataclasses import dataclass, field

from expert.language.load import read_rules
from expert.workbench.case_runs.changed import Meanings, changed_meanings, meanings_in
from tests.workbench.judging import Cases, Judge
from tests.workbench.slips import Files, Kind, Slip, planted, shipped_files, table_kinds, texts_of
from tests.workbench.slips_of_meaning import meaning_kinds

COUNTED = ("planted", "by_check", "by_cases", "by_told", "by_nobody", "at_its_place")


@dataclass
class Bench:
    """What every process works with; made before they part."""

    files: Files
    texts: dict[str, str]
    judge: Judge
    cases: Cases | None
    meanings: Meanings
    kinds: dict[str, Kind] = field(default_factory=dict)


_bench: list[Bench] = []


@dataclass(frozen=True, slots=True)
class Seen:
    """Who saw one slip: '' for nobody. `told`: the place, and what was said of it."""

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
    if found:
        return Seen(slip.kind.name, "check", bench.judge.at_its_place(slip, found), f"{place}: {found[0]}")
    if base is None:
        return Seen(slip.kind.name, "", False, place)
    told = list(changed_meanings(base, bench.meanings))
    at_its_place = bench.judge.at_its_place(slip, told)  # with a case that fails stands what changed
    if bench.cases is not None and bench.cases.see(base):
        return Seen(slip.kind.name, "cases", at_its_place, place)
    return Seen(slip.kind.name, "told" if told else "", at_its_place, f"{place}: {told[0]}" if told else place)


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--each", type=int, default=20)
    parser.add_argument("--seed", type=int, default=0)
    parser.add_argument("--no-cases", action="store_true")
    parser.add_argument("--only", default="", help="only kinds whose name contains this")
    parser.add_argument("--meaning", action="store_true", help="only slips that change the meaning")
    parser.add_argument("--json", action="store_true")
    arguments = parser.parse_args()
    files = shipped_files()
    kinds = [*([] if arguments.meaning else table_kinds(files)), *meaning_kinds(files)]
    kinds = [kind for kind in kinds if arguments.only in kind.name]
    texts = texts_of(files)
    cases = None if arguments.no_cases else Cases(texts)
    meanings = meanings_in(read_rules(texts))
    _bench.append(Bench(files, texts, Judge(files), cases, meanings, {kind.name: kind for kind in kinds}))
    work = [(kind.name, number, arguments.seed) for kind in kinds for number in range(arguments.each)]
    rows = {kind.name: Counter[str]() for kind in kinds}
    unseen: list[str] = []
    # Forked, so that every process has the cases that were played above.
    with multiprocessing.get_context("fork").Pool(os.cpu_count()) as pool:
        for number, seen in enumerate(pool.imap(one, work, chunksize=2), 1):
            if seen is not None:
                rows[seen.kind]["planted"] += 1
                rows[seen.kind][f"by_{seen.by or 'nobody'}"] += 1
                rows[seen.kind]["at_its_place"] += seen.at_its_place
                if seen.by in ("", "told"):
                    unseen.append(f"{seen.kind}: {seen.told}")
            if number % arguments.each == 0 and not arguments.json:
                name = work[number - 1][0]
                print(*(f"{rows[name][key]:3}" for key in COUNTED), "", name, flush=True)
    sums = {key: sum(row[key] for row in rows.values()) for key in COUNTED}
    if arguments.json:
        told = [{"kind": name, **{key: row[key] for key in COUNTED}} for name, row in rows.items()]
        print(json.dumps({"kinds": len(kinds), "seed": arguments.seed, **sums, "rows": told, "unseen": unseen}))
        return
    print(*unseen, sep="\n")
    print(f"{len(kinds)} kinds: {sums}")


if __name__ == "__main__":
    main()
