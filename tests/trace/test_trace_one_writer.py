"""One writer for each job: a second terminal, a number that is taken, a file that others changed."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from expert.trace.errors import JobInUse, TraceError, TraceExists
from expert.trace.writing import TraceWriter
from tests.trace.child_processes import said_by_a_child
from tests.trace.trace_samples import A_JOB, SteadyClock


def test_a_second_writer_is_told_that_the_job_is_in_use(tmp_path: Path) -> None:
    path = tmp_path / "7.jsonl"
    message = f"{path} is in use: another terminal is working on this job"

    def open_the_same(pipe: int) -> None:
        for begin in (TraceWriter.go_on, TraceWriter.create):
            try:
                begin(path, SteadyClock())
            except JobInUse as problem:
                os.write(pipe, f"{problem}\n".encode())

    with TraceWriter.create(path, SteadyClock()) as writer:
        writer.append(A_JOB)
        with pytest.raises(JobInUse) as caught:
            TraceWriter.go_on(path, SteadyClock())
        assert str(caught.value) == message
        assert said_by_a_child(open_the_same) == f"{message}\n{message}\n"
    with TraceWriter.go_on(path, SteadyClock()) as writer:
        assert writer.trace.records == A_JOB


def test_the_lock_of_a_refused_writer_is_free_again(tmp_path: Path) -> None:
    path = tmp_path / "7.jsonl"
    TraceWriter.create(path, SteadyClock()).close()
    path.write_bytes(b"{}\n{}\n")
    for _ in range(2):
        with pytest.raises(TraceError, match="a line is an object with the keys"):
            TraceWriter.go_on(path, SteadyClock())


def test_a_job_number_that_is_taken_and_a_file_that_a_crash_left_empty(tmp_path: Path) -> None:
    path = tmp_path / "jobs" / "7.jsonl"
    TraceWriter.create(path, SteadyClock()).close()
    assert path.read_bytes() == b""
    with TraceWriter.create(path, SteadyClock()) as writer:
        writer.append(A_JOB)
    with pytest.raises(TraceExists) as caught:
        TraceWriter.create(path, SteadyClock())
    assert str(caught.value) == f"{path} is there already: resume that job, or take another number"
