"""The published format, judged by an ordinary JSON Schema validator."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from jsonschema import Draft202012Validator

from expert.trace.kinds import KIND_NAMES, kind_of
from expert.trace.lines import NOTHING_BEFORE, encode
from expert.trace.packing import Memory, whole_in
from expert.trace.records import KINDS, Record
from expert.trace.schema import trace_schema
from expert.trace.writing import TraceWriter
from tests.trace.trace_samples import A_JOB, NINE_O_CLOCK, ONE_OF_EACH_KIND, SteadyClock

SCHEMA = trace_schema()
VALIDATOR = Draft202012Validator(SCHEMA)


def test_the_schema_is_a_schema_and_plain_json() -> None:
    Draft202012Validator.check_schema(SCHEMA)
    assert json.loads(json.dumps(SCHEMA)) == SCHEMA
    assert SCHEMA["then"]["properties"]["kind"]["enum"] == list(KIND_NAMES)
    assert list(SCHEMA["else"]["properties"]["records"]["items"]["properties"]) == list(KIND_NAMES)
    assert [kind for kind in KINDS if kind.__name__ not in SCHEMA["$defs"]] == []


@pytest.mark.parametrize("kind", KINDS, ids=kind_of)
@settings(max_examples=10, deadline=None)
@given(data=st.data())
def test_every_line_that_can_be_written_is_valid(kind: type[Record], data: st.DataObject) -> None:
    record = data.draw(ONE_OF_EACH_KIND[kind])
    line = json.loads(encode(1, NINE_O_CLOCK, [record], NOTHING_BEFORE, Memory())[0])
    assert [error.message for error in VALIDATOR.iter_errors(line)] == []


def test_the_lines_of_a_job_are_valid(tmp_path: Path) -> None:
    path = tmp_path / "7.jsonl"
    with TraceWriter.create(path, SteadyClock()) as writer:
        writer.append(A_JOB)
        writer.seal()
    lines = [json.loads(line) for line in path.read_text("ascii").splitlines()]
    assert [list(record) for record in lines[0]["records"]] == [
        [kind_of(type(record))] for record in A_JOB if not isinstance(record, whole_in(A_JOB))
    ]
    assert [error.message for line in lines for error in VALIDATOR.iter_errors(line)] == []


@pytest.mark.parametrize(
    ("change", "where"),
    [
        pytest.param({"seq": 0}, "$.seq", id="number-nought"),
        pytest.param({"at": "2026-01-31 09:00"}, "$.at", id="other-time"),
        pytest.param({"before": "x"}, "$.before", id="no-digest"),
        pytest.param({"kind": "x"}, "$.kind", id="unknown-kind"),
        pytest.param({"kind": "paused"}, "$.data", id="payload-of-another-kind"),
        pytest.param({"data": {}}, "$.data", id="field-missing"),
        pytest.param({"data": {"text": 1}}, "$.data.text", id="wrong-type"),
        pytest.param({"data": {"text": "x", "more": 1}}, "$.data", id="field-too-many"),
        pytest.param({"more": 1}, "$", id="key-too-many"),
    ],
)
def test_a_wrong_line_is_refused_where_it_is_wrong(change: dict[str, Any], where: str) -> None:
    line = {
        "seq": 1,
        "at": "2026-01-31T09:00:00Z",
        "kind": "noted",
        "data": {"text": "x"},
        "before": NOTHING_BEFORE,
        "check": NOTHING_BEFORE,
    }
    assert VALIDATOR.is_valid(line)
    assert {error.json_path for error in VALIDATOR.iter_errors(line | change)} == {where}
