"""Edits to a trace, each as somebody might make it, and what is said about it."""

from __future__ import annotations

import base64
import hashlib
import json
from collections.abc import Callable
from datetime import timedelta
from pathlib import Path

import pytest

from expert.trace.errors import TraceDamaged
from expert.trace.lines import NOTHING_BEFORE, digest_in, digest_of, encode, in_base_64
from expert.trace.packing import Memory
from expert.trace.reading import read_trace
from expert.trace.records import Noted, Opened, Record, Sealed
from expert.trace.verifying import verify
from expert.trace.writing import TraceWriter
from tests.trace.trace_samples import NINE_O_CLOCK, SteadyClock

JOB: tuple[Record, ...] = (Opened("d", "p", "7"), Noted("two"), Noted("three"), Noted("four"))
SPELLED_ANEW = "the line was changed after it was written [line-changed]"


def changed(line: int) -> str:
    rest = f"line {line - 1} was replaced" if line > 1 else "it follows from another"
    return f"{line}:1: the line was changed after it was written, or {rest} [line-changed]"


Lines = list[bytes]


def sealed_job(path: Path) -> Lines:
    with TraceWriter.create(path, SteadyClock()) as writer:
        for record in JOB:
            writer.append([record])
        writer.seal()
    return path.read_bytes().splitlines()


def line_of(number: int, record: Record, before: str, seconds: int = 0) -> bytes:
    return encode(number, NINE_O_CLOCK + timedelta(seconds=seconds), [record], before, Memory())[0]


def chain(*records: Record) -> Lines:
    """Lines that follow from one another, whatever they say."""
    lines: Lines = []
    for number, record in enumerate(records, start=1):
        lines.append(line_of(number, record, digest_in(lines[-1]) if lines else NOTHING_BEFORE))
    return lines


def written_anew(lines: Lines) -> Lines:
    """Line 3 replaced by another whole line, its own check worked out anew."""
    return [*lines[:2], line_of(3, Noted("3"), digest_in(lines[1]), seconds=2), *lines[3:]]


def spread_out(lines: Lines) -> Lines:
    return [lines[0], json.dumps(json.loads(lines[1])).encode(), *lines[2:]]


@pytest.mark.parametrize(
    ("edit", "found"),
    [
        pytest.param(lambda lines: lines, [], id="untouched"),
        pytest.param(lambda ls: [*ls[:2], ls[2].replace(b"three", b"thirty"), *ls[3:]], [changed(3)], id="word"),
        pytest.param(lambda ls: [*ls[:4], ls[4].replace(b"T09", b"T10")], [changed(5)], id="time-of-the-last"),
        pytest.param(spread_out, ["2:1: " + SPELLED_ANEW], id="spelled-otherwise"),
        pytest.param(
            written_anew,
            [changed(4)],
            id="line-written-anew",
        ),
        pytest.param(
            lambda ls: [ls[0], *ls[2:]],
            [
                "2:1: number 2 is missing: here stands number 3 [number-gap]",
                "4:1: the seal is for another trace: it speaks of 4 lines, and 3 stand before it [seal-wrong]",
            ],
            id="line-taken-out",
        ),
        pytest.param(
            lambda ls: [ls[0], *ls[3:]],
            [
                "2:1: numbers 2 to 3 are missing: here stands number 4 [number-gap]",
                "3:1: the seal is for another trace: it speaks of 4 lines, and 2 stand before it [seal-wrong]",
            ],
            id="two-lines-taken-out",
        ),
        pytest.param(
            lambda ls: [*ls[:2], ls[1], *ls[2:]],
            [
                "3:1: number 3 is due, but here stands number 2: lines were put in or moved [number-gap]",
                "6:1: the seal is for another trace: it speaks of 4 lines, and 5 stand before it [seal-wrong]",
            ],
            id="line-doubled",
        ),
        pytest.param(
            lambda ls: ls[:4], ["4:1: the job is open: the trace has no seal yet [not-sealed]"], id="seal-taken-off"
        ),
        pytest.param(
            lambda ls: [*ls, line_of(6, Noted("late"), digest_in(ls[4]), seconds=9)],
            [
                "6:1: lines follow the seal [after-seal]",
                "6:1: the job is open: the trace has no seal yet [not-sealed]",
            ],
            id="line-after-the-seal",
        ),
        pytest.param(lambda ls: [*ls, b"{"], ["6:1: something follows the seal [after-seal]"], id="rest-after-seal"),
        pytest.param(
            lambda ls: [*ls[:3], b'{"at'],
            [
                "3:1: the job is open: the trace has no seal yet [not-sealed]",
                "4:1: the last line is whole, but it is not JSON: it was changed [torn-line]",
            ],
            id="last-line-broken",
        ),
        pytest.param(
            lambda _: chain(Noted("x"), Opened("d", "p", "7"), Sealed(7, "d")),
            [
                "1:1: a trace begins with 'opened', not with 'noted' [not-opened]",
                "2:1: the job is opened a second time [opened-twice]",
                "3:1: the seal is for another trace: it speaks of 7 lines, and 2 stand before it [seal-wrong]",
            ],
            id="well-chained-nonsense",
        ),
        pytest.param(
            lambda _: [line_of(1, JOB[0], digest_of(b"x"))],
            [
                changed(1),
                "1:1: the job is open: the trace has no seal yet [not-sealed]",
            ],
            id="beginning-of-another",
        ),
        pytest.param(lambda _: [], ["1:1: the job is open: the trace has no seal yet [not-sealed]"], id="empty"),
    ],
)
def test_what_is_found(tmp_path: Path, edit: Callable[[Lines], Lines], found: list[str]) -> None:
    path = tmp_path / "7.jsonl"
    path.write_bytes(b"".join(line + b"\n" for line in edit(sealed_job(path))))
    assert [str(problem) for problem in verify(read_trace(path))] == [f"{path}:{text}" for text in found]


