"""What is written is read back, and nothing that was acknowledged gets lost."""

from __future__ import annotations

import tempfile
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from expert.trace.errors import TraceDamaged
from expert.trace.kinds import from_json, kind_of, to_json
from expert.trace.lines import read_object, spell
from expert.trace.reading import read_trace
from expert.trace.records import KINDS, Noted, Opened, Record, Sealed
from expert.trace.verifying import verify
from expert.trace.writing import TraceWriter
from tests.trace.trace_samples import A_JOB, ONE_OF_EACH_KIND, RECORDS, SteadyClock

OPENED = A_JOB[0]
LATER_RECORDS = RECORDS.filter(lambda record: not isinstance(record, Opened))


def write_job(path: Path, batches: list[list[Record]], seal: bool = False) -> None:
    with TraceWriter.create(path, SteadyClock()) as writer:
        for batch in batches:
            writer.append(batch)
        if seal:
            writer.seal()


@pytest.mark.parametrize("kind", KINDS, ids=kind_of)
@settings(max_examples=25, deadline=None)
@given(data=st.data())
def test_every_kind_reads_back_from_its_json(kind: type[Record], data: st.DataObject) -> None:
    record = data.draw(ONE_OF_EACH_KIND[kind])
    assert from_json(kind_of(kind), read_object(spell(to_json(record)))) == record


@settings(max_examples=40, deadline=None)
@given(earlier=st.lists(st.lists(LATER_RECORDS, max_size=4), max_size=3), later=st.lists(LATER_RECORDS, max_size=4))
def test_any_batches_read_back_equal_also_across_a_pause(earlier: list[list[Record]], later: list[Record]) -> None:
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "7.jsonl"
        write_job(path, [[OPENED], *earlier])
        with TraceWriter.go_on(path, SteadyClock()) as writer:
            writer.append(later)
            writer.seal()
        trace = read_trace(path)
        expected = [OPENED, *(record for batch in earlier for record in batch), *later]
        assert list(trace.records[:-1]) == expected
        assert trace.records[-1] == Sealed(len(trace.lines) - 1, trace.lines[-2].digest)
        assert [problem for problem in verify(trace) if problem.code != "clock-back"] == []


@pytest.mark.parametrize("seal", [False, True], ids=["open", "sealed"])
def test_a_file_cut_at_any_byte_loses_only_the_line_that_was_cut(tmp_path: Path, seal: bool) -> None:
    path = tmp_path / "7.jsonl"
    write_job(path, [[record] for record in A_JOB], seal)
    whole = path.read_bytes()
    full = read_trace(path)
    cut_file = tmp_path / "cut.jsonl"
    for length in range(len(whole)):
        cut_file.write_bytes(whole[:length])
        trace = read_trace(cut_file)
        assert trace.lines == full.lines[: whole[:length].count(b"\n")]
        assert trace.torn == whole[:length].rpartition(b"\n")[2]
        assert not [problem for problem in verify(trace) if problem.grade == "damage"]


@pytest.mark.parametrize("bit", [0, 1, 5], ids=lambda bit: f"bit{bit}")
def test_flipping_any_byte_of_a_sealed_trace_is_detected(tmp_path: Path, bit: int) -> None:
    path = tmp_path / "7.jsonl"
    write_job(path, [[A_JOB[0]], list(A_JOB[1:3]), list(A_JOB[3:])], seal=True)
    whole = path.read_bytes()
    assert verify(read_trace(path)) == ()
    for place in range(len(whole)):
        flipped = bytearray(whole)
        flipped[place] ^= 1 << bit
        path.write_bytes(flipped)
        try:
            found = verify(read_trace(path))
        except TraceDamaged:
            continue
        assert found, f"byte {place} of {len(whole)}"


def test_a_torn_tail_is_kept_beside_the_trace_and_the_job_goes_on(tmp_path: Path) -> None:
    path = tmp_path / "7.jsonl"
    write_job(path, [list(A_JOB)])
    with path.open("ab") as file:
        file.write(b'{"at":"2026-01')
    with TraceWriter.go_on(path, SteadyClock()) as writer:
        assert writer.trace.torn == b'{"at":"2026-01'
        writer.append([Noted("went on")])
    trace = read_trace(path)
    assert trace.records == (*A_JOB, Noted("went on"))
    assert [problem.code for problem in verify(trace)] == ["not-sealed"]
    assert (tmp_path / "7.jsonl.torn").read_bytes() == b'{"at":"2026-01\n'
