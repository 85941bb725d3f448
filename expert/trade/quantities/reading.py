"""From text as people type it to a quantity, or a short message that says what was found and what would do.

The decimal mark may be a point or a comma. A single comma is always a decimal comma (`1,234 bar` is a little over one
bar); several commas, or a comma and a point together, are refused rather than guessed. Thousands are not grouped.
"""

from __future__ import annotations

import math
import re
import unicodedata

from expert.trade import sentences as say
from expert.trade.quantities.bench_kinds import KINDS, Kind
from expert.trade.quantities.quantity import Quantity, article, with_article
from expert.trade.quantities.showing import show
from expert.trade.quantities.unit_names import unit_in, unit_like, units_named
from expert.trade.quantities.wire_gauge import read_awg

LONGEST_READING = 80
LONGEST_ECHO = 40
_NUMBER = r"[+-]?(?:[0-9]+(?:[.,][0-9]*)?|[.,][0-9]+)(?:[eE][+-]?[0-9]{1,3})?"
# Plain strings: the re module compiles each at its first use, so that importing this module costs nothing.
_NUMBER_AND_UNIT = rf"({_NUMBER})\s*([^0-9+\-.,\s](?:[^0-9]|(?<=m)[23])*)?"
_LETTER_AS_POINT = r"([0-9]*)(R|r|k|K|M|u|μ|n|p)([0-9]+)\s*(?:ohms?|Ω|F)?"
_PIECE_OF_TIME = rf"({_NUMBER})\s*([a-zA-Z'\"]*)\s*"
_CLOCK = r"([0-9]+):([0-5][0-9])(?::([0-5][0-9]))?"
_AMOUNT_IN_TIME = r"(.+?)\s*(?:\bin\b|\bper\b|/)\s*([0-9].*)"
_OVER_RANGE = r"(?i:[o0]\.?l\.?|over ?(?:range|load|limit)|∞|inf(?:inite|inity)?|open(?: line)?)(?![A-Za-z])\s*(.*)"
_NO_UNIT_OF_ITS_OWN = ("°", "deg", "degrees", "degree")


class NotAQuantity(ValueError):
    """The text is not a reading of the kind that is wanted; the message says what was found and what would do."""


class NotBelievable(NotAQuantity):
    """The reading is well formed, but no bench shows such a value."""


def read_quantity(text: str, kind: str, unit: str | None = None, system: str = "metric") -> Quantity:
    """The quantity that the text means, in the base unit of the wanted kind.

    text: as typed, at most 80 characters. kind: a name in KINDS. unit: of a bare number (default: the kind's
    preferred unit in the system, "metric" or "us"); a section may be a wire gauge, 14 AWG. Raises NotAQuantity, or NotBelievable outside the bench range.

    >>> read_quantity("1,2 bar", "gauge_pressure").value, read_quantity("1k8", "resistance").value
    (1.2, 1800.0)
    >>> read_quantity("60 ml in 10 s", "flow").value, read_quantity("2 min 30", "time").value
    (6.0, 150.0)
    >>> read_quantity("37 V", "resistance")
    Traceback (most recent call last):
    expert.trade.quantities.reading.NotAQuantity: '37 V' is a voltage; a resistance is wanted, in ohm, kohm or Mohm, or OL
    """  # noqa: E501
    wanted = KINDS[kind]
    default = _default_unit(wanted, unit, system)
    plain = _plain_text(text, wanted, system)
    section = read_awg(plain) if kind == "area" else None
    value = _value_of(plain, wanted, default, system) if section is None else section
    quantity = Quantity(value, kind)
    believable(quantity, system)
    return quantity


def number_and_unit(text: str) -> tuple[float, str]:
    """A number and the unit name after it, as typed ("" if there is none). Raises NotAQuantity.

    >>> number_and_unit("100 kohm"), number_and_unit("-0,5")
    ((100.0, 'kohm'), (-0.5, ''))
    """
    plain = _plain_text(text, KINDS["number"], "metric")
    matched = re.fullmatch(_NUMBER_AND_UNIT, plain)
    if matched is None:
        raise NotAQuantity(say.no_number_with_unit(echo(text)))
    return _float(matched[1], text), matched[2] or ""


