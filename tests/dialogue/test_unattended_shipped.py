"""The promised outcome on the shipped rules: worked cases of each of the seven outcomes, held to the schema."""

from __future__ import annotations

import json

import jsonschema
import pytest

from expert.desk.opening import shop_of
from expert.desk.result import result_of
from expert.desk.unattended import play
from expert.language.keys.words import ENDS as OUTCOMES
from expert.language.shipped import shipped
from expert.language.worked.cases import Case, load_cases
from expert.trace.records import Answered, CannotTell, PromptPut, Proved
from tests.dialogue.outcome_schema import SCHEMA
from tests.dialogue.shipped_desk import shipped_knowledge

OF_EACH = 3


def some_cases() -> list[Case]:
    """A few cases of each outcome, spread over the files."""
    cases = load_cases(shipped("rules"), shipped_knowledge().base)
    chosen: list[Case] = []
    for outcome in OUTCOMES:
        of_this = [case for case in cases if case.expect.outcome == outcome]
        chosen += of_this[:: max(1, len(of_this) // OF_EACH)][:OF_EACH]
    return chosen


def test_there_are_cases_of_each_outcome() -> None:
    assert {case.expect.outcome for case in some_cases()} == set(OUTCOMES)


@pytest.mark.parametrize("case", some_cases(), ids=lambda case: case.id)
def test_the_outcome_has_its_promised_shape(case: Case) -> None:
    knowledge = shipped_knowledge()
    job, records = play(knowledge, shop_of(knowledge), case.job, "7")
    result = json.loads(json.dumps(result_of(job, records, "7.jsonl")))
    jsonschema.validate(result, SCHEMA)
    assert result["outcome"] == case.expect.outcome
    told = [record for record in records if isinstance(record, Answered | CannotTell)]
    assert [row["question"] for row in result["asked"]] == [record.question for record in told]
    put = {
        record.question
        for record in records
        if isinstance(record, PromptPut) and record.prompt in ("question", "proof")
    }
    asked = {row["question"] for row in result["asked"]}
    assert put <= asked, "a question was put and neither answered nor left"
    # What was answered in a round of looks or readings was not put by itself.
    assert asked - put <= {record.question for record in records if isinstance(record, Proved)}
    assert (result["outcome"] == "stopped") == bool(result["stops"])
    assert all(finding["because"] for finding in result["findings"])
    assert set(result["short_list"]) <= {suspect["fault"] for suspect in result["suspects"]}
