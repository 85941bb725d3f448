"""What is said about lines that cannot be understood, and about values that do not fit a record."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, Literal

import pytest

from expert.trace.errors import TraceDamaged, TraceNotRead, TraceSealed
from expert.trace.json_values import NotPlain, from_plain, to_plain
from expert.trace.kinds import from_json, to_json
from expert.trace.reading import read_trace
from expert.trace.records import KINDS, Noted, Record
from expert.trace.writing import TraceWriter
from tests.trace.trace_samples import A_JOB, SteadyClock


@dataclass(frozen=True, slots=True)
class Inner:
    bits: float


@dataclass(frozen=True, slots=True)
class Sample:
    """A record type of its own, so that these messages do not hang on the real records."""

    text: str
    number: int
    passed: bool
    word: Literal["yes", "no"]
    pair: tuple[str, int]
    inner: tuple[Inner, ...] = ()
    reading: float | None = None
    state: Mapping[str, str] = field(default_factory=dict)


GOOD: dict[str, Any] = {"text": "t", "number": 1, "passed": True, "word": "yes", "pair": ["a", 1]}
FIELDS = "text, number, passed, word, pair, inner, reading, state"


def test_what_may_be_left_out_is_filled_in() -> None:
    assert from_plain(Sample, GOOD) == Sample("t", 1, True, "yes", ("a", 1))


@pytest.mark.parametrize(
    ("change", "message"),
    [
        pytest.param({"text": 3}, "text: a text is wanted, not a whole number", id="number-for-text"),
        pytest.param({"number": True}, "number: a whole number is wanted, not true", id="truth-for-number"),
        pytest.param({"number": 1.0}, "number: a whole number is wanted, not 1.0", id="fraction-for-number"),
        pytest.param({"number": 2**53}, "number: a whole number up to 9007199254740991 is wanted", id="huge"),
        pytest.param({"passed": 1}, "passed: true or false is wanted, not a whole number", id="number-for-truth"),
        pytest.param({"word": "no!"}, "word: one of yes, no is wanted, not the text 'no!'", id="not-a-word"),
        pytest.param({"pair": ["a"]}, "pair: 2 values are wanted, not 1", id="too-few"),
        pytest.param({"pair": "ab"}, "pair: a list is wanted, not the text 'ab'", id="text-for-list"),
        pytest.param({"inner": [{"bits": "x"}]}, "inner[0].bits: a number is wanted, not the text 'x'", id="deep"),
        pytest.param({"inner": [[]]}, "inner[0]: an object with the fields of Inner is wanted, not a list", id="list"),
        pytest.param({"reading": "nan"}, "reading: a number is wanted, not the text 'nan'", id="not-a-number"),
        pytest.param({"state": {"mains": None}}, "state['mains']: a text is wanted, not nothing", id="nothing"),
        pytest.param({"state": []}, "state: an object is wanted, not a list", id="list-for-object"),
        pytest.param({"more": 1}, f"the record: 'more' is not a field; there are {FIELDS}", id="unknown-field"),
        pytest.param(
            {"text": "\ud83d"},
            "text: the text has bytes that are no characters; clean it first: '\\ud83d'",
            id="half-a-character",
        ),
    ],
)
def test_a_payload_that_does_not_fit(change: dict[str, Any], message: str) -> None:
    with pytest.raises(NotPlain) as caught:
        from_plain(Sample, GOOD | change)
    assert str(caught.value) == message


@pytest.mark.parametrize(
    ("value", "message"),
    [
        pytest.param(Sample("t", 1, True, "yes", ["a", 1]), "pair: a tuple is wanted, not a list", id="list-for-tuple"),  # type: ignore[arg-type]
        pytest.param(
            Sample("t", 1, True, "yes", ("a", 1), (), float("nan")),
            "reading: a number is wanted, not nan",
            id="not-a-number",
        ),
        pytest.param(Inner(1.0), "the record: Sample is wanted, not Inner", id="other-record"),
    ],
)
def test_a_value_that_may_not_be_written(value: object, message: str) -> None:
    with pytest.raises(NotPlain) as caught:
        to_plain(Sample, value)
    assert str(caught.value) == message


@pytest.mark.parametrize("declared", [int | str, float | str | None, list[int], object, Mapping[int, str]], ids=str)
def test_a_type_that_will_not_do_is_refused(declared: Any) -> None:
    with pytest.raises(TypeError):
        from_plain(declared, {})


def test_infinity_has_its_own_spelling() -> None:
    assert [to_plain(float, number) for number in (float("inf"), float("-inf"), 2)] == ["inf", "-inf", 2.0]
    assert from_plain(tuple[float, ...], ["inf", "-inf", 2]) == (float("inf"), float("-inf"), 2.0)


def test_a_kind_that_is_not_known() -> None:
    with pytest.raises(TraceDamaged) as caught:
        from_json("opend", {})
    assert str(caught.value) == "'opend' is not a kind of record that this version knows"

    class Unlisted(Record):
        pass

    with pytest.raises(TypeError) as refused:
        to_json(Unlisted())
    assert str(refused.value) == "Unlisted does not stand in KINDS"
    assert len(set(KINDS)) == len(KINDS)


def edited(**changes: object) -> bytes:
    """A line whose digests do not matter here, with some keys changed; None takes a key away."""
    content = {
        "seq": 2,
        "at": "2026-01-31T09:00:00Z",
        "kind": "noted",
        "data": {"text": "x"},
        "before": "",
        "check": "",
    }
    return json.dumps({key: value for key, value in (content | changes).items() if value is not None}).encode()


A_LINE_HAS = "a line is an object with the keys at, chain, packed, records, seq"


@pytest.mark.parametrize(
    ("line", "message"),
    [
        pytest.param(b"", "the line is not JSON", id="empty"),
        pytest.param(b"{'seq': 1}", "the line is not JSON", id="not-json"),
        pytest.param(b"NaN", "the line is not JSON", id="not-a-number"),
        pytest.param("\u00e9".encode(), "the line is not JSON", id="not-ascii"),
        pytest.param(b"[" * 100_000, "the line is not JSON", id="deep"),
        pytest.param(b"9" * 5_000, "the line is not JSON", id="number-without-end"),
        pytest.param(b"[]", A_LINE_HAS, id="list"),
        pytest.param(edited(seq=None), A_LINE_HAS, id="key-missing"),
        pytest.param(edited(more=1), A_LINE_HAS, id="key-too-many"),
        pytest.param(edited(seq=True), "'seq' is a whole number from 1", id="seq"),
        pytest.param(edited(at="yesterday"), "'at' is a time such as 2026-01-31T09:30:00Z", id="at"),
        pytest.param(edited(before=1), "'before', 'check' and 'kind' are texts", id="before"),
        pytest.param(edited(kind="x"), "'x' is not a kind of record that this version knows", id="kind"),
        pytest.param(
            edited(data={"txt": "x"}),
            "the record 'noted' does not fit: the record: 'txt' is not a field; there are text",
            id="data",
        ),
    ],
)
def test_a_broken_line_is_damage_with_its_number(tmp_path: Path, line: bytes, message: str) -> None:
    path = tmp_path / "7.jsonl"
    with TraceWriter.create(path, SteadyClock()) as writer:
        writer.append(A_JOB[:1])
        writer.append(A_JOB[1:2])
    first, second = path.read_bytes().splitlines()
    path.write_bytes(b"\n".join([first, line, second, b""]))
    with pytest.raises(TraceDamaged) as caught:
        read_trace(path)
    assert str(caught.value) == f"{path}:2:1: {message} [damaged-trace]"
    assert (caught.value.line, caught.value.reason) == (2, message)


def test_a_sealed_job_and_a_job_that_is_not_there(tmp_path: Path) -> None:
    path = tmp_path / "7.jsonl"
    sealed = f"{path} is sealed: the job is closed, and nothing can be added to it"
    with pytest.raises(TraceNotRead) as missing:
        TraceWriter.go_on(path, SteadyClock())
    assert str(missing.value) == f"{path} is not there: there is no such job to go on with"
    with pytest.raises(TraceNotRead) as unread:
        read_trace(path)
    assert str(unread.value) == f"{path} cannot be read: No such file or directory"
    with TraceWriter.create(path, SteadyClock()) as writer:
        writer.append(A_JOB)
        writer.seal()
        with pytest.raises(TraceSealed) as caught:
            writer.append([Noted("late")])
        assert str(caught.value) == sealed
    with pytest.raises(TraceSealed) as again:
        TraceWriter.go_on(path, SteadyClock())
    assert str(again.value) == sealed
