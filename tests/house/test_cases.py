"""The worked cases that come with the rules, one test each; and the rules have no problem and no advice."""

from __future__ import annotations

from pathlib import Path

import pytest

from expert.desk.opening import shop_of
from expert.engine.knowledge import Knowledge, knowledge_of
from expert.language.load import load_rules
from expert.language.worked.cases import Case, load_cases
from expert.workbench.cases import run_case

RULES = Path(__file__).resolve().parents[2] / "rules"
BASE = load_rules(RULES)
CASES = load_cases(RULES, BASE)


@pytest.fixture(scope="module")
def knowledge() -> Knowledge:
    return knowledge_of(BASE)


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.id)
def test_the_case_comes_out_as_expected(case: Case, knowledge: Knowledge) -> None:
    assert [str(problem) for problem in run_case(knowledge, shop_of(knowledge), case).problems] == []


def test_every_fault_has_a_case() -> None:
    expected = {fault for case in CASES for fault in case.expect.faults}
    assert sorted(BASE.faults.keys() - expected) == []


def test_every_normal_behaviour_has_a_case() -> None:
    known = {
        complaint for rule in BASE.rules.values() for said in rule.then for complaint in getattr(said, "complaints", ())
    }
    assert sorted(known - {complaint for case in CASES for complaint in case.expect.normal}) == []


def test_there_are_enough_cases() -> None:
    assert len(CASES) >= 60
