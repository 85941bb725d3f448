"""A calculation over a range of one of its values, `figure boiler_temperature "0 to 2 bar"`, as a curve in text."""

from __future__ import annotations

import math
import re
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from expert.job.figures.reading import Argument, NoFigure, arguments_of
from expert.job.figures.wording import in_unit, wrapped
from expert.job.sentences import figures as say
from expert.trade.errors import OutOfRange
from expert.trade.figures.register import STANDINGS, Figure, Input, work_out
from expert.trade.quantities.reading import is_bare_number, number_and_unit
from expert.trade.quantities.units import Quantity, show

ROWS = 13
WIDE = 38  # columns in which the points lie
_END = r"([+-]?[.,]?[0-9][^ ]*(?:\s[^ 0-9]+)?)"
_RANGE = rf"(?:([a-z][a-z_0-9]*)=)?\s*{_END}\sto\s{_END}"


@dataclass(frozen=True, slots=True)
class Curve:
    """What a figure gives at each of ROWS values of one input, evenly spread; None where it does not hold."""

    figure: Figure
    over: Input
    points: tuple[tuple[Quantity, Quantity | None], ...]


def has_range(pieces: Sequence[str]) -> bool:
    """Whether one of the values is a range.

    >>> has_range(["0 to 15 bar", "10"]), has_range(["15 bar"])
    (True, False)
    """
    return any(re.fullmatch(_RANGE, piece) for piece in pieces)


def curve_of(figure: Figure, pieces: Sequence[str]) -> Curve:
    """The figure over the one value that is typed as a range. Raises NoFigure, WrongArguments, OutOfRange."""
    ranges = [place for place, piece in enumerate(pieces) if re.fullmatch(_RANGE, piece)]
    if len(ranges) != 1:
        raise NoFigure(say.ONE_RANGE)
    place = ranges[0]
    found = re.fullmatch(_RANGE, pieces[place])
    assert found is not None
    name, low, high = found[1], found[2], found[3]
    if is_bare_number(low) and not is_bare_number(high):
        low = f"{low} {number_and_unit(high)[1]}"
    first, last = (
        arguments_of(figure, [*pieces[:place], f"{name}={end}" if name else end, *pieces[place + 1 :]])
        for end in (low, high)
    )
    which = next((n for n, (a, b) in enumerate(zip(first, last, strict=True)) if a.value != b.value), None)
    if which is None:
        raise NoFigure(say.RANGE_IS_ONE_VALUE)
    return Curve(figure, first[which].takes, tuple(_points(figure, first, last, which)))


def _points(
    figure: Figure, first: Sequence[Argument], last: Sequence[Argument], which: int
) -> list[tuple[Quantity, Quantity | None]]:
    start, end = first[which].value, last[which].value
    assert isinstance(start, Quantity) and isinstance(end, Quantity)
    refused: OutOfRange | None = None
    found: list[tuple[Quantity, Quantity | None]] = []
    for row in range(ROWS):
        at = Quantity(start.value + (end.value - start.value) * row / (ROWS - 1), start.kind)
        values = [at if number == which else argument.value for number, argument in enumerate(first)]
        try:
            found.append((at, work_out(figure, values)))
        except OutOfRange as problem:
            refused = refused or problem
            found.append((at, None))
    if refused is not None and all(value is None for _, value in found):
        raise refused
    return found


def curve_in_words(curve: Curve, system: str = "metric") -> list[str]:
    """A line for each point: the value, what it gives, and a mark as far to the right as that is great."""
    figure = curve.figure
    given = [value.value for _, value in curve.points if value is not None]
    low, span = min(given), (max(given) - min(given)) or 1.0
    own = curve.over.unit if curve.over.kind == "number" else None
    rows = [(show(at, own, system), _in_words(figure, value, system)) for at, value in curve.points]
    left, right = max(len(at) for at, _ in rows), max(len(value) for _, value in rows)
    lines = [*wrapped(say.curve_over(figure.title, curve.over.name.replace("_", " ")))]
    for (at, text), (_, value) in zip(rows, curve.points, strict=True):
        mark = "" if value is None else " " * round((value.value - low) / span * WIDE) + "*"
        lines.append(f"  {at:>{left}}  {text:>{right}}  {mark}".rstrip())
    for line in (figure.formula, say.holds(figure.valid), say.source(figure.source, STANDINGS[figure.standing])):
        lines += wrapped(f"  {line}")
    return lines


def _in_words(figure: Figure, value: Quantity | None, system: str) -> str:
    if value is None:
        return say.DOES_NOT_HOLD
    if figure.within:  # no more digits than the formula itself is good for
        return f"{value.value:.{max(0, -math.floor(math.log10(figure.within)))}f}"
    return show(value, figure.unit if figure.gives == "number" else None, system)


def curve_as_data(curve: Curve) -> dict[str, Any]:
    """The same for another program: pairs of plain numbers in the units of the calculation."""
    figure, over = curve.figure, curve.over
    return {
        "figure": figure.name,
        "over": over.name,
        "over_unit": over.unit,
        "unit": figure.unit,
        "points": [
            [in_unit(at, over.unit), None if value is None else in_unit(value, figure.unit)]
            for at, value in curve.points
        ],
    }
