"""Finding later changes to a trace. Damage is a change to what was recorded; a note is something worth knowing."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from pathlib import Path
from typing import Literal

from expert.trace.errors import TraceDamaged
from expert.trace.kinds import kind_of
from expert.trace.lines import NOTHING_BEFORE, TIME_FORMAT, fit
from expert.trace.reading import Trace
from expert.trace.records import Opened, Sealed
from expert.trace.sentences import proving as say
from expert.trace.signing import CannotSign, Signature, is_signed_by, sealed_content
from expert.trade.counting import counted
from expert.trade.frozen import dataclass


@dataclass(frozen=True, slots=True)
class Problem:
    """Something about line `line` (from 1) of a trace. `code` is stable; the wording may change.

    >>> print(Problem(Path("7.jsonl"), 9, "damage", "line-changed", "the line was changed after it was written"))
    7.jsonl:9:1: the line was changed after it was written [line-changed]
    """

    path: Path
    line: int
    grade: Literal["damage", "note"]
    code: str
    message: str

    def __str__(self) -> str:
        return f"{self.path}:{self.line}:1: {self.message} [{self.code}]"


def verify(trace: Trace) -> tuple[Problem, ...]:
    """Every problem of a trace, in the order of its lines. A sealed trace as it was written has none.

    This finds accidents and edits. Somebody who works out every digest anew can still replace the whole file:
    whoever needs proof against that keeps the digest of the seal elsewhere.
    """
    problems = [*_broken_chain(trace), *_frame(trace), *_clock(trace)]
    return tuple(sorted(problems, key=lambda problem: problem.line))


def refuse_damage(trace: Trace) -> None:
    """Raise TraceDamaged for the first damage of a trace, if it has any. A torn tail is for the reader to cut."""
    for problem in verify(trace):
        if problem.grade == "damage" and problem.code != "torn-line":
            raise TraceDamaged(problem.message, trace.path, problem.line)


def _broken_chain(trace: Trace) -> Iterator[Problem]:
    number, before, is_sound = 1, NOTHING_BEFORE, True
    for index, line in enumerate(trace.lines):
        found = fit(line, before)
        if found == "changed":
            yield _damage(trace, index + 1, "line-changed", say.CHANGED_AFTERWARDS)
        if line.seq != number:
            yield _damage(trace, index + 1, "number-gap", _gap(number, line.seq))
        elif found == "other before" and is_sound:
            # Both lines are sound in themselves, so one of them was written anew as a whole.
            message = say.one_of_two_replaced(index)
            yield _damage(trace, index + 1, "chain-broken", message if index else say.FIRST_FOLLOWS_ANOTHER)
        elif found == "either" and is_sound:
            rest = say.line_replaced(index) if index else say.FOLLOWS_ANOTHER
            message = say.changed_or(rest)
            yield _damage(trace, index + 1, "line-changed", message)
        number, before, is_sound = line.seq + 1, line.digest, found != "changed"


def _gap(expected: int, found: int) -> str:
    if found == expected + 1:
        return say.number_missing(expected, found)
    if found > expected:
        return say.numbers_missing(expected, found - 1, found)
    return say.number_due(expected, found)


def _frame(trace: Trace) -> Iterator[Problem]:
    if trace.records and not isinstance(trace.records[0], Opened):
        kind = kind_of(type(trace.records[0]))
        yield _damage(trace, 1, "not-opened", say.begins_with(kind))
    for position, recorded in enumerate(trace.recorded):
        if isinstance(recorded.record, Opened) and position:
            yield _damage(trace, recorded.line, "opened-twice", say.OPENED_TWICE)
        if isinstance(recorded.record, Sealed):
            yield from _seal(trace, recorded.line - 1, recorded.record)
    end = len(trace.lines) + 1
    if trace.torn:
        yield _torn(trace, end)
    if not trace.is_sealed:
        yield Problem(trace.path, max(end - 1, 1), "note", "not-sealed", say.NO_SEAL)


def _seal(trace: Trace, index: int, seal: Sealed) -> Iterator[Problem]:
    before = trace.lines[index - 1].digest if index else NOTHING_BEFORE
    if (seal.lines, seal.digest) != (index, before):
        message = say.seal_of_another(counted(seal.lines, "line"), index)
        yield _damage(trace, index + 1, "seal-wrong", message)
    if index + 1 < len(trace.lines):
        yield _damage(trace, index + 2, "after-seal", say.LINES_AFTER_SEAL)
    yield from _signature(trace, index, seal)


def _signature(trace: Trace, index: int, seal: Sealed) -> Iterator[Problem]:
    if not seal.key and not seal.signature:
        return
    content = sealed_content(seal.lines, seal.digest)
    try:
        if not is_signed_by(Signature(seal.key, seal.signature), content):
            yield _damage(trace, index + 1, "seal-forged", say.SIGNATURE_OF_ANOTHER)
    except CannotSign as problem:
        message = say.signature_not_checked(problem)
        yield Problem(trace.path, index + 1, "note", "not-checked", message)


def _torn(trace: Trace, number: int) -> Problem:
    if trace.is_sealed:
        return _damage(trace, number, "after-seal", say.SOMETHING_AFTER_SEAL)
    if trace.torn.endswith(b"\n"):
        return _damage(trace, number, "torn-line", say.LAST_LINE_CHANGED)
    message = say.last_line_torn(len(trace.torn))
    return Problem(trace.path, number, "note", "torn-line", message)


def _clock(trace: Trace) -> Iterator[Problem]:
    for number, (earlier, later) in enumerate(pairwise(trace.lines), start=2):
        if later.at < earlier.at:
            message = say.clock_put_back(f"{later.at:{TIME_FORMAT}}", f"{earlier.at:{TIME_FORMAT}}")
            yield Problem(trace.path, number, "note", "clock-back", message)


def _damage(trace: Trace, line: int, code: str, message: str) -> Problem:
    return Problem(trace.path, line, "damage", code, message)