def is_bare_number(text: str) -> bool:
    """Whether the text is a number and nothing else: no unit, no second piece.

    >>> is_bare_number("1,8"), is_bare_number("1.8 L"), is_bare_number("2 min 30"), is_bare_number("4n7")
    (True, False, False, False)
    """
    return re.fullmatch(_NUMBER, text.strip()) is not None


def believable(quantity: Quantity, system: str = "metric") -> None:
    """Pass if a bench can show such a value (over range counts as shown), else raise NotBelievable.

    >>> believable(Quantity(900.0, "gauge_pressure"))
    Traceback (most recent call last):
    expert.trade.quantities.reading.NotBelievable: 900 bar cannot be right for a gauge pressure; -1.10 bar to 40.0 bar would do
    """  # noqa: E501
    kind = KINDS[quantity.kind]
    low, high = kind.believable
    if quantity.value == math.inf and kind.over_range:
        return
    if not low <= quantity.value <= high:
        found, least, most = (show(Quantity(value, kind.name), None, system) for value in (quantity.value, low, high))
        raise NotBelievable(say.not_believable(found, with_article(kind.name), least, most))


def echo(text: str) -> str:
    """The text in quotes, safe to show: at most 40 characters, nothing that could steer a terminal.

    >>> echo("maybe"), echo(" ")
    ("'maybe'", 'An empty line')
    """
    if not text.strip():
        return "An empty line"
    short = text if len(text) <= LONGEST_ECHO else text[: LONGEST_ECHO - 3] + "..."
    return "'" + "".join(letter if letter.isprintable() else "?" for letter in short) + "'"


def what_would_do(kind: Kind, system: str = "metric") -> str:
    """The second half of every message: the wanted kind and its first units."""
    first = kind.preferred(system)
    names = [first, *(unit for unit in kind.units if unit != first)][:3]
    shown = [name for name in names if name]
    ending = ", or OL" if kind.over_range else ""
    units = f", in {_listed(shown)}" if shown and kind.name != "number" else ""
    return f"{article(kind.words)} is wanted{units}{ending}"


def _default_unit(wanted: Kind, unit: str | None, system: str) -> str:
    if unit is None:
        return wanted.preferred(system)
    name = unit_in(wanted, unit)
    if name is None:
        raise ValueError(say.no_unit_of(echo(unit), article(wanted.words)))
    return name


def _plain_text(text: str, wanted: Kind, system: str) -> str:
    """One spelling of every sign, one space between words; too long or unprintable text is refused."""
    if len(text) > LONGEST_READING:
        would_do = what_would_do(wanted, system)
        raise NotAQuantity(say.text_too_long(len(text), would_do))
    if any(
        unicodedata.category(letter) in ("Cc", "Cf", "Cs", "Co", "Cn") and letter not in "\t\r\n" for letter in text
    ):
        raise NotAQuantity(say.signs_cannot_be_shown(what_would_do(wanted, system)))
    text = text.replace("º", "°").replace("−", "-").replace("–", "-")
    text = " ".join(unicodedata.normalize("NFKC", text).split())
    if not text:
        raise NotAQuantity(say.nothing_was_typed(what_would_do(wanted, system)))
    return text


def _value_of(text: str, wanted: Kind, default: str, system: str) -> float:
    over = re.fullmatch(_OVER_RANGE, text)
    if over is not None and (not over[1] or unit_in(wanted, over[1])):
        if wanted.over_range:
            return math.inf
        raise NotAQuantity(say.over_range(echo(text), what_would_do(wanted, system)))
    special = _SPECIAL.get(wanted.name)
    value = special(text) if special is not None else None
    return value if value is not None else _plain_value(text, wanted, default, system)


def _plain_value(text: str, wanted: Kind, default: str, system: str) -> float:
    matched = re.fullmatch(_NUMBER_AND_UNIT, text)
    if matched is None:
        raise NotAQuantity(f"{echo(text)} {_why_not(text)}; {what_would_do(wanted, system)}")
    typed = matched[2] or ""
    unit = default if not typed or typed in _NO_UNIT_OF_ITS_OWN else unit_in(wanted, typed)
    if unit is None:
        raise NotAQuantity(f"{echo(text)} {_what_is(typed, wanted)}; {what_would_do(wanted, system)}")
    factor, offset = wanted.units[unit]
    return _float(matched[1], text) * factor + offset


