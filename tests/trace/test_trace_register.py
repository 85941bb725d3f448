"""The register of a folder: what a trace alone cannot show, and that it is never ahead of a trace."""

from __future__ import annotations

import os
import shutil
from collections.abc import Callable
from datetime import datetime, timedelta
from pathlib import Path

import pytest

from expert.trace.agreeing import disagreements
from expert.trace.errors import TraceDamaged, TraceExists, TraceNotWritten
from expert.trace.places import next_job_number
from expert.trace.reading import read_trace
from expert.trace.records import Noted
from expert.trace.register import NAME, read_register
from expert.trace.verifying import verify
from expert.trace.writing import TraceWriter
from tests.trace.trace_samples import A_JOB, NINE_O_CLOCK, SteadyClock

LATER = NINE_O_CLOCK + timedelta(hours=1)


def written(path: Path, *, seal: bool = True, at: datetime = NINE_O_CLOCK) -> Path:
    """A job written in six steps, closed or left open."""
    with TraceWriter.create(path, SteadyClock(at)) as writer:
        for record in A_JOB:
            writer.append([record])
        if seal:
            writer.seal()
    return path


def said_of(path: Path) -> list[str]:
    trace = read_trace(path)
    problems = (*verify(trace), *disagreements(trace, read_register(path.parent / NAME)))
    return [f"{problem.line} {problem.grade} {problem.code}" for problem in problems]


def cut(path: Path) -> None:
    path.write_bytes(b"".join(path.read_bytes().splitlines(keepends=True)[:-2]))


def written_anew(path: Path) -> None:
    """The same job with other times: every digest is worked out again, and the chain is whole."""
    elsewhere = path.parent / "elsewhere"
    with TraceWriter.create(elsewhere / path.name, SteadyClock(LATER)) as writer:
        for record in A_JOB:
            writer.append([record])
        writer.seal()
    shutil.copy(elsewhere / path.name, path)


def nul_over_the_end(path: Path) -> None:
    content = path.read_bytes()
    path.write_bytes(content[:-100] + b"\0" * 100)


def nul_after_the_end(path: Path) -> None:
    with path.open("ab") as file:
        file.write(b"\0" * 300)


@pytest.mark.parametrize(
    ("change", "seal", "said"),
    [
        (None, True, []),
        (None, False, ["6 note not-sealed"]),
        (cut, True, ["5 note not-sealed", "5 damage cut-off"]),
        (cut, False, ["4 note not-sealed", "4 damage cut-off"]),
        (written_anew, True, ["1 damage replaced"]),
        (nul_over_the_end, True, ["7 note torn-line", "6 note not-sealed", "7 damage overwritten", "6 damage cut-off"]),
        (nul_after_the_end, False, ["7 note torn-line", "6 note not-sealed"]),
    ],
)
def test_what_the_file_alone_does_not_show_the_register_does(
    change: Callable[[Path], None] | None, seal: bool, said: list[str], tmp_path: Path
) -> None:
    path = written(tmp_path / "7.jsonl", seal=seal)
    if change is not None:
        change(path)
    assert sorted(said_of(path)) == sorted(said)


def test_a_cut_job_is_not_gone_on_with(tmp_path: Path) -> None:
    path = written(tmp_path / "7.jsonl")
    cut(path)
    with pytest.raises(TraceDamaged) as caught:
        TraceWriter.go_on(path, SteadyClock())
    assert str(caught.value) == (
        f"{path}:5:1: the end was cut off: 5 lines are here, and the register of the folder knows of 7, and the job "
        "was closed [damaged-trace]"
    )


def test_a_renamed_trace_is_known_and_still_held_against_the_register(tmp_path: Path) -> None:
    path = written(tmp_path / "7.jsonl", seal=False)
    other = path.rename(tmp_path / "8.jsonl")
    assert said_of(other) == ["6 note not-sealed", "1 note renamed"]
    cut(other)
    assert said_of(other) == ["4 note not-sealed", "1 note renamed", "4 damage cut-off"]


def test_a_trace_from_elsewhere_is_a_note(tmp_path: Path) -> None:
    written(tmp_path / "7.jsonl")
    other = written(tmp_path / "elsewhere" / "8.jsonl", at=LATER)
    assert said_of(Path(shutil.copy(other, tmp_path / "9.jsonl"))) == ["1 note not-registered"]


