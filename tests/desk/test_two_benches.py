"""Two benches opened at once in one folder both get a number, also where both saw the same one free."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from expert.desk import opening
from expert.desk.opening import under_a_number
from expert.trace.errors import JobInUse, TraceExists
from expert.trace.reading import read_trace
from expert.trace.records import Opened
from expert.trace.writing import TraceWriter
from tests.dialogue.small_folder import small_folder
from tests.trace.trace_samples import A_JOB, SteadyClock

AT_ONCE = 4


def test_several_programs_at_once(tmp_path: Path) -> None:
    words = ["bench", "--plain", "--rules", str(small_folder(tmp_path / "rules")), "--jobs", str(tmp_path / "jobs")]
    started = [
        subprocess.Popen([sys.executable, "-m", "expert.cli", *words], stdin=subprocess.PIPE, stdout=subprocess.PIPE)
        for _ in range(AT_ONCE)
    ]
    for program in started:
        program.communicate(b"Ann\n")
    assert [program.returncode for program in started] == [0] * AT_ONCE
    numbers = [f"{number:04d}" for number in range(1, AT_ONCE + 1)]
    assert sorted(path.stem for path in (tmp_path / "jobs").glob("*.jsonl")) == numbers
    for number in numbers:
        records = read_trace(tmp_path / "jobs" / f"{number}.jsonl").records
        assert [record.job for record in records if isinstance(record, Opened)] == [number]


def test_a_number_that_is_taken_in_between_is_left_to_who_took_it(tmp_path: Path) -> None:
    tried = []

    def begin(path: Path, number: str) -> str:
        tried.append(number)
        if len(tried) == 1:  # another terminal was quicker, and holds it
            with TraceWriter.create(path, SteadyClock()) as other:
                other.append(A_JOB)
                TraceWriter.create(path, SteadyClock())
        TraceWriter.create(path, SteadyClock()).close()
        return number

    assert under_a_number(tmp_path, None, begin) == "0002"
    assert tried == ["0001", "0002"]


def test_a_number_that_was_asked_for_is_that_one_or_none(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(opening, "PATIENCE", 0.05)

    def taken(path: Path, number: str) -> None:
        raise TraceExists(f"{number} is there")

    def held(path: Path, number: str) -> None:
        raise JobInUse(f"{number} is in use")

    with pytest.raises(TraceExists, match="7 is there"):
        under_a_number(tmp_path, "7", taken)
    with pytest.raises(JobInUse, match="0001 is in use"):
        under_a_number(tmp_path, None, held)
