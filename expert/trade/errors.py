"""The errors of the trade package: a value outside what a formula, a table or a kind allows."""

from __future__ import annotations


class OutOfRange(ValueError):
    """A value lies outside what the source of a calculation covers; says name, value, unit, limits and source."""

    def __init__(self, name: str, value: float, unit: str, low: float | None, high: float | None, source: str) -> None:
        self.name, self.value, self.unit, self.low, self.high, self.source = name, value, unit, low, high, source
        super().__init__(f"{_with_unit(f'{name} {value:.6g}', unit)}; {source} holds {_limits(low, high, unit)}")


class KindsDiffer(TypeError):
    """Two quantities of different kinds were compared, added or subtracted."""


class WrongArguments(ValueError):
    """A figure was called with too many, too few or unsuitable arguments."""


def within(name: str, value: float, unit: str, low: float, high: float, source: str) -> None:
    """Pass if low <= value <= high, else raise OutOfRange. Not-a-number never passes.

    >>> within("temperature", 412.0, "degC", 0.0, 374.0, "equation 30")
    Traceback (most recent call last):
    expert.trade.errors.OutOfRange: temperature 412 degC; equation 30 holds from 0 to 374 degC
    """
    if not low <= value <= high:
        raise OutOfRange(name, value, unit, low, high, source)


def above(name: str, value: float, unit: str, low: float, source: str) -> None:
    """Pass if value is greater than low and finite, else raise OutOfRange.

    >>> above("power", 0.0, "W", 0.0, "Joule's law")
    Traceback (most recent call last):
    expert.trade.errors.OutOfRange: power 0 W; Joule's law holds above 0 W
    """
    if not low < value < float("inf"):
        raise OutOfRange(name, value, unit, low, None, source)


def _limits(low: float | None, high: float | None, unit: str) -> str:
    if low is not None and high is not None:
        return _with_unit(f"from {low:.6g} to {high:.6g}", unit)
    if low is not None:
        return _with_unit(f"above {low:.6g}", unit)
    if high is not None:
        return _with_unit(f"below {high:.6g}", unit)
    return "for other values"


def _with_unit(text: str, unit: str) -> str:
    return f"{text} {unit}" if unit else text