def _why_not(text: str) -> str:
    if not any("0" <= letter <= "9" for letter in text):
        return "has no number"
    if text[0] in "<>≤≥~≈":
        return say.NOT_ONE_VALUE
    if len(re.findall(r"[.,]", text)) > 1:
        return say.SEVERAL_DECIMAL_MARKS
    return say.NOT_ONE_NUMBER


def _what_is(unit: str, wanted: Kind) -> str:
    kinds = [KINDS[name] for name in units_named(unit)]
    if not kinds:
        near = unit_like(unit, wanted.units)
        meant = say.did_you_mean(near) if near else ""
        return say.unknown_unit(echo(unit), meant)
    families = list(dict.fromkeys(kind.family for kind in kinds))
    if len(kinds) == 1:
        return f"is {article(kinds[0].words)}"
    return f"is {_listed([article(family) for family in families])}"


def _float(number: str, text: str) -> float:
    value = float(number.replace(",", "."))
    if math.isinf(value):
        raise NotAQuantity(say.number_too_large(echo(text)))
    return value


def _letter_for_point(text: str) -> float | None:
    """37R8 is 37.8, 1k8 is 1800: the letter stands where the decimal point would be."""
    matched = re.fullmatch(_LETTER_AS_POINT, text)
    if matched is None or matched[2] in "uμnp":
        return None
    factor = {"R": 1.0, "k": 1e3, "M": 1e6}[matched[2].replace("r", "R").replace("K", "k")]
    return float(f"{matched[1] or '0'}.{matched[3]}") * factor


def _farads(text: str) -> float | None:
    """4n7 is 4.7 nF and 2u2 is 2.2 uF; the base unit is uF."""
    matched = re.fullmatch(_LETTER_AS_POINT, text)
    if matched is None or matched[2] not in "uμnp":
        return None
    return float(f"{matched[1] or '0'}.{matched[3]}") * {"u": 1.0, "μ": 1.0, "n": 1e-3, "p": 1e-6}[matched[2]]


def _pieces_of_time(text: str) -> float | None:
    """`2 min 30`, `1 h 20 min`, or a stopwatch's `2:30` (minutes and seconds) and `1:20:00`. A single piece: None."""
    clock = re.fullmatch(_CLOCK, text)
    if clock is not None:
        first, second, third = (int(part) for part in (clock[1], clock[2], clock[3] or "0"))
        return float(first * 3600 + second * 60 + third if clock[3] else first * 60 + second)
    pieces = re.findall(_PIECE_OF_TIME, text)
    if len(pieces) < 2 or "".join(re.split(_PIECE_OF_TIME, text)[::3]).strip():
        return None
    return _sum_of_pieces(pieces)


def _sum_of_pieces(pieces: list[tuple[str, str]]) -> float | None:
    time = KINDS["time"]
    smaller = {"h": "min", "min": "s"}
    total, last_factor, last_unit = 0.0, math.inf, ""
    for number, typed in pieces:
        unit = unit_in(time, typed) if typed else smaller.get(last_unit)
        if unit is None or time.units[unit][0] >= last_factor or number[0] in "+-":
            return None
        last_factor, last_unit = time.units[unit][0], unit
        total += _float(number, number) * last_factor
    return total


def _amount_in_time(text: str) -> float | None:
    """`60 ml in 10 s`, `200 ml / 30 s`: an amount and the time it took, in ml/s."""
    matched = re.fullmatch(_AMOUNT_IN_TIME, text)
    if matched is None:
        return None
    amount = read_quantity(matched[1], "volume")
    time = read_quantity(matched[2], "time")
    if time.value == 0:
        raise NotAQuantity(say.time_of_zero(echo(text), what_would_do(KINDS["flow"])))
    return amount.value / time.value


def _listed(words: list[str]) -> str:
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} or {words[-1]}"


_SPECIAL = {
    "resistance": _letter_for_point,
    "capacitance": _farads,
    "time": _pieces_of_time,
    "flow": _amount_in_time,
}
