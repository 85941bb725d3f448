"""The file under a trace: held by one writer, grown only at its end, on the disk before anybody is told so."""

from __future__ import annotations

import contextlib
import errno
import hashlib
import os
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Protocol, Self

from filelock import FileLock, Timeout

from expert.trace.errors import JobInUse, TraceExists, TraceNotWritten, TraceTooLarge
from expert.trace.lines import LONGEST_LINE
from expert.trace.meddling import Seen, refuse_meddling, seen
from expert.trace.reading import LARGEST_FILE
from expert.trace.sentences import keeping as say


class RawFile(Protocol):
    """What is needed of an unbuffered file."""

    def write(self, content: bytes, /) -> int | None: ...
    def seek(self, offset: int, /) -> int: ...
    def truncate(self, size: int, /) -> int: ...
    def fileno(self) -> int: ...
    def close(self) -> None: ...


class TraceFile:
    """An open trace file. `length` is the number of bytes that are recorded for certain; `recorded`: these."""

    def __init__(self, path: Path, file: RawFile, lock: FileLock, recorded: bytes) -> None:
        self.path = path
        self.length = len(recorded)
        self._digest = hashlib.sha256(recorded)
        self._seen: Seen = None
        self._file = file
        self._lock = lock
        self._is_lost = False

    @classmethod
    def create(cls, path: Path) -> Self:
        """A new file, in a new folder when needed. Raises TraceExists, JobInUse, TraceNotWritten.

        A file without a whole line is what a full disk or a crash leaves of a job that never began: it is taken over,
        and what stands in it is kept in `<name>.torn`.
        """
        with _written(path, say.JOB_NOT_OPENED):
            path.parent.mkdir(parents=True, exist_ok=True)
        with _written(path, say.JOB_NOT_OPENED), _locked(path) as lock:
            try:
                file = path.open("x+b", buffering=0)
            except FileExistsError:
                torn = _torn_beginning(path)
                if torn is None:
                    raise TraceExists(say.there_already(path)) from None
                return cls.reopen(path, lock, 0, torn)
            try:
                _keep_name(path)
            except BaseException:
                file.close()
                raise
            return cls(path, file, lock, b"")

    @classmethod
    @contextlib.contextmanager
    def held(cls, path: Path) -> Iterator[FileLock]:
        """Hold an existing trace against other writers while it is read; released again when the block raises."""
        with _written(path, say.JOB_NOT_TAKEN_UP), _locked(path) as lock:
            yield lock

    @classmethod
    def reopen(cls, path: Path, lock: FileLock, length: int, torn: bytes) -> Self:
        """Go on after `length` bytes. What follows them (`torn`) is first saved in `<name>.torn`, then cut off."""
        file = path.open("r+b", buffering=0)
        try:
            if torn:
                with path.with_name(path.name + ".torn").open("ab") as kept:
                    kept.write(torn + b"\n")
                    kept.flush()
                    os.fsync(kept.fileno())
                _keep_name(path)
                file.truncate(length)
                os.fsync(file.fileno())
            file.seek(0)
            return cls(path, file, lock, file.read())
        except BaseException:
            file.close()
            raise

    def append(self, content: bytes, then: Callable[[], None]) -> None:
        """Write at the end, wait for the disk, and do what has to follow. On any error the file is cut back.

        Raises TraceNotWritten, TraceTooLarge.
        """
        if self._is_lost:
            raise TraceNotWritten(say.in_doubt(self.path))
        if self.length + len(content) > LARGEST_FILE:
            raise TraceTooLarge(say.would_grow_over(self.path, LARGEST_FILE))
        with _written(self.path, say.STEP_NOT_RECORDED):
            self._refuse_meddling()
            try:
                self._file.seek(self.length)
                self._write_all(content)
                os.fsync(self._file.fileno())
                then()
            except BaseException:
                # Also when the technician interrupts: a step counts as recorded in whole or not at all.
                self._cut_back()
                raise
        self.length += len(content)
        self._digest.update(content)
        self._seen = seen(self.path)

    def close(self) -> None:
        """Let go of the file and of the job. What was appended is on the disk already."""
        self._file.close()
        self._lock.release()

    def _write_all(self, content: bytes) -> None:
        rest = memoryview(content)
        while rest:
            rest = rest[self._file.write(bytes(rest)) or 0 :]

    def _refuse_meddling(self) -> None:
        """What stands under this name is read only where it looks otherwise than after the last step."""
        if seen(self.path) == self._seen:
            return
        if not refuse_meddling(self.path, self._file.fileno(), self.length, self._digest.digest()):
            self._file.close()
            self._file = self.path.open("r+b", buffering=0)

    def _cut_back(self) -> None:
        try:
            self._file.truncate(self.length)
            os.fsync(self._file.fileno())
        except OSError:
            self._is_lost = True


def never_begun(path: Path) -> bool:
    """Whether there is no such file, or one that holds no whole line."""
    return not path.exists() or _torn_beginning(path) is not None


def _torn_beginning(path: Path) -> bytes | None:
    """What stands in a file that holds no whole line; None when it holds one, or is no file at all."""
    if not path.is_file():
        return None
    with path.open("rb") as file:
        beginning = file.read(LONGEST_LINE + 2)
    return None if b"\n" in beginning or len(beginning) > LONGEST_LINE else beginning


@contextlib.contextmanager
def _written(path: Path, consequence: str) -> Iterator[None]:
    try:
        yield
    except OSError as problem:
        raise TraceNotWritten(say.cannot_be_written(path, problem.strerror or problem, consequence)) from problem


@contextlib.contextmanager
def _locked(path: Path) -> Iterator[FileLock]:
    """Take the job for this writer. The lock outlives the block; it is released only when the block raises."""
    lock = FileLock(path.with_name(path.name + ".lock"), thread_local=False)
    try:
        lock.acquire(timeout=0)
    except Timeout:
        raise JobInUse(say.in_use(path)) from None
    try:
        yield lock
    except BaseException:
        lock.release()
        raise


def _keep_name(path: Path) -> None:
    """Make sure that the folder's entry for a new file survives a power cut, where the system can do that."""
    if os.name != "posix":
        return
    folder = os.open(path.parent, os.O_RDONLY)
    try:
        os.fsync(folder)
    except OSError as problem:
        # Some network shares know no such thing; the file itself is waited for all the same.
        if problem.errno not in (errno.EINVAL, errno.ENOTSUP):
            raise
    finally:
        os.close(folder)
