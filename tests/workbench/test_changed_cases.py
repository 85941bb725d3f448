"""Only the cases that an edit touches are run again; those left out would have come out letter for letter the same."""

from __future__ import annotations

import json
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest

from expert.desk.opening import shop_of
from expert.desk.unattended import play
from expert.engine.knowledge import Knowledge, knowledge_of
from expert.language.load import load_rules
from expert.language.model import Evidence, Question, Rule, RuleBase
from expert.language.shipped import shipped
from expert.language.worked.cases import Case, load_cases
from expert.trace.records import Record
from expert.workbench.case_runs.cores import verdicts
from expert.workbench.case_runs.remembered import Remembered
from expert.workbench.cases import Result, Verdict

RULES = shipped("rules")
BASE = load_rules(RULES)
CASES = load_cases(RULES, BASE)[::24]


def without_a_rule(rule: str) -> Callable[[RuleBase], RuleBase]:
    return lambda base: replace(base, rules={name: kept for name, kept in base.rules.items() if name != rule})


def with_rule(change: Callable[[Rule], Rule], rule: str) -> Callable[[RuleBase], RuleBase]:
    return lambda base: replace(base, rules={**base.rules, rule: change(base.rules[rule])})


def with_question(change: Callable[[Question], Question], question: str) -> Callable[[RuleBase], RuleBase]:
    return lambda base: replace(base, questions={**base.questions, question: change(base.questions[question])})


def weigh(fault: str) -> Callable[[Rule], Rule]:
    return lambda rule: replace(rule, then=(*rule.then, Evidence(fault, 9)))


FAULTS, QUESTIONS, RULE_IDS = list(BASE.faults), list(BASE.questions), list(BASE.rules)
EDITS = {
    "a-rule-less": without_a_rule(RULE_IDS[len(RULE_IDS) // 3]),
    "another-rule-less": without_a_rule(RULE_IDS[-len(RULE_IDS) // 5]),
    "evidence-more": with_rule(weigh(FAULTS[len(FAULTS) // 2]), RULE_IDS[len(RULE_IDS) // 2]),
    "a-quicker-test": with_question(lambda question: replace(question, minutes=0.1), QUESTIONS[len(QUESTIONS) // 2]),
    "a-slower-test": with_question(lambda question: replace(question, minutes=90), QUESTIONS[-len(QUESTIONS) // 4]),
    "a-fault-less-often": lambda base: replace(
        base, faults={**base.faults, FAULTS[7]: replace(base.faults[FAULTS[7]], seen="rare", explains=())}
    ),
}


def played(knowledge: Knowledge, case: Case) -> list[Record]:
    return play(knowledge, shop_of(knowledge), case.job, "case")[1]


@pytest.fixture(scope="module")
def before(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, list[Verdict], dict[str, list[Record]]]:
    knowledge = knowledge_of(BASE)
    done = list(verdicts(knowledge, shop_of(knowledge), CASES, cores=1))
    file = tmp_path_factory.mktemp("cache") / "run.json"
    Remembered(file, knowledge).keep(done)
    return file, done, {case.id: played(knowledge, case) for case in CASES}


@pytest.mark.parametrize("edit", EDITS.values(), ids=EDITS)
def test_a_case_that_is_left_out_would_have_come_out_the_same(
    edit: Callable[[RuleBase], RuleBase], before: tuple[Path, list[Verdict], dict[str, list[Record]]]
) -> None:
    file, _, records = before
    knowledge = knowledge_of(edit(BASE))
    touched = {case.id for case in Remembered(file, knowledge).touched(CASES)}
    for case in CASES:
        assert case.id in touched or played(knowledge, case) == records[case.id]


def test_edits_of_a_rule_leave_many_cases_out(before: tuple[Path, list[Verdict], dict[str, list[Record]]]) -> None:
    shares = []
    for rule in RULE_IDS[:: len(RULE_IDS) // 9]:
        remembered = Remembered(before[0], knowledge_of(without_a_rule(rule)(BASE)))
        shares.append(len(remembered.touched(CASES)) / len(CASES))
    assert sorted(shares)[len(shares) // 2] < 0.6


def test_nothing_is_run_again_where_nothing_changed_and_an_edit_runs_what_it_touches(
    before: tuple[Path, list[Verdict], dict[str, list[Record]]],
) -> None:
    file, done, _ = before
    assert Remembered(file, knowledge_of(BASE)).touched(CASES) == ()
    asked = done[0].result.asked[-1]
    slower = with_question(lambda question: replace(question, minutes=question.minutes + 1), asked)(BASE)
    assert done[0].case in Remembered(file, knowledge_of(slower)).touched(CASES)
    said = replace(CASES[0], expect=replace(CASES[0].expect, outcome="normal"))
    assert Remembered(file, knowledge_of(BASE)).touched((said,)) == (said,)


@pytest.mark.parametrize("text", ["", "{", "[]", '{"program": "other", "cases": {}}'], ids=repr)
def test_a_memory_that_is_damaged_or_of_another_program_remembers_nothing(text: str, tmp_path: Path) -> None:
    file = tmp_path / "run.json"
    file.write_text(text)
    assert Remembered(file, knowledge_of(BASE)).touched(CASES[:3]) == CASES[:3]


def test_a_case_that_failed_is_run_again(tmp_path: Path, before: tuple[Path, list[Verdict], dict[str, object]]) -> None:
    knowledge = knowledge_of(BASE)
    good, bad = before[1][0], before[1][1]
    broken = Verdict(bad.case, replace(bad.result, problems=(*bad.problems, None)))  # type: ignore[arg-type]
    remembered = Remembered(tmp_path / "run.json", knowledge)
    remembered.keep([good, broken, Verdict(CASES[2], Result((), (), 0.0, None))])
    assert Remembered(tmp_path / "run.json", knowledge).touched(CASES[:3]) == CASES[1:3]
    assert list(json.loads((tmp_path / "run.json").read_text())["cases"]) == [good.case.id]


def test_all_cores_give_the_verdicts_of_one() -> None:
    knowledge = knowledge_of(BASE)
    shop = shop_of(knowledge)
    several = list(verdicts(knowledge, shop, CASES, cores=2))
    assert several == list(verdicts(knowledge, shop, CASES, cores=1))
