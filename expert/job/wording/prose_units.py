"""The figures in sentences of the rules, for a shop that works in US units: these stand beside them in brackets.

Rules are written in bar, degrees Celsius, metres and litres. To a US reader "123 degrees" is a different temperature,
so the sentence says both. A number of degrees may be a temperature or a difference; the words around it tell which.
"""

from __future__ import annotations

import re
from collections.abc import Callable

from expert.trade.quantities.units import KINDS

_NUMBER = r"-?[0-9]+(?:\.[0-9]+)?"
# A figure in quotes is what somebody typed: it is shown as it was.
_FIGURES = re.compile(
    rf"(?P<before>\b(?:within(?: about)?|offset of more than|differ by(?: more than)?) )?(?<![\w.'])"
    rf"(?:(?P<first>{_NUMBER}) (?P<joint>to|and|or) )?(?P<last>{_NUMBER}) "
    rf"(?P<unit>bar|degrees|m[lL]/s|m[lL]|L|m)\b(?![/ ]*(?:abs|s\b|min\b|h\b))"
    r"(?P<after> (?:below (?!zero)|above (?:its|the)|past|off|apart|warmer|cooler|hotter|of it|more)\b)?"
)


# As written, small: its kind, our name for it, the unit beside it.
_AMOUNTS = {
    "ml": ("volume", "ml", "fl oz"),
    "l": ("volume", "L", "fl oz"),
    "ml/s": ("flow", "ml/s", "fl oz/min"),
}


def in_us_units(text: str) -> str:
    """The text with every pressure, temperature and height in US units behind it.

    >>> in_us_units("Between 0.8 and 1.3 bar. Within about 5 degrees of it: 123 degrees.")
    'Between 0.8 and 1.3 bar (12 and 19 psi). Within about 5 degrees (9 °F) of it: 123 degrees (253 °F).'
    """
    return _FIGURES.sub(_beside, text)


def _beside(found: re.Match[str]) -> str:
    whole, after = found[0], found["after"] or ""
    convert, unit, least = _conversion(found["unit"], bool(found["before"] or after))
    numbers = [float(number) for number in (found["first"], found["last"]) if number]
    if min(abs(number) for number in numbers) < least and len(numbers) == 1:
        return whole
    joint = f" {found['joint']} " if found["joint"] else ""
    shown = joint.join(_short(convert(number)) for number in numbers)
    return f"{whole.removesuffix(after)} ({shown} {unit}){after}"


def _conversion(unit: str, difference: bool) -> tuple[Callable[[float], float], str, float]:
    """How to convert, the unit that comes out, and below which single number nothing is said."""
    if unit == "bar":
        return _to("gauge_pressure", "psi"), "psi", 0.0
    if unit.casefold() in _AMOUNTS:
        kind, spelt, shown = _AMOUNTS[unit.casefold()]
        each, to_shown = KINDS[kind].units[spelt][0], _to(kind, shown)
        return lambda value: to_shown(value * each), shown, 0.0
    if unit == "m":
        return _to("length", "ft"), "ft", 100.0  # shorter lengths are metres of cord and hose
    return _to("temperature_difference" if difference else "temperature", "degF"), "°F", 0.0


def _to(kind: str, unit: str) -> Callable[[float], float]:
    factor, offset = KINDS[kind].units[unit]
    return lambda value: (value - offset) / factor


def _short(value: float) -> str:
    """Two digits for what is small, whole numbers, and tens above a thousand."""
    if abs(value) >= 1000:
        return f"{round(value, -1):.0f}"
    return f"{value:.0f}" if abs(value) >= 9.5 or value == round(value) else f"{value:.1f}"
