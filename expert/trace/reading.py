"""Reading a trace back. A torn last line is recognised and is no error; any other broken line is damage."""

from __future__ import annotations

import io
import stat
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import field
from datetime import datetime
from pathlib import Path
from typing import BinaryIO

from expert.trace.clock import AtWork
from expert.trace.errors import TraceDamaged, TraceNotRead, TraceTooLarge
from expert.trace.lines import LONGEST_LINE, Line, decode, read_object
from expert.trace.packing import Memory
from expert.trace.records import Opened, Record, Sealed
from expert.trace.sentences import keeping as say
from expert.trade.frozen import dataclass

LARGEST_FILE = 200_000_000


@dataclass(frozen=True, slots=True)
class Recorded:
    """A record with the number of its line, from 1, and its time."""

    line: int
    at: datetime
    record: Record


@dataclass(frozen=True, slots=True)
class Trace:
    """A trace as read. `torn`: the bytes after the last whole line, left by a write that never came to its end.

    `memory`: what a further line is packed with.
    """

    path: Path
    lines: tuple[Line, ...]
    torn: bytes = b""
    memory: Memory = field(default_factory=Memory, compare=False, repr=False)

    @property
    def records(self) -> tuple[Record, ...]:
        return tuple(record for line in self.lines for record in line.records)

    @property
    def recorded(self) -> tuple[Recorded, ...]:
        """Every record with its line and time."""
        return tuple(
            Recorded(number, line.at, record) for number, line in enumerate(self.lines, 1) for record in line.records
        )

    @property
    def is_sealed(self) -> bool:
        return bool(self.lines) and isinstance(self.lines[-1].records[-1], Sealed)

    @property
    def minutes_by_the_clock(self) -> float:
        """How long somebody was at the job [min]; pauses are left out."""
        at_work = AtWork()
        for line in self.lines:
            at_work = at_work.after(line.at, line.records)
        return at_work.minutes

    @property
    def length(self) -> int:
        """How many bytes of the file are whole lines."""
        return sum(len(line.raw) + 1 for line in self.lines)


def read_trace(path: Path) -> Trace:
    """Read a trace, line by line. Changes nothing.

    Raises TraceDamaged for a broken line that is not the last, TraceTooLarge for a line over LONGEST_LINE or a file
    over LARGEST_FILE, TraceNotRead when the file cannot be read. Digests are not judged here: see `verifying`.
    """
    with _opened(path) as file:
        return _read(file, path)


def trace_in(content: bytes, path: Path) -> Trace:
    """The same from what a file holds, such as one on another computer. Raises TraceDamaged or TraceTooLarge."""
    return _read(io.BytesIO(content), path)


def opened_with(path: Path) -> str:
    """The digest of the rules that a job was opened with, from its first line alone. Raises like `read_trace`."""
    with _opened(path) as file:
        trace = trace_in(file.readline(LONGEST_LINE + 2), path)
    return next((record.rules_digest for record in trace.records if isinstance(record, Opened)), "")


@contextmanager
def _opened(path: Path) -> Iterator[BinaryIO]:
    """The file of a trace. Raises TraceNotRead or TraceTooLarge."""
    try:
        found = path.stat()
        if not stat.S_ISREG(found.st_mode):  # a pipe would keep us waiting for ever
            raise TraceNotRead(say.is_no_file(path))
        if found.st_size > LARGEST_FILE:
            raise TraceTooLarge(say.file_too_long(path, found.st_size, LARGEST_FILE))
        with path.open("rb") as file:
            yield file
    except OSError as problem:
        raise TraceNotRead(say.cannot_be_read(path, problem.strerror or problem)) from problem


def _read(file: BinaryIO, path: Path) -> Trace:
    lines: list[Line] = []
    broken, memory = b"", Memory()
    for number, piece in enumerate(_pieces(file, path), start=1):
        if broken:
            raise TraceDamaged(say.NOT_JSON, path, number - 1)
        if not piece.endswith(b"\n") or not _is_json(piece):
            broken = piece
            continue
        try:
            line, memory = decode(piece[:-1], memory)
        except TraceDamaged as damage:
            raise TraceDamaged(damage.reason, path, number) from None
        lines.append(line)
    return Trace(path, tuple(lines), broken, memory)


def _pieces(file: BinaryIO, path: Path) -> Iterator[bytes]:
    number = 1
    # One byte more than a whole line may have, so that no file can make us read more than that at a time.
    while piece := file.readline(LONGEST_LINE + 2):
        if len(piece.rstrip(b"\n")) > LONGEST_LINE:
            raise TraceTooLarge(say.line_too_long(path, number, LONGEST_LINE))
        yield piece
        number += 1


def _is_json(piece: bytes) -> bool:
    try:
        read_object(piece)
    except ValueError:
        return False
    return True
