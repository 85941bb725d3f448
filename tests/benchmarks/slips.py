"""`python -m tests.benchmarks.slips [--each N] [--cases] [--json]`: slips planted in the shipped rules.

N slips of each kind at random places (20). Each is shown to `expert check`; with --cases what check does not see is
shown to the worked cases that it touches. Prints for each kind how many were seen by check, by cases, and not at all.
Keys: `kinds`, `planted`, `by_check`, `by_cases`, `by_nobody`, `at_its_place` (check pointed at the record), `rows`.
"""

from __future__ import annotations

import argparse
import json
import random

from expert.desk.opening import shop_of
from expert.engine.knowledge import Knowledge, knowledge_of
from expert.language.load import read_rules
from expert.language.worked.cases import Case, load_cases
from expert.workbench.case_runs.footprint import RecordDigests, digest_under
from expert.workbench.cases import run_case
from tests.workbench.slips import RULES, Judge, Kind, Slip, places, planted, shipped_files, table_kinds, texts_of
from tests.workbench.slips_of_meaning import meaning_kinds

SUMS = ("planted", "by_check", "by_cases", "by_nobody", "at_its_place")


class Cases:
    """The worked cases, with what each looked at on the shipped rules."""

    def __init__(self, texts: dict[str, str]) -> None:
        self.knowledge = knowledge_of(read_rules(texts))
        self.digests = RecordDigests(self.knowledge.base)
        self.cases = load_cases(RULES, self.knowledge.base)
        self.results = [run_case(self.knowledge, shop_of(self.knowledge), case) for case in self.cases]

    def see(self, slip: Slip) -> bool:
        """Whether a case that looked at something that was changed comes out otherwise."""
        knowledge = knowledge_of(read_rules(slip.files))
        digests = RecordDigests(knowledge.base)
        return any(self._fails(knowledge, case) for case in self._touched(knowledge, digests))

    def _touched(self, knowledge: Knowledge, digests: RecordDigests) -> list[Case]:
        return [
            case
            for case, result in zip(self.cases, self.results, strict=True)
            if result.footprint is not None
            and digest_under(knowledge, digests, result.footprint)
            != digest_under(self.knowledge, self.digests, result.footprint)
        ]

    def _fails(self, knowledge: Knowledge, case: Case) -> bool:
        return bool(run_case(knowledge, shop_of(knowledge), case).problems)


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--each", type=int, default=20)
    parser.add_argument("--cases", action="store_true")
    parser.add_argument("--only", default="", help="only kinds whose name contains this")
    parser.add_argument("--meaning", action="store_true", help="only slips that change the meaning")
    parser.add_argument("--json", action="store_true")
    arguments = parser.parse_args()
    files = shipped_files()
    where, judge = places(files), Judge(files)
    cases = Cases(texts_of(files)) if arguments.cases else None
    kinds = [*([] if arguments.meaning else table_kinds(files)), *meaning_kinds(files)]
    rows = []
    for kind in (kind for kind in kinds if arguments.only in kind.name):
        row = of_kind(kind, arguments.each, random.Random(kind.name), where, judge, cases, files)
        rows.append(row)
        if not arguments.json:
            print(f"{row['by_check']:3} {row['by_cases']:3} {row['by_nobody']:3}  {kind.name}", flush=True)
    sums = {
        key: sum(row[key] for row in rows) for key in ("planted", "by_check", "by_cases", "by_nobody", "at_its_place")
    }
    print(json.dumps({"kinds": len(rows), **sums, "rows": rows}) if arguments.json else f"{len(rows)} kinds: {sums}")


def of_kind(kind: Kind, each: int, chance: random.Random, where, judge: Judge, cases: Cases | None, files) -> dict:  # type: ignore[no-untyped-def,type-arg]
    row = {"kind": kind.name, "planted": 0, "by_check": 0, "by_cases": 0, "by_nobody": 0, "at_its_place": 0}
    for _ in range(each):
        slip = planted(files, kind, chance, where)
        if slip is None:
            break
        row["planted"] += 1
        found = judge.new(slip)
        if found:
            row["by_check"] += 1
            row["at_its_place"] += judge.at_its_place(slip, found)
        elif cases is not None and cases.see(slip):
            row["by_cases"] += 1
        else:
            row["by_nobody"] += 1
    return row


if __name__ == "__main__":
    main()
