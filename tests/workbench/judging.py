"""Who sees a slip: `expert check`, the worked cases that it touches, or nobody."""

from __future__ import annotations

import re
from collections.abc import Mapping

from expert.desk.opening import shop_of
from expert.engine.knowledge import Knowledge, knowledge_of
from expert.language.load import read_rules
from expert.language.model import RuleBase
from expert.language.problems import Problem, RulesRefused
from expert.language.reading.kept import Trees
from expert.language.worked.cases import Case, load_cases
from expert.language.worked.readings import load_readings
from expert.workbench.case_runs.cores import verdicts
from expert.workbench.case_runs.footprint import RecordDigests, digest_under
from expert.workbench.case_runs.meant import misread
from expert.workbench.cases import run_case
from expert.workbench.checks import advice
from expert.workbench.proofs import unproved
from tests.workbench.slips import RULES, Files, Slip, lines_of, named_by, texts_of


class Judge:
    """Tells what `expert check` says of a slip that it does not say of the shipped rules."""

    def __init__(self, files: Files) -> None:
        self.trees = Trees()
        self.before = {_without_places(problem) for problem in self._found(texts_of(files), self.trees)[1]}

    def look(self, slip: Slip) -> tuple[RuleBase | None, list[Problem]]:
        """The rules with the slip (None where they are refused), and what is new."""
        base, found = self._found(slip.files, self.trees.copy())
        return base, [problem for problem in found if _without_places(problem) not in self.before]

    def new(self, slip: Slip) -> list[Problem]:
        return self.look(slip)[1]

    def at_its_place(self, slip: Slip, problems: list[Problem]) -> bool:
        """Whether one of them points into the record that was changed, or names it."""
        first, last = lines_of(slip)
        name = named_by(slip.place.way)
        return any(
            (problem.at.path == slip.place.path and first <= problem.at.line <= last)
            or (name and re.search(rf"\b{re.escape(name)}\b", problem.message))
            for problem in problems
        )

    @staticmethod
    def _found(texts: Mapping[str, str], trees: Trees) -> tuple[RuleBase | None, tuple[Problem, ...]]:
        try:
            base = read_rules(texts, trees)
        except RulesRefused as refused:
            return None, refused.problems
        return base, (*unproved(base), *advice(base))


def _without_places(problem: Problem) -> tuple[str, str]:
    return problem.code, re.sub(r"\S+\.yaml:\d+:\d+", "", problem.message)


class Cases:
    """The worked cases, with what each looked at on the shipped rules."""

    def __init__(self, texts: Mapping[str, str]) -> None:
        self.knowledge = knowledge_of(read_rules(texts))
        self.digests = RecordDigests(self.knowledge.base)
        self.readings = load_readings(RULES, self.knowledge.base)
        cases = load_cases(RULES, self.knowledge.base)
        self.verdicts = tuple(verdicts(self.knowledge, shop_of(self.knowledge), cases))

    def see(self, base: RuleBase) -> bool:
        """Whether a worked reading, or a case that looked at something that was changed, comes out otherwise."""
        known = [one for one in self.readings if one.question in base.questions]
        if any(misread(base, known)):
            return True
        knowledge = knowledge_of(base)
        return any(run_case(knowledge, shop_of(knowledge), case).problems for case in self._touched(knowledge))

    def _touched(self, knowledge: Knowledge) -> list[Case]:
        digests = RecordDigests(knowledge.base)
        return [
            verdict.case
            for verdict in self.verdicts
            if (footprint := verdict.result.footprint) is not None
            and digest_under(knowledge, digests, footprint) != digest_under(self.knowledge, self.digests, footprint)
        ]
