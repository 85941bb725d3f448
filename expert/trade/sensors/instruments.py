"""How far a reading can be trusted, and which named bands it may lie in.

The rule of decision is a guard band as wide as the uncertainty (ILAC-G8:09/2019, in the terms of JCGM 106:2012): a
reading is inside a band only if it stays inside when moved by its uncertainty either way; near a limit both
neighbours stay possible.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

from expert.trade import sentences as say
from expert.trade.errors import KindsDiffer
from expert.trade.frozen import dataclass
from expert.trade.quantities.quantity import Quantity, difference_of, with_article

Band = tuple[str, Quantity | None, Quantity | None]


@dataclass(frozen=True, slots=True)
class Range:
    """One range of a digital meter: up to a reading, percent of reading plus so many digits of one step.

    up_to None: the last range. percent 0.9, digits 2, step 0.1 ohm stands for +-(0.9 % + 2 digits).
    """

    up_to: Quantity | None
    percent: float
    digits: float
    step: Quantity


@dataclass(frozen=True, slots=True)
class Instrument:
    """A meter, gauge, thermometer or clock, and what its data sheet says of its accuracy.

    Whatever is given adds up: a range's percent and digits; class_percent of full_scale (dial gauges); a fixed
    plus_minus; percent of the reading; the leads, if they are not zeroed away. `owned`: whether the shop has one.
    """

    id: str
    name: str
    measures: str
    ranges: tuple[Range, ...] = ()
    class_percent: float | None = None
    full_scale: Quantity | None = None
    plus_minus: Quantity | None = None
    percent: float | None = None
    leads: Quantity | None = None
    owned: bool = True


def uncertainty(instrument: Instrument, reading: Quantity) -> Quantity:
    """How far the true value may lie from the reading, either way, as a difference of the reading's kind.

    Percent of reading + digits x step (+ leads); dial gauge: class / 100 x full scale (EN 837-1). Over range: zero.
    A reading above the last range is given the last range's figures. Raises KindsDiffer for a reading of another kind.

    >>> bar = lambda value: Quantity(value, "gauge_pressure")
    >>> gauge = Instrument("g", "boiler gauge", "gauge_pressure", class_percent=2.5, full_scale=bar(3.0))
    >>> round(uncertainty(gauge, bar(1.2)).value, 6)      # class 2.5 of 3 bar
    0.075
    """
    if reading.kind != instrument.measures:
        found, wanted = with_article(reading.kind), with_article(instrument.measures)
        raise KindsDiffer(say.cannot_be_read_on(found, instrument.name, wanted))
    kind = difference_of(reading.kind)
    if math.isinf(reading.value):
        return Quantity(0.0, kind)
    size = abs(reading.value)
    total = size * (instrument.percent or 0.0) / 100
    span = _range_of(instrument, size)
    if span is not None:
        total += size * span.percent / 100 + span.digits * abs(span.step.value)
    if instrument.class_percent is not None and instrument.full_scale is not None:
        total += instrument.class_percent / 100 * abs(instrument.full_scale.value)
    for fixed in (instrument.plus_minus, instrument.leads):
        total += abs(fixed.value) if fixed is not None else 0.0
    return Quantity(total, kind)


def _range_of(instrument: Instrument, size: float) -> Range | None:
    """The first range that reaches the reading, as an autoranging meter picks it; else the last."""
    for span in instrument.ranges:
        if span.up_to is None or size <= span.up_to.value:
            return span
    return instrument.ranges[-1] if instrument.ranges else None


def still_possible(reading: Quantity, uncertainty: Quantity, bands: Sequence[Band]) -> tuple[str, ...]:
    """The names of the bands that the true value may lie in, in the order of the bands.

    bands: (name, low, high), tried top to bottom; None is no limit, so (None, None) takes the rest. Limits belong to
    a band. Judged on the open stretches between limits, so a reading exactly U inside its band is decided; with no
    uncertainty a reading on a limit takes the first band that matches. Raises KindsDiffer if a limit is of another
    kind than the reading.

    >>> ohm = lambda value: Quantity(value, "resistance")
    >>> bands = (("low", None, ohm(25.19)), ("sound", ohm(25.19), ohm(29.39)), ("high", None, None))
    >>> still_possible(ohm(26.4), ohm(0.44), bands), still_possible(ohm(29.6), ohm(0.47), bands)
    (('sound',), ('sound', 'high'))
    """
    if uncertainty.kind != difference_of(reading.kind):
        found, wanted = with_article(uncertainty.kind), with_article(difference_of(reading.kind))
        raise KindsDiffer(say.uncertainty_of_other_kind(found, wanted))
    x, margin = reading.value, abs(uncertainty.value)
    limits = _limits(reading, bands)
    reached = {_first_match(point, bands) for point in _test_points(x, margin, limits)}
    return tuple(dict.fromkeys(name for name, _, _ in bands if name in reached))


def _limits(reading: Quantity, bands: Sequence[Band]) -> list[float]:
    limits = [limit for _, low, high in bands for limit in (low, high) if limit is not None]
    for limit in limits:
        if limit.kind != reading.kind:
            found, wanted = with_article(limit.kind), with_article(reading.kind)
            raise KindsDiffer(say.limit_of_other_kind(found, wanted))
    return sorted({limit.value for limit in limits})


def _test_points(x: float, margin: float, limits: list[float]) -> list[float]:
    """One point in every open stretch between neighbouring limits that the reading's interval reaches."""
    if margin == 0 or math.isinf(x):
        return [x]
    edges = [x - margin, *(limit for limit in limits if x - margin < limit < x + margin), x + margin]
    # Stretches narrower than the rounding of the arithmetic are no stretches: lo + U must count as inside.
    least = 1e-9 * max(abs(x), margin)
    points = [(low + high) / 2 for low, high in pairwise(edges) if high - low > least]
    return points or [x]


def _first_match(point: float, bands: Sequence[Band]) -> str | None:
    for name, low, high in bands:
        if (low is None or point >= low.value) and (high is None or point <= high.value):
            return name
    return None
