"""Questions that are read alike but for one limit: that limit is another one by a power of ten, or by its side.

The same meter on the same kind of thing has the same readings in several questions. Where one limit of one of them
differs just as a slip of the pen would make it differ, it is told.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterator

from expert.language.model import Measure, Question, Reading
from expert.language.problems import Problem
from expert.workbench.index import Index
from expert.workbench.sentences import rules as say

CODES = {"limit-unlike-others": say.LIMIT_UNLIKE_OTHERS}
_NUMBER = re.compile(r"(?<![a-z_0-9.])\d+(?:\.\d+)?")
_PREFIX = re.compile(r"(?<=# )[kMm](?=ohm|V\b|A\b)")


def check(index: Index) -> Iterator[Problem]:
    """Group by group of questions with the same kind, instrument and outcomes; the fewer are told, or the later one."""
    groups: dict[object, list[Question]] = {}
    for question in index.base.questions.values():
        if isinstance(measure := question.form, Measure):
            groups.setdefault((measure.kind, measure.instrument, question.outcomes), []).append(question)
    for group in groups.values():
        likes = {one.id: sum(_limits(one) == _limits(other) for other in group) for one in group}
        ordered = sorted(group, key=lambda question: -likes[question.id])
        for number, odd in enumerate(ordered):
            yield from _against(odd, ordered[:number])


def _against(odd: Question, usual: list[Question]) -> Iterator[Problem]:
    """The first of those more usual that the question differs from by a slip."""
    for other in usual:
        at = _slip(odd, other)
        if at is not None:
            mine, others = odd.readings[at], other.readings[at]
            message = say.limit_is_unlike(odd.id, mine.name, _said(mine), other.id, _said(others))
            yield Problem(mine.at, message, "limit-unlike-others")
            return


def _limits(question: Question) -> tuple[tuple[str, str], ...]:
    return tuple(_ends(reading) for reading in question.readings)


def _ends(reading: Reading) -> tuple[str, str]:
    low, high = (end.text if end is not None else "" for end in (reading.low, reading.high))
    return low, high


def _said(reading: Reading) -> str:
    low, high = _ends(reading)
    return f"{low} to {high}" if low and high else f"above {low}" if low else f"below {high}"


def _slip(one: Question, other: Question) -> int | None:
    """The number of the only reading in which they differ, if it differs as by a slip."""
    differing = [
        at for at, (mine, others) in enumerate(zip(_limits(one), _limits(other), strict=True)) if mine != others
    ]
    if len(differing) != 1:
        return None
    mine, others = _limits(one)[differing[0]], _limits(other)[differing[0]]
    slipped = mine == others[::-1] or all(_by_tens(*ends) for ends in zip(mine, others, strict=True))
    return differing[0] if slipped else None


def _by_tens(one: str, other: str) -> bool:
    """Whether two limits are the same but for powers of ten.

    >>> _by_tens("0.9 * supply_here", "0.09 * supply_here"), _by_tens("12 kohm", "12 ohm")
    (True, True)
    >>> _by_tens("12 kohm", "20 kohm")
    False
    """
    return _shape(one) == _shape(other) and all(
        _tens_apart(*map(float, pair)) for pair in zip(_NUMBER.findall(one), _NUMBER.findall(other), strict=True)
    )


def _shape(limit: str) -> str:
    """The limit without its numbers, and without the k and M of their units."""
    return _PREFIX.sub("", _NUMBER.sub("#", limit))


def _tens_apart(one: float, other: float) -> bool:
    if not one or not other:
        return one == other
    tens = math.log10(one / other)
    return abs(tens - round(tens)) < 1e-9
