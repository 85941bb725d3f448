"""Skimming gives the records that reading gives, and finds the same changes."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from expert.trace.errors import TraceDamaged
from expert.trace.kinds import KIND_NAMES, from_json, kind_of, to_json
from expert.trace.lines import TIME_FORMAT
from expert.trace.older_lines import as_now
from expert.trace.packing import whole_in
from expert.trace.reading import read_trace
from expert.trace.skimming import bytes_of, skim_bytes
from expert.trace.verifying import verify

DEMOS = sorted((Path(__file__).resolve().parents[2] / "transcripts_demo").glob("*.jsonl"))
ALL_KINDS = dict.fromkeys(KIND_NAMES, b"")
SHORT = min(DEMOS, key=lambda path: path.stat().st_size).read_bytes()


OLDER = sorted((Path(__file__).resolve().parents[1] / "kept" / "second").glob("*.jsonl"))


@pytest.mark.parametrize("path", OLDER, ids=lambda path: path.stem)
def test_of_an_older_trace_the_records_are_those_of_a_careful_reading(path: Path) -> None:
    trace = read_trace(path)
    skimmed = skim_bytes(bytes_of(path), ALL_KINDS)
    assert [(r.line, r.at, from_json(r.kind, as_now(r.kind, r.data))) for r in skimmed.records] == [
        (r.line, r.at.strftime(TIME_FORMAT), r.record) for r in trace.recorded
    ]
    assert (skimmed.lines, skimmed.damage) == (len(trace.lines), "")


@pytest.mark.parametrize("path", DEMOS, ids=lambda path: path.stem)
def test_the_plain_records_are_those_of_a_careful_reading(path: Path) -> None:
    trace = read_trace(path)
    skimmed = skim_bytes(bytes_of(path), ALL_KINDS)
    plain = [r for r in trace.recorded if not isinstance(r.record, whole_in(trace.lines[r.line - 1].records))]
    assert [(r.line, r.at, r.kind) for r in skimmed.records] == [
        (r.line, r.at.strftime(TIME_FORMAT), kind_of(type(r.record))) for r in plain
    ]
    for skim_of_it, careful in zip(skimmed.records, plain, strict=True):
        whole = to_json(careful.record)
        assert all(whole[name] == value for name, value in skim_of_it.data.items() if name != "state")
    assert (skimmed.lines, skimmed.damage) == (len(trace.lines), "")


def test_only_what_is_wanted() -> None:
    skimmed = skim_bytes(SHORT, {"answered": b"", "moved": b""})
    assert {record.kind for record in skimmed.records} == {"answered", "moved"}
    older = skim_bytes(OLDER[0].read_bytes(), {"put": b'"prompt":"intake"'})
    assert {record.data["prompt"] for record in older.records} == {"intake"}


@settings(max_examples=150, deadline=None)
@given(place=st.integers(0, len(SHORT) - 2), byte=st.integers(32, 126))
def test_no_change_of_a_byte_goes_unnoticed(place: int, byte: int) -> None:
    changed = SHORT[:place] + bytes([byte]) + SHORT[place + 1 :]
    assert bool(skim_bytes(changed, {}).damage) == (changed != SHORT)


@settings(max_examples=60, deadline=None)
@given(cut=st.integers(1, len(SHORT)))
def test_a_torn_end_is_no_damage_but_a_missing_beginning_is(cut: int) -> None:
    assert skim_bytes(SHORT[:-cut], {}).damage in ("", "there is no whole line")
    assert skim_bytes(SHORT[cut:], {}).damage


@pytest.mark.parametrize("drop", [0, 3, 20])
def test_a_missing_line_is_found_where_careful_verifying_finds_it(tmp_path: Path, drop: int) -> None:
    lines = SHORT.splitlines(keepends=True)
    del lines[drop]
    path = tmp_path / "7.jsonl"
    path.write_bytes(b"".join(lines))
    skimmed = skim_bytes(bytes_of(path), {})
    assert skimmed.damage == f"line {drop + 1} does not follow from the line before it"
    try:
        found = {problem.line for problem in verify(read_trace(path)) if problem.grade == "damage"}
    except TraceDamaged as problem:  # what follows is packed with what is missing
        found = {problem.line}
    assert drop + 1 in found


def test_what_is_no_trace() -> None:
    skimmed = skim_bytes(b'{"a":1}\n', {})
    assert skimmed.damage == str(TraceDamaged("a line is an object with the keys at, chain, packed, records, seq"))
