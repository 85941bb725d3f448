"""The worked cases that come with the rules, one test each; and the rules have no problem and no advice."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

import pytest

from expert.desk.opening import shop_of
from expert.engine.knowledge import Knowledge, knowledge_of
from expert.language.load import load_rules
from expert.language.model import All, Any, Condition, Fault, Is
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


# ---------------------------------------------------------------- dangers


def _alone(case: Case, fault: Fault) -> bool:
    """Met first: by itself, or a result with nothing beside it but what it comes from and what else comes from that."""
    others = set(case.expect.faults) - {fault.id}
    kin = {fault.id, *fault.caused_by} if fault.result or fault.caused_by else set()
    return all(other in kin or kin & set(BASE.faults[other].caused_by) for other in others)


def _suspected(case: Case, fault: Fault) -> bool:
    """Only suspected: it would explain the complaint, or an answer casts suspicion on it, and it is not there."""
    if fault.id in case.expect.faults:
        return False
    answers = {name: text for name, text in case.job.answers.items() if name in BASE.questions}
    rules = [r for r in BASE.rules.values() if any(fault.id in getattr(said, "faults", ()) for said in r.then)]
    return bool(set(case.job.complaints) & set(fault.explains)) or any(_true(r.when, answers) for r in rules)


def _true(condition: Condition, answers: Mapping[str, str]) -> bool:
    match condition:
        case Is(fact=fact, outcomes=outcomes):
            return answers.get(fact) in outcomes
        case All(parts=parts):
            return all(_true(part, answers) for part in parts)
        case Any(parts=parts):
            return any(_true(part, answers) for part in parts)
        case _:
            return False


def _seen_at_the_first_look(fault: Fault) -> bool:
    """Whether it is never met late: it shows in what is looked at on every machine before anything else."""
    looks = {
        test
        for hazard in BASE.hazards.values()
        if hazard.from_the_start and hazard.forbids
        for release in hazard.released_by
        for test in release.tests
    }
    return bool(looks & fault.shows.keys())


DANGEROUS = [fault for fault in BASE.faults.values() if fault.dangerous]


@pytest.mark.parametrize("fault", DANGEROUS, ids=lambda fault: fault.id)
def test_every_danger_is_met_first_met_late_and_only_suspected(fault: Fault) -> None:
    found = [case for case in CASES if fault.id in case.expect.faults]
    assert [case for case in found if _alone(case, fault)], "no case in which it is met first"
    assert _seen_at_the_first_look(fault) or [c for c in found if len(c.expect.faults) > 1], "none in which it is late"
    assert [case for case in CASES if _suspected(case, fault)], "none in which it is only suspected"
