"""The disk and what happens to it: killed writers, full disks, read-only folders, interrupts, sizes."""

from __future__ import annotations

import errno
import os
import random
import resource
import shutil
import signal
import subprocess
import tempfile
from collections.abc import Iterator
from pathlib import Path

import pytest

from expert.trace.errors import TraceNotWritten, TraceTooLarge
from expert.trace.reading import read_trace
from expert.trace.records import Noted
from expert.trace.verifying import verify
from expert.trace.writing import TraceWriter
from tests.trace.child_processes import in_a_child, said_by_a_child
from tests.trace.trace_samples import A_JOB, SteadyClock


def test_every_acknowledged_line_survives_the_killing_of_the_writer(tmp_path: Path) -> None:
    path = tmp_path / "7.jsonl"
    with TraceWriter.create(path, SteadyClock()) as writer:
        writer.append(A_JOB)
    chance = random.Random(7)
    acknowledged = len(A_JOB)

    def write_for_ever(pipe: int) -> None:
        with TraceWriter.go_on(path, SteadyClock()) as writer:
            count = len(writer.trace.records)
            while True:
                sizes = [chance.randrange(1, 60_000) for _ in range(chance.randrange(1, 4))]
                writer.append(Noted(f"{count + n} " + "x" * size) for n, size in enumerate(sizes, start=1))
                count += len(sizes)
                os.write(pipe, f"{count}\n".encode())

    for _ in range(40):
        process, reading = in_a_child(write_for_ever)
        with os.fdopen(reading) as pipe:
            for _ in range(chance.randrange(1, 4)):
                acknowledged = int(pipe.readline())
            os.kill(process, signal.SIGKILL)
            os.waitpid(process, 0)
            # What it acknowledged between our last look and its death counts too.
            acknowledged = int((["", *pipe.read().split()][-1]) or acknowledged)
        chance.random()
        trace = read_trace(path)
        assert len(trace.records) >= acknowledged
        assert [problem for problem in verify(trace) if problem.grade == "damage"] == []
        notes = [record for record in trace.records if isinstance(record, Noted)]
        expected = list(range(len(A_JOB) + 1, len(A_JOB) + 1 + len(notes)))
        assert [int(note.text.split()[0]) for note in notes] == expected


class FullDisk:
    """A real file whose disk takes only so many bytes, and may refuse to be cut back."""

    def __init__(self, path: Path, room: int, cuts: bool) -> None:
        self.file = path.open("r+b", buffering=0)
        self.room = room
        self.cuts = cuts

    def write(self, content: bytes) -> int | None:
        if not self.room:
            raise OSError(errno.ENOSPC, "No space left on device")
        written = self.file.write(content[: self.room])
        self.room -= written
        return written

    def truncate(self, size: int) -> int:
        if not self.cuts:
            raise OSError(errno.EIO, "Input/output error")
        return self.file.truncate(size)

    def seek(self, offset: int) -> int:
        return self.file.seek(offset)

    def fileno(self) -> int:
        return self.file.fileno()

    def close(self) -> None:
        self.file.close()


def test_a_full_disk_says_so_and_the_same_batch_can_be_tried_again(tmp_path: Path) -> None:
    path = tmp_path / "7.jsonl"
    with TraceWriter.create(path, SteadyClock()) as writer:
        writer.append(A_JOB)
        before = path.read_bytes()
        writer._file._file.close()
        writer._file._file = disk = FullDisk(path, room=100, cuts=True)
        with pytest.raises(TraceNotWritten) as caught:
            writer.append([Noted("lost?")])
        assert str(caught.value) == (f"{path} cannot be written: No space left on device. This step was not recorded.")
        assert path.read_bytes() == before
        disk.room = 10_000
        writer.append([Noted("there")])
    assert read_trace(path).records == (*A_JOB, Noted("there"))


def test_a_disk_that_cannot_even_be_cut_back_leaves_a_torn_line_and_the_job_can_be_resumed(tmp_path: Path) -> None:
    path = tmp_path / "7.jsonl"
    with TraceWriter.create(path, SteadyClock()) as writer:
        writer.append(A_JOB)
        writer._file._file.close()
        writer._file._file = disk = FullDisk(path, room=100, cuts=False)
        with pytest.raises(TraceNotWritten):
            writer.append([Noted("lost?")])
        disk.room = 10_000
        with pytest.raises(TraceNotWritten) as caught:
            writer.append([Noted("lost?")])
        assert str(caught.value) == f"{path} is in doubt after an earlier error: leave the job and resume it"
    assert len(read_trace(path).torn) == 100
    with TraceWriter.go_on(path, SteadyClock()) as writer:
        writer.append([Noted("there")])
    assert read_trace(path).records == (*A_JOB, Noted("there"))


def test_a_limit_set_by_the_system_in_the_middle_of_a_line_leaves_the_file_as_it_was(tmp_path: Path) -> None:
    path = tmp_path / "7.jsonl"

    def write_beyond_the_limit(pipe: int) -> None:
        with TraceWriter.create(path, SteadyClock()) as writer:
            writer.append(A_JOB)
            length = path.stat().st_size
            resource.setrlimit(resource.RLIMIT_FSIZE, (length + 50, resource.RLIM_INFINITY))
            try:
                writer.append([Noted("lost?")])
            except TraceNotWritten as problem:
                os.write(pipe, f"{path.stat().st_size - length} {problem}".encode())
            resource.setrlimit(resource.RLIMIT_FSIZE, (resource.RLIM_INFINITY, resource.RLIM_INFINITY))
            writer.append([Noted("there")])

    expected = f"0 {path} cannot be written: File too large. This step was not recorded."
    assert said_by_a_child(write_beyond_the_limit) == expected
    assert read_trace(path).records == (*A_JOB, Noted("there"))


