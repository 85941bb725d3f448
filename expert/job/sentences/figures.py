"""Calculations of the trade, typed at the prompt."""

from __future__ import annotations

from collections.abc import Mapping

# ------------------------------------------------------------ the list

STEAM = "Steam and altitude"
BOILER = "A boiler as a store of steam"
HEATING = "Heating water"
FLOW = "Flow and pumps"
ELEMENTS = "Heating elements"
SENSORS = "Sensors and coils"
CIRCUITS = "Leads, capacitors, relays and motors"
SAFETY = "Electrical safety, mains, gauges"
WATER = "Water"

# ------------------------------------------------------------ reading


def near_it(names: str) -> str:
    return f"near it: {names}"


LIST_SHOWS_ALL = "figure --list shows all"


def no_figure(typed: str, hint: str) -> str:
    return f"there is no figure {typed}; {hint}"


def too_many_words(count: int, figure: str) -> str:
    return f"{count} words are too many for {figure}"


def still_wants(figure: str, names: str) -> str:
    return f"{figure} still wants {names}"


def has_no_value(figure: str, typed: str, names: str) -> str:
    return f"{figure} has no value {typed}; it takes {names}"


def given_twice(name: str) -> str:
    return f"{name} is given twice"


def one_too_many(figure: str, names: str, typed: str) -> str:
    return f"{figure} takes {names}; {typed} is too many"


def none_of_the_words(name: str, typed: str, words: str) -> str:
    return f"{name}: {typed} is none of the words {words}"


def more_than_one_uncertainty(name: str, typed: str) -> str:
    return f"{name}: {typed} has more than one uncertainty"


# Where a bare number could mean too much: two of different units.
TWO_OF: Mapping[str, str] = {
    "volume": "250 ml or 1.8 L",
    "time": "90 s or 10 min",
    "mass": "500 g or 2 kg",
    "energy": "2 kWh or 500 kJ",
    "hardness": "150 mg/L or 8 dH",
    "capacitance": "4.7 nF or 0.1 uF",
    "resistance": "100 kohm or 1 Mohm",
}
ONE_RANGE = "one value at a time may be a range"
RANGE_IS_ONE_VALUE = "the range begins where it ends"
DOES_NOT_HOLD = "does not hold"


def holds(where: str) -> str:
    return f"Holds: {where}"


def source(words: str, standing: str) -> str:
    return f"Source: {words} ({standing})"


def curve_over(title: str, name: str) -> str:
    return f"{title}, over {name}:"


def of_what(name: str, typed: str, examples: str) -> str:
    return f"{name}: {typed} of what? Type its unit too, such as {examples}"


def over_range(name: str) -> str:
    return f"{name} is over range (OL); nothing can be worked out from it"


def uncertainty_not_positive(name: str) -> str:
    return f"{name}: an uncertainty is a positive number"


def moved_by_its_uncertainty(name: str, problem: str) -> str:
    return f"{name}, moved by its uncertainty: {problem}"


# ------------------------------------------------------------ wording

HOW_TO_TYPE = "Type figure, a name and its values, such as: figure element_resistance 230 V 1400 W"
WHAT_THERE_IS = "figure list shows all names, figure NAME what one takes."


def gives(kind: str, unit: str) -> str:
    return f"Gives: {kind}, in {unit}"


def with_its_unit(kind: str, examples: str) -> str:
    return f"{kind} with its unit: {examples}"


def bare_number_in(kind: str, unit: str) -> str:
    return f"{kind}, bare number in {unit}"


def one_of(words: str) -> str:
    return f"one of {words}"


HOW_UNCERTAINTY_IS_CARRIED = "  ±: each value moved by its own uncertainty, the squares added"


def formula_out_by(value: str, out: float) -> str:
    return f"{value} ±{out:g} (the formula itself)"
