"""Readings are tried top to bottom: one whose whole span is taken by those above it can never come out."""

from __future__ import annotations

import math
from collections.abc import Iterable

from expert.language.formulas.formula import Formula, Value
from expert.language.model import Question
from expert.language.problems import Problem
from expert.language.reading.draft import Draft
from expert.language.sentences import checks as say

CODES: dict[str, str] = {}  # shares `unreachable-reading` and `limits-reversed` with the reader

Span = tuple[float, float]


def check(draft: Draft) -> Iterable[Problem]:
    """One problem for every reading that cannot come out."""
    for question in draft.questions.values():
        if question.readings:
            yield from _of_question(question)


def _of_question(question: Question) -> Iterable[Problem]:
    taken: list[Span] = []
    for reading in question.readings:
        span = _span(reading.low, reading.high)
        if span is None:
            continue  # Its limits depend on the machine; nothing can be said here.
        low, high = span
        if low >= high:
            message = say.limits_reversed(reading.name)
            yield Problem(reading.at, message, "limits-reversed")
        elif _covered(span, taken):
            message = say.reading_never_comes_out(reading.name)
            yield Problem(reading.at, message, "unreachable-reading")
        else:
            taken.append(span)


def _span(low: Formula | None, high: Formula | None) -> Span | None:
    """The limits as numbers, if both are written as plain numbers with units."""
    ends = []
    for limit, without in ((low, -math.inf), (high, math.inf)):
        if limit is None:
            ends.append(without)
        elif isinstance(limit.tree, Value):
            ends.append(limit.tree.quantity.value)
        else:
            return None
    return ends[0], ends[1]


def _covered(span: Span, taken: list[Span]) -> bool:
    reached, high = span
    for low, end in sorted(taken):
        if low <= reached:
            reached = max(reached, end)
    return reached >= high
