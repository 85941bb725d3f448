"""What a line led to when it was typed, held against what it leads to now: decided otherwise, or said otherwise."""

from __future__ import annotations

from collections.abc import Hashable, Sequence
from dataclasses import dataclass
from difflib import SequenceMatcher
from itertools import zip_longest

from expert.desk.differences import difference_in_words
from expert.trace.decided import decided
from expert.trace.records import Record

Numbered = tuple[int, Record]


@dataclass(frozen=True, slots=True)
class Difference:
    """A line of the trace where the re-run does something else. None: nothing there.

    `decides`: something was decided otherwise; else it is only said otherwise.
    """

    line: int
    recorded: Record | None
    now: Record | None
    decides: bool = True

    def __str__(self) -> str:
        return difference_in_words(self.line, self.recorded, self.now)


def compare(
    recorded: Sequence[Numbered],
    now: Sequence[Record],
    line: int,
    *,
    to_be_continued: bool = False,
    added: tuple[type[Record], ...] = (),
) -> tuple[list[Difference], tuple[Record, ...]]:
    """The differences, and the records that `recorded` lacks at its end.

    line: the number of the line that was typed. to_be_continued: the record may have been torn off, so that what is
    lacking at its end is no difference. added: kinds that the program which wrote it did not know.
    """
    before, after = [_key(record) for _, record in recorded], [_key(record) for record in now]
    missing: tuple[Record, ...] = ()
    if to_be_continued and before == after[: len(before)]:
        now, after, missing = now[: len(before)], after[: len(before)], tuple(now[len(before) :])
    differences: list[Difference] = []
    for _, a, a_end, b, b_end in SequenceMatcher(None, before, after, autojunk=False).get_opcodes():
        for one, other in zip_longest(recorded[a:a_end], now[b:b_end]):
            then = one[1] if one else None
            if then != other:
                at = one[0] if one else _line_at(recorded, a, line)
                differences.append(Difference(at, then, other, _decides(then, other, added)))
    return differences, missing


def _line_at(recorded: Sequence[Numbered], position: int, line: int) -> int:
    """The line of the trace before which something came that it does not have."""
    if not recorded:
        return line
    return recorded[min(position, len(recorded) - 1)][0]


def _key(record: Record) -> Hashable:
    return type(record), decided(record)


def _decides(then: Record | None, now: Record | None, added: tuple[type[Record], ...]) -> bool:
    if then is None and isinstance(now, added):
        return False
    before = None if then is None else decided(then)
    after = None if now is None else decided(now)
    return before != after or (before is not None and type(then) is not type(now))
