"""The limits between which a reading counts as sound, whatever the names of the bands there."""

from __future__ import annotations

import math
from itertools import pairwise

from expert.job.sentences import limits as say
from expert.job.state.job import Job
from expert.job.state.values import bands_of
from expert.job.wording.limits import show_limit
from expert.language.model import Question
from expert.trade.quantities.quantity import difference_of
from expert.trade.quantities.units import Quantity, show
from expert.trade.sensors.instruments import Band, still_possible

_IN_ONE_UNIT = ("resistance",)


def sound_limits_in_words(job: Job, question: Question, read: Quantity) -> str:
    """Such as "at most 0.30 ohm", "at least 1.0 Mohm", "from 792 ohm to 1.39 kohm"; '' when nothing is limited.

    Of several sound stretches the one nearest to what was read. Raises what `bands_of` raises.
    """
    spans = _sound_spans(question, bands_of(job, question), read)
    if not spans:
        return ""
    low, high = min(spans, key=lambda span: _distance(span, read.value))
    # In the unit of the reading: nobody at the counter compares 1.5 Mohm with 300 kohm.
    unit = (
        show(read, system=job.shop.system).rpartition(" ")[2]
        if read.kind in _IN_ONE_UNIT and math.isfinite(read.value)
        else None
    )
    least = None if low is None else show_limit(job, Quantity(low, read.kind), unit)
    most = None if high is None else show_limit(job, Quantity(high, read.kind), unit)
    if least and most:
        return say.from_to(least, most)
    return f"at least {least}" if least else f"at most {most}" if most else ""


def _sound_spans(
    question: Question, bands: tuple[Band, ...], read: Quantity
) -> list[tuple[float | None, float | None]]:
    """Stretches of the scale in which every value counts as sound; None: no end on that side."""
    limits = sorted({limit.value for _, low, high in bands for limit in (low, high) if limit is not None})
    edges: list[float | None] = [None, *limits, None]
    spans: list[tuple[float | None, float | None]] = []
    for low, high in pairwise(edges):
        middle = Quantity(_between(low, high), read.kind)
        if not set(still_possible(middle, Quantity(0.0, difference_of(read.kind)), bands)) <= set(question.sound):
            continue
        if spans and low is not None and spans[-1][1] == low:
            spans[-1] = (spans[-1][0], high)
        else:
            spans.append((low, high))
    return spans


def _between(low: float | None, high: float | None) -> float:
    if low is None and high is None:
        return 0.0
    if low is None:
        assert high is not None
        return high - abs(high) - 1.0
    return low + abs(low) + 1.0 if high is None else (low + high) / 2


def _distance(span: tuple[float | None, float | None], value: float) -> float:
    low, high = span
    below = 0.0 if low is None else max(0.0, low - value)
    return max(below, 0.0 if high is None else max(0.0, value - high))