def test_what_was_cut_before_the_register_knew_of_it_is_not_vouched_for(tmp_path: Path) -> None:
    elsewhere = written(tmp_path / "elsewhere" / "7.jsonl", seal=False)
    cut(elsewhere)
    path = Path(shutil.copy(elsewhere, tmp_path / "7.jsonl"))
    with TraceWriter.go_on(path, SteadyClock(LATER)) as writer:
        writer.append([A_JOB[-1]])
    assert said_of(path) == ["5 note not-sealed", "5 note known-late"]


@pytest.mark.parametrize("line", [1, 2, 3, 4])
def test_a_change_of_the_register_is_found(line: int, tmp_path: Path) -> None:
    path = written(tmp_path / "7.jsonl")
    register = tmp_path / NAME
    lines = register.read_bytes().splitlines(keepends=True)
    for changed in (lines[line - 1].replace(b'"lines":', b'"lines":1'), b""):
        register.write_bytes(b"".join((*lines[: line - 1], changed, *lines[line:])))
        last_is_gone = line == len(lines) and not changed
        assert (f"{line} damage register-changed" in said_of(path)) is not last_is_gone


def test_the_end_of_the_register_is_the_limit_of_what_it_can_show(tmp_path: Path) -> None:
    path = written(tmp_path / "7.jsonl")
    cut(path)
    cut(tmp_path / NAME)
    assert said_of(path) == ["5 note not-sealed"]


def test_two_jobs_stand_in_one_chain(tmp_path: Path) -> None:
    one, two = (TraceWriter.create(tmp_path / f"{number}.jsonl", SteadyClock()) for number in (1, 2))
    for record in A_JOB:
        one.append([record])
        two.append([record])
    one.seal()
    two.seal()
    register = read_register(tmp_path / NAME)
    assert register is not None and not register.broken
    assert len(register.of("1.jsonl")) == len(register.of("2.jsonl")) == len(A_JOB) + 1
    last = [register.of(f"{number}.jsonl")[-1] for number in (1, 2)]
    assert all(entry.sealed and entry.lines == len(A_JOB) + 1 for entry in last)


def test_a_step_counts_only_when_the_register_has_it(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = written(tmp_path / "7.jsonl", seal=False)
    before, register = path.read_bytes(), (tmp_path / NAME).read_bytes()
    with TraceWriter.go_on(path, SteadyClock(LATER)) as writer:
        real = os.fsync

        def full(descriptor: int) -> None:
            if os.fstat(descriptor).st_ino == (tmp_path / NAME).stat().st_ino:
                raise OSError(28, "No space left on device")
            real(descriptor)

        monkeypatch.setattr(os, "fsync", full)
        with pytest.raises(TraceNotWritten) as caught:
            writer.append([Noted("lime")])
        monkeypatch.setattr(os, "fsync", real)
        assert str(caught.value) == (
            f"{tmp_path / NAME} cannot be written: No space left on device. This step was not recorded."
        )
        assert (path.read_bytes(), (tmp_path / NAME).read_bytes()) == (before, register)
        writer.append([Noted("lime")])
    assert said_of(path) == ["7 note not-sealed"]


@pytest.mark.parametrize("torn", [b'{"at":"20', b'{"at":"2026"}'])
def test_a_torn_line_of_the_register_is_written_over(torn: bytes, tmp_path: Path) -> None:
    path = written(tmp_path / "7.jsonl", seal=False)
    with (tmp_path / NAME).open("ab") as file:
        file.write(torn)
    with TraceWriter.go_on(path, SteadyClock(LATER)) as writer:
        writer.append([Noted("lime")])
    assert said_of(path) == ["7 note not-sealed"]


def test_the_number_of_a_job_that_is_gone_is_not_given_again(tmp_path: Path) -> None:
    path = written(tmp_path / "7.jsonl")
    path.unlink()
    with pytest.raises(TraceExists) as caught:
        TraceWriter.create(path, SteadyClock())
    assert str(caught.value) == (f"{path} was there by the register of its folder, and is gone: take another number")
    assert next_job_number(tmp_path) == "0008"