@pytest.fixture
def small_disk(tmp_path: Path) -> Iterator[Path]:
    """A disk of 64 kbyte. Where it cannot be mounted, the tests with a failing file and a system limit stand in."""
    folder = tmp_path / "disk"
    folder.mkdir()
    command = ["mount", "-t", "tmpfs", "-o", "size=64k", "tmpfs", str(folder)]
    if not shutil.which("mount") or subprocess.run(command, capture_output=True, check=False).returncode:
        pytest.skip("no small disk can be mounted here")
    yield folder
    subprocess.run(["umount", str(folder)], check=True)


def test_a_small_disk_that_runs_full(small_disk: Path) -> None:
    path = small_disk / "7.jsonl"
    recorded = list(A_JOB)
    with TraceWriter.create(path, SteadyClock()) as writer:
        writer.append(A_JOB)
        with pytest.raises(TraceNotWritten) as caught:
            for number in range(100):
                batch = [Noted(f"{number} " + "x" * 3000)]
                writer.append(batch)
                recorded += batch
        assert str(caught.value) == f"{path} cannot be written: No space left on device. This step was not recorded."
        assert len(recorded) > len(A_JOB)
        writer.append([Noted("short")])
    trace = read_trace(path)
    assert (list(trace.records), trace.torn) == ([*recorded, Noted("short")], b"")


def test_a_read_only_folder_is_refused_before_anything_is_asked() -> None:
    folder = Path(tempfile.mkdtemp())
    try:
        folder.chmod(0o555)
        path = folder / "7.jsonl"

        def open_as_nobody(pipe: int) -> None:
            if os.geteuid() == 0:
                os.setuid(65534)
            try:
                TraceWriter.create(path, SteadyClock())
            except TraceNotWritten as problem:
                os.write(pipe, str(problem).encode())

        expected = f"{path} cannot be written: Permission denied. The job was not opened."
        assert said_by_a_child(open_as_nobody) == expected
        assert list(folder.iterdir()) == []
    finally:
        folder.chmod(0o755)
        shutil.rmtree(folder)


def test_an_interrupt_in_the_middle_of_a_write_records_nothing_of_it(tmp_path: Path) -> None:
    class Interrupted(FullDisk):
        def write(self, content: bytes) -> int | None:
            self.file.write(content[:50])
            raise KeyboardInterrupt

    path = tmp_path / "7.jsonl"
    with TraceWriter.create(path, SteadyClock()) as writer:
        writer.append(A_JOB)
        before = path.read_bytes()
        real = writer._file._file
        writer._file._file = Interrupted(path, 0, cuts=True)
        with pytest.raises(KeyboardInterrupt):
            writer.append([Noted("lost?")])
        assert path.read_bytes() == before
        writer._file._file.close()
        writer._file._file = real
        writer.append([Noted("there")])
    assert read_trace(path).records == (*A_JOB, Noted("there"))


def test_sizes_that_no_job_has_are_refused(tmp_path: Path) -> None:
    path = tmp_path / "7.jsonl"
    with TraceWriter.create(path, SteadyClock()) as writer:
        writer.append(A_JOB)
        with pytest.raises(TraceTooLarge) as caught:
            writer.append([Noted("x" * 1_000_000)])
        assert str(caught.value) == "a step of 1,000,125 bytes; a line may have 1,000,000"
    assert read_trace(path).records == A_JOB
    with path.open("ab") as file:
        file.write(b"x" * 1_000_001)
    with pytest.raises(TraceTooLarge) as caught:
        read_trace(path)
    assert str(caught.value) == f"{path}:2:1: the line is over 1,000,000 bytes"
    os.truncate(path, 200_000_001)  # a file with a hole takes no room on the disk
    with pytest.raises(TraceTooLarge) as caught:
        read_trace(path)
    assert str(caught.value) == f"{path} has 200,000,001 bytes; a trace has at most 200,000,000"


def test_a_batch_is_waited_for_on_the_disk_in_whole_before_it_counts(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "7.jsonl"
    waited_for: list[tuple[str, int]] = []
    wait = os.fsync

    def watched(descriptor: int) -> None:
        wait(descriptor)
        status = os.fstat(descriptor)
        named = {found.stat().st_ino: found.suffix for found in (path, tmp_path / "jobs.register") if found.exists()}
        waited_for.append((named.get(status.st_ino, "folder"), status.st_size))

    monkeypatch.setattr(os, "fsync", watched)
    with TraceWriter.create(path, SteadyClock()) as writer:
        assert [what for what, _ in waited_for] == ["folder"]
        for batch in (A_JOB[:1], A_JOB[1:]):
            writer.append(batch)
            # The trace before the register, which must never know of more than the trace has.
            register = (tmp_path / "jobs.register").stat().st_size
            assert waited_for[-2:] == [(".jsonl", path.stat().st_size), (".register", register)]
