"""Edits of a trace, as accidents and forgers make them; each is found, or is of a kind that no chain can find."""

from __future__ import annotations

import random
import shutil
import tempfile
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path

from expert.desk.session import Session
from expert.engine.knowledge import Knowledge
from expert.job.state.job import Phase, Shop
from expert.trace.agreeing import disagreements
from expert.trace.errors import TraceError
from expert.trace.lines import NOTHING_BEFORE, digest_in, encode
from expert.trace.packing import Memory
from expert.trace.reading import Trace, read_trace
from expert.trace.records import Noted, Record, Sealed
from expert.trace.register import NAME, Entry, note, read_register
from expert.trace.verifying import verify
from tests.trace.trace_samples import SteadyClock

Lines = list[bytes]
Edit = Callable[[random.Random, Lines], Lines]


@dataclass(frozen=True, slots=True)
class Written:
    """A job as it stands on the disk: its folder with the register, and its trace."""

    trace: Path

    @classmethod
    def play(cls, folder: Path, knowledge: Knowledge, shop: Shop, typed: Sequence[str]) -> Written:
        """Write the trace of these lines."""
        path = folder / "7.jsonl"
        session, _ = Session.open(knowledge, shop, path, "7", SteadyClock())
        for line in typed:
            if session.job.phase is not Phase.DONE:
                session.say(line)
        session.close()
        return cls(path)


def rechained(trace: Trace, change: Callable[[int, Record], Record | None]) -> Lines:
    """The lines with other records, every number and digest worked out again. None leaves a record out.

    `change` is asked with the record's number, from 0.
    """
    before, memory, number = NOTHING_BEFORE, Memory(), 0
    kept: Lines = []
    for line in trace.lines:
        records: list[Record] = []
        for record in line.records:
            changed = change(number, record)
            number += 1
            if changed is not None:
                records.append(Sealed(len(kept), before) if isinstance(changed, Sealed) else changed)
        if records:
            raw, memory = encode(len(kept) + 1, line.at, records, before, memory)
            kept.append(raw)
            before = digest_in(raw)
    return kept


def _read(lines: Lines) -> Trace:
    with tempfile.NamedTemporaryFile(suffix=".jsonl") as file:
        file.write(b"".join(line + b"\n" for line in lines))
        file.flush()
        return read_trace(Path(file.name))


def _byte(chance: random.Random, lines: Lines) -> Lines:
    number = chance.randrange(len(lines))
    place = chance.randrange(len(lines[number]))
    other = chance.choice([byte for byte in range(256) if byte not in (lines[number][place], 10)])
    lines[number] = lines[number][:place] + bytes([other]) + lines[number][place + 1 :]
    return lines


def _line_out(chance: random.Random, lines: Lines) -> Lines:
    del lines[chance.randrange(len(lines))]
    return lines


def _line_twice(chance: random.Random, lines: Lines) -> Lines:
    number = chance.randrange(len(lines))
    return [*lines[: number + 1], *lines[number:]]


def _two_exchanged(chance: random.Random, lines: Lines) -> Lines:
    one, other = chance.sample(range(len(lines)), 2)
    lines[one], lines[other] = lines[other], lines[one]
    return lines


def _cut(chance: random.Random, lines: Lines) -> Lines:
    return lines[: chance.randrange(1, len(lines))]


def _torn(chance: random.Random, lines: Lines) -> Lines:
    kept = lines[: chance.randrange(1, len(lines))]
    return [*kept, lines[len(kept)][: chance.randrange(1, len(lines[len(kept)]))]]


def _nul(chance: random.Random, lines: Lines) -> Lines:
    kept = chance.randrange(1, len(lines))
    return [*lines[:kept], b"\0" * sum(len(line) + 1 for line in lines[kept:])]


def _forged(chance: random.Random, lines: Lines) -> Lines:
    trace = _read(lines)
    chosen = chance.randrange(1, len(trace.records))
    return rechained(trace, lambda number, record: Noted("forged") if number == chosen else record)


def _forged_out(chance: random.Random, lines: Lines) -> Lines:
    trace = _read(lines)
    chosen = chance.randrange(1, len(trace.records))
    return rechained(trace, lambda number, record: None if number == chosen else record)


def _forged_end(chance: random.Random, lines: Lines) -> Lines:
    """Cut, and sealed anew."""
    trace = _read(lines[: chance.randrange(2, len(lines))])
    last = len(trace.records) - 1
    return rechained(trace, lambda number, record: Sealed(0, "") if number == last else record)


EDITS: dict[str, Edit] = {
    "a byte": _byte,
    "a line out": _line_out,
    "a line twice": _line_twice,
    "two lines exchanged": _two_exchanged,
    "the end cut off": _cut,
    "the end torn": _torn,
    "NUL over the end": _nul,
    "a line forged, the chain whole": _forged,
    "a line out, the chain whole": _forged_out,
    "cut and sealed anew": _forged_end,
    "the register gone": _cut,
    "the register cut as well": _cut,
    "the register written anew": _forged,
}
# Whoever changes both files leaves nothing behind by which it could be told; a seal noted elsewhere tells it.
NOT_TO_BE_FOUND = frozenset(("the register gone", "the register cut as well", "the register written anew"))


def edited(chance: random.Random, kind: str, written: Written, folder: Path) -> Path:
    """A copy of the job with one edit of this kind."""
    path = Path(shutil.copy(written.trace, folder / written.trace.name))
    register = Path(shutil.copy(written.trace.parent / NAME, folder / NAME))
    before = path.read_bytes()
    lines = before.split(b"\n")[:-1]
    after = lines
    while after == before.split(b"\n")[:-1]:
        after = EDITS[kind](chance, list(lines))
    end = b"" if kind in ("the end torn", "NUL over the end") else b"\n"
    path.write_bytes(b"\n".join(after) + end)
    if kind == "the register gone":
        register.unlink()
    elif kind == "the register cut as well":
        kept = [line for line in register.read_bytes().split(b"\n")[:-1] if decode_lines(line) <= len(after)]
        register.write_bytes(b"".join(line + b"\n" for line in kept))
    elif kind == "the register written anew":
        register.unlink()
        note(path, Entry(path.name, len(after), digest_in(after[-1]), sealed=True), SteadyClock()())
    return path


def decode_lines(raw: bytes) -> int:
    """How many lines an entry of the register speaks of."""
    return int(raw.partition(b'"lines":')[2].partition(b",")[0])


def is_found(path: Path) -> bool:
    """Whether the edit is found, as `audit` and `resume` look for it."""
    try:
        trace = read_trace(path)
        problems = (*verify(trace), *disagreements(trace, read_register(path.parent / NAME)))
    except TraceError:
        return True
    return any(problem.grade == "damage" for problem in problems)
