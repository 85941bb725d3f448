"""The register of a jobs folder: how far each job had come, one line for each step, in a chain of its own.

A trace alone cannot show that its end was cut off, or that somebody wrote it anew with every digest worked out again.
The register can: it holds the number of lines and the digest of the last one, for each job and each step. Whoever may
write in the folder can still change both; that is for a seal's digest kept elsewhere, or for a signature.

A line is one JSON object in the fixed spelling of `lines`. Its keys:

- `at`: the time, UTC; `job`: the name of the trace; `lines` and `digest`: how far it had come; `sealed`: whether closed
- `before` and `check`: as in a trace, the first 32 digits (128 bits) of each digest
"""

from __future__ import annotations

import contextlib
import os
from collections.abc import Collection, Iterator
from datetime import datetime
from pathlib import Path
from typing import Any

from filelock import FileLock, Timeout

from expert.trace.errors import TraceNotRead, TraceNotWritten
from expert.trace.lines import digest_of, read_object, spell, time_in_words
from expert.trace.sentences import keeping as say
from expert.trade.frozen import dataclass

NAME = "jobs.register"
DIGITS = 32
LONGEST_LINE = 1_000
PATIENCE = 10.0  # seconds to wait for another terminal that is just noting a step
# Where these stand in the bytes of a line: thousands of jobs leave hundreds of thousands of lines.
_BEFORE, _DIGEST = slice(39, 71), slice(126, 190)
_JOB_ON = 199
KEYS = {"at", "before", "check", "digest", "job", "lines", "sealed"}


@dataclass(frozen=True, slots=True)
class Entry:
    """How far a job had come: after so many lines, the last with this digest. `sealed`: it was closed then."""

    job: str
    lines: int
    digest: str
    sealed: bool


@dataclass(frozen=True, slots=True)
class Register:
    """A register as read. `broken`: the first line (from 1) that was changed or does not follow, 0 for none."""

    path: Path
    lines: tuple[bytes, ...]
    broken: int = 0

    def of(self, job: str) -> tuple[Entry, ...]:
        """The entries of one job (the name of its trace), in order."""
        needle = b'"job":%s,"lines":' % spell(job)
        return tuple(entry for raw in self.lines if needle in raw and (entry := _entry(raw)))

    def knows(self, job: str) -> bool:
        return bool(self.of(job))

    def jobs(self) -> tuple[str, ...]:
        """The name of every trace that was ever noted."""
        found = {raw[_JOB_ON:].partition(b'","lines":')[0] for raw in self.lines}
        return tuple(sorted(name.decode("ascii", "replace") for name in found))

    def naming(self, digests: Collection[str]) -> Entry | None:
        """The first entry whose job had come to one of these lines, by the digest of the line."""
        wanted = {digest.encode("ascii") for digest in digests}
        return next((_entry(raw) for raw in self.lines if raw[_DIGEST] in wanted), None)


def register_path(trace: Path) -> Path:
    """Where the register of a trace's folder is."""
    return trace.parent / NAME


def read_register(path: Path) -> Register | None:
    """The register at `path`; None when there is none. A torn last line was never relied on and is passed over.

    Raises TraceNotRead when it is there and cannot be read.
    """
    try:
        content = path.read_bytes()
    except FileNotFoundError:
        return None
    except OSError as problem:
        raise TraceNotRead(say.cannot_be_read(path, problem.strerror or problem)) from problem
    lines = tuple(content.split(b"\n")[:-1])
    return Register(path, lines, _first_broken(lines))


def _first_broken(lines: tuple[bytes, ...]) -> int:
    """Each line's digest stands in the next one; only where that fails, and at the end, its own is looked at."""
    before = _short(b"")
    for number, raw in enumerate(lines, start=1):
        if raw[_BEFORE] != before.encode("ascii"):
            return number - 1 if number > 1 and _entry(lines[number - 2]) is None else number
        before = _short(raw)
    return len(lines) if lines and _entry(lines[-1]) is None else 0


def note(trace: Path, entry: Entry, at: datetime) -> None:
    """Note how far a job has come; on the disk when this returns. On any error the register stays as it was.

    Raises TraceNotWritten.
    """
    path = register_path(trace)
    try:
        with _held(path), _opened(path) as file:
            length, last = _end_of(file)
            content = {
                "at": time_in_words(at),
                "before": last,
                "digest": entry.digest,
                "job": entry.job,
                "lines": entry.lines,
                "sealed": entry.sealed,
            }
            try:
                os.ftruncate(file, length)
                os.write(file, spell(content | {"check": _short(spell(content))}) + b"\n")
                os.fsync(file)
            except BaseException:
                os.ftruncate(file, length)
                raise
    except OSError as problem:
        raise TraceNotWritten(
            say.cannot_be_written(path, problem.strerror or problem, say.STEP_NOT_RECORDED)
        ) from problem


@contextlib.contextmanager
def _held(path: Path) -> Iterator[None]:
    lock = FileLock(path.with_name(path.name + ".lock"), thread_local=False)
    try:
        lock.acquire(timeout=PATIENCE)
    except Timeout:
        raise TraceNotWritten(say.held_by_another(path, say.STEP_NOT_RECORDED)) from None
    try:
        yield
    finally:
        lock.release()


@contextlib.contextmanager
def _opened(path: Path) -> Iterator[int]:
    file = os.open(path, os.O_RDWR | os.O_CREAT | getattr(os, "O_BINARY", 0), 0o666)
    try:
        yield file
    finally:
        os.close(file)


def _end_of(file: int) -> tuple[int, str]:
    """How many bytes are whole lines, and the digest of the last; what a crash left after them is written over."""
    size = os.fstat(file).st_size
    start = max(0, size - 2 * LONGEST_LINE)
    os.lseek(file, start, os.SEEK_SET)
    tail = os.read(file, size - start)
    end = tail.rfind(b"\n") + 1
    os.lseek(file, start + end, os.SEEK_SET)
    last = tail[: max(end - 1, 0)].rpartition(b"\n")[2]
    return start + end, _short(last)


def _entry(raw: bytes) -> Entry | None:
    """The entry in a line as it was written; None for a line that was changed."""
    try:
        fields = read_object(raw)
    except ValueError:
        return None
    if not isinstance(fields, dict) or set(fields) != KEYS or not _are_typed(fields):
        return None
    content = {name: value for name, value in fields.items() if name != "check"}
    if spell(fields) != raw or _short(spell(content)) != fields["check"]:
        return None
    return Entry(fields["job"], fields["lines"], fields["digest"], fields["sealed"])


def _are_typed(fields: dict[str, Any]) -> bool:
    texts = all(isinstance(fields[name], str) for name in KEYS - {"lines", "sealed"})
    return texts and type(fields["lines"]) is int and type(fields["sealed"]) is bool


def _short(raw: bytes) -> str:
    return digest_of(raw)[:DIGITS]
