"""A quantity as the trade writes it: few digits, a unit of convenient size."""

from __future__ import annotations

import math

from expert.trade import sentences as say
from expert.trade.quantities.bench_kinds import KINDS, Kind
from expert.trade.quantities.quantity import Quantity
from expert.trade.quantities.unit_names import unit_in
from expert.trade.quantities.wire_gauge import shown_as_awg

OVER_RANGE = "over range (OL)"


def show(quantity: Quantity, unit: str | None = None, system: str = "metric") -> str:
    """The quantity in words. unit: any spelling of the kind's units, else one of convenient size in the system.

    Reading the text again gives the same quantity within the digits shown. Raises ValueError for a foreign unit.

    >>> show(Quantity(37.8, "resistance")), show(Quantity(1.2, "gauge_pressure")), show(Quantity(1800, "resistance"))
    ('37.8 ohm', '1.20 bar', '1.8 kohm')
    >>> show(Quantity(1.2, "gauge_pressure"), system="us"), show(Quantity(150, "time"))
    ('17.4 psi', '2 min 30 s')
    >>> show(Quantity(math.inf, "resistance"))
    'over range (OL)'
    """
    kind = KINDS[quantity.kind]
    if math.isinf(quantity.value):
        return OVER_RANGE if quantity.value > 0 else f"below range (-{OVER_RANGE[-3:-1]})"
    if unit is not None:
        chosen = unit_in(kind, unit) if unit.strip() else ("" if "" in kind.units else None)
        if chosen is None:
            raise ValueError(say.no_unit_of(repr(unit[:40]), kind.words))
    elif quantity.kind == "time" and abs(quantity.value) >= 120:
        return _minutes(quantity.value)
    else:
        chosen = _convenient(kind, quantity.value, system)
    if quantity.kind == "area" and system == "us" and (gauge := shown_as_awg(quantity.value)):
        return gauge
    factor, offset = kind.units[chosen]
    # Four digits of a litre are exact to a spoon; of a fluid ounce they would be a drop.
    significant = min(kind.significant, 3) if chosen in ("fl oz", "fl oz/min", "ft") else kind.significant
    written = _digits(kind, (quantity.value - offset) / factor, significant)
    return f"{written} {kind.shown.get(chosen, chosen)}".rstrip()


def _convenient(kind: Kind, value: float, system: str) -> str:
    if system == "us" and kind.us:
        return kind.us
    size = abs(value)
    if size == 0:
        return kind.base
    return next((unit for least, unit in kind.ladder if size >= least), kind.base)


def _digits(kind: Kind, number: float, significant: int) -> str:
    """As many decimals as the kind's significant digits ask for, and no digit before the point ever rounded away."""
    size = math.floor(math.log10(abs(number))) if number else 0
    decimals = max(0, min(kind.most_decimals, significant - 1 - size))
    written = f"{number:.{decimals}f}"
    if kind.trim and "." in written:
        written = written.rstrip("0").rstrip(".")
    return written.removeprefix("-") if float(written) == 0 else written


def _minutes(seconds: float) -> str:
    whole = round(abs(seconds))
    sign = "-" if seconds < 0 else ""
    hours, minutes, left = whole // 3600, whole % 3600 // 60, whole % 60
    pieces = [f"{hours} h" if hours else "", f"{minutes} min" if minutes else "", f"{left} s" if left else ""]
    return sign + " ".join(piece for piece in pieces if piece)
