"""Worked cases: where a failing one left its path, what no case brings up, and a saved job turned into a case."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from expert.desk.opening import shop_of
from expert.engine.knowledge import Knowledge, knowledge_of
from expert.language.load import load_rules
from expert.language.worked.cases import Case, load_cases, read_cases
from expert.trace.reading import read_trace
from expert.workbench.case_runs.came_up import SORTS, all_there_is, coverage
from expert.workbench.case_runs.new_case import NoCase, case_from
from expert.workbench.cases import run_case

ROOT = Path(__file__).parents[2]
DEMOS = sorted((ROOT / "transcripts_demo").glob("*.jsonl"))
CLOSED = [file for file in DEMOS if file.stem != "demo-4-danger"]  # that one is handed over
KNOWLEDGE = knowledge_of(load_rules(ROOT / "rules"))
CASES = {case.id: case for case in load_cases(ROOT / "rules", KNOWLEDGE.base)}
OPEN = CASES["element_open"]


def paths(case: Case, knowledge: Knowledge = KNOWLEDGE) -> list[str]:
    found = run_case(knowledge, shop_of(knowledge), case).problems
    assert any(problem.code != "case-path" for problem in found)
    return [problem.message for problem in found if problem.code == "case-path"]


def test_a_case_that_fails_says_what_cleared_the_fault() -> None:
    answers = {**OPEN.job.answers, "element_resistance": "38 ohm"}
    case = replace(OPEN, job=replace(OPEN.job, answers=answers))
    cleared = [message for message in paths(case) if "heating_element.open_circuit was cleared by " in message]
    assert len(cleared) == 1 and "after answer " in cleared[0] and "element_resistance: 38 ohm" in cleared[0]


def test_or_what_the_rule_that_should_confirm_it_waits_for() -> None:
    answers = {name: text for name, text in OPEN.job.answers.items() if name != "element_resistance"}
    case = replace(OPEN, job=replace(OPEN.job, answers={**answers, "element_resistance": "can't tell"}))
    (message,) = paths(case)
    assert message.startswith("element_open: heating_element.open_circuit was not confirmed: ")
    assert "waits for element_resistance open (not answered)" in message


def test_coverage_counts_what_came_up_and_names_the_rest() -> None:
    came_up = run_case(KNOWLEDGE, shop_of(KNOWLEDGE), OPEN).came_up
    there = all_there_is(KNOWLEDGE.base)
    assert all(getattr(came_up, sort) <= getattr(there, sort) for sort in SORTS if sort != "proofs")
    assert "heating_element.open_circuit" in came_up.faults and "element_resistance: open" in came_up.outcomes
    lines = list(coverage(KNOWLEDGE.base, came_up))
    assert f"faults: 1 of {len(KNOWLEDGE.base.faults)} came up" in lines
    assert "  never: heating_element.half_open" in lines
    assert next(coverage(KNOWLEDGE.base, there)) == f"rules: {len(there.rules)} of {len(there.rules)} came up"


@pytest.mark.parametrize("file", CLOSED, ids=lambda file: file.stem)
def test_a_saved_job_becomes_a_case_that_comes_out_the_same(file: Path) -> None:
    text = case_from(read_trace(file), KNOWLEDGE.base)
    (case,) = read_cases({"cases/new.yaml": text}, KNOWLEDGE.base)
    assert [str(problem) for problem in run_case(KNOWLEDGE, shop_of(KNOWLEDGE), case).problems] == []


def test_a_job_that_was_handed_over_is_still_open_and_no_case() -> None:
    with pytest.raises(NoCase, match="was not carried through to its close"):
        case_from(read_trace(ROOT / "transcripts_demo" / "demo-4-danger.jsonl"), KNOWLEDGE.base)


def test_a_job_that_is_still_open_is_no_case() -> None:
    trace = read_trace(ROOT / "transcripts_demo" / "demo-1-straight.jsonl")
    with pytest.raises(NoCase, match="was not carried through to its close"):
        case_from(replace(trace, lines=trace.lines[:40]), KNOWLEDGE.base)


def test_a_wrong_repair_changes_nothing() -> None:
    """Under `after` only the fault that is really there changes the answers, once it is mended."""
    after = {"heating_element.half_open": {"element_resistance": "38 ohm"}}
    case = replace(OPEN, job=replace(OPEN.job, after_repair=None, after=after))
    problems = run_case(KNOWLEDGE, shop_of(KNOWLEDGE), case).problems
    assert [problem.message for problem in problems if problem.code == "case-proof"] != []