def test_a_clock_that_was_put_back_is_a_note_and_the_true_time_stands(tmp_path: Path) -> None:
    path = tmp_path / "7.jsonl"
    clock = SteadyClock()
    with TraceWriter.create(path, clock) as writer:
        writer.append(JOB[:1])
        clock.moment = NINE_O_CLOCK - timedelta(hours=1)
        writer.append(JOB[1:2])
        writer.seal()
    trace = read_trace(path)
    assert [line.at.hour for line in trace.lines] == [9, 8, 8]
    (problem,) = verify(trace)
    assert problem.grade == "note"
    assert str(problem) == (
        f"{path}:2:1: the clock was put back: 2026-01-31T08:00:00Z follows 2026-01-31T09:00:00Z [clock-back]"
    )


def test_a_changed_trace_is_not_gone_on_with(tmp_path: Path) -> None:
    path = tmp_path / "7.jsonl"
    lines = sealed_job(path)
    path.write_bytes(b"\n".join([lines[0], lines[1].replace(b"two", b"2"), lines[2], b""]))
    before = path.read_bytes()
    with pytest.raises(TraceDamaged) as caught:
        TraceWriter.go_on(path, SteadyClock())
    assert str(caught.value) == f"{path}:{changed(2).replace('line-changed', 'damaged-trace')}"
    assert path.read_bytes() == before
    with pytest.raises(ValueError, match="a seal is written by seal"):
        TraceWriter.create(tmp_path / "8.jsonl", SteadyClock()).append([Sealed(0, "")])


def test_the_digests_can_be_worked_out_with_ordinary_tools(tmp_path: Path) -> None:
    # SHA-256 of nothing, as published with the test vectors of FIPS 180-4 (NIST, SHA256ShortMsg, Len = 0).
    assert NOTHING_BEFORE == "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855"
    lines = sealed_job(tmp_path / "7.jsonl")
    before = NOTHING_BEFORE
    for line in lines:
        content = json.loads(line)
        assert list(content) == ["at", "chain", "records", "seq"]
        chain = content.pop("chain")
        without = json.dumps(content, separators=(",", ":"), sort_keys=True).encode()
        before = hashlib.sha256(before.encode() + without).hexdigest()
        assert chain == in_base_64(before) and bytes.fromhex(before) == base64.urlsafe_b64decode(chain + "=")
