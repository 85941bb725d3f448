"""The errors of the trade package: a value outside what a formula, a table or a kind allows."""

from __future__ import annotations

from expert.trade import sentences as say


class OutOfRange(ValueError):
    """A value lies outside what the source of a calculation covers; says name, value, unit, limits and source."""

    def __init__(self, name: str, value: float, unit: str, low: float | None, high: float | None, source: str) -> None:
        self.name, self.value, self.unit, self.low, self.high, self.source = name, value, unit, low, high, source
        super().__init__(
            say.out_of_range(_with_unit(f"{name} {_plain(value)}", unit), source, _limits(low, high, unit))
        )


class WrongWayRound(OutOfRange):
    """What has to be the lower of two values is the higher one; says both, and that they seem to be swapped."""

    def __init__(self, lower: str, low: float, upper: str, high: float, unit: str) -> None:
        super().__init__(lower, low, unit, None, high, upper)
        self.args = (
            say.wrong_way_round(
                _with_unit(f"{lower} {_plain(low)}", unit), _with_unit(f"{upper} {_plain(high)}", unit)
            ),
        )


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


def in_order(lower: str, low: float, upper: str, high: float, unit: str) -> None:
    """Pass if low is not above high, else raise WrongWayRound.

    >>> in_order("cut-in", 1.1, "cut-out", 0.9, "bar")
    Traceback (most recent call last):
    expert.trade.errors.WrongWayRound: cut-in 1.1 bar lies above cut-out 0.9 bar; are the two swapped?
    """
    if low > high:
        raise WrongWayRound(lower, low, upper, high, unit)


def _limits(low: float | None, high: float | None, unit: str) -> str:
    if low is not None and high is not None:
        return _with_unit(say.from_to(_plain(low), _plain(high)), unit)
    if low is not None:
        return _with_unit(f"above {_plain(low)}", unit)
    if high is not None:
        return _with_unit(f"below {_plain(high)}", unit)
    return "for other values"


def _plain(value: float) -> str:
    """Six digits, without a power of ten where people write none.

    >>> _plain(1619050.3), _plain(0.00611212), _plain(1e12)
    ('1619050', '0.00611212', '1e+12')
    """
    return f"{value:.0f}" if 1e5 <= abs(value) < 1e10 else f"{value:.6g}"


def _with_unit(text: str, unit: str) -> str:
    return f"{text} {unit}" if unit else text
