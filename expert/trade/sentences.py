"""What the trade refuses and how it says so, in sentences: reworded or translated here, and nowhere else."""

from __future__ import annotations

# ------------------------------------------------------------ errors


def out_of_range(value: str, source: str, limits: str) -> str:
    return f"{value}; {source} holds {limits}"


def wrong_way_round(lower: str, upper: str) -> str:
    return f"{lower} lies above {upper}; are the two swapped?"


def from_to(low: str, high: str) -> str:
    return f"from {low} to {high}"


# ------------------------------------------------------------ calculation

BY_LAW = "a law of physics or a definition"
BY_PRINT = "read in print that gives or quotes it"
BY_LIBRARY = "compared with a reference library"
BY_MEMORY = "from memory, to be confirmed"
BY_PRACTICE = "common practice, no source"


def other_number_of_arguments(figure: str, wanted: str, names: str, given: int) -> str:
    return f"{figure} takes {wanted} arguments ({names}), not {given}"


def one_of_the_words(argument: str, words: str, found: str) -> str:
    return f"{argument} is one of {words}, not {found}"


def word_for_a_quantity(argument: str, wanted: str, word: str) -> str:
    return f"{argument} is {wanted}, not the word {word}"


def other_kind_than_wanted(argument: str, wanted: str, found: str, hint: str) -> str:
    return f"{argument} is {wanted}, not {found}{hint}"


def argument_is_over_range(argument: str) -> str:
    return f"{argument} is over range (OL); nothing can be worked out from it"


ABSOLUTE_HINT = " (absolute is gauge plus air pressure)"
DIFFERENCE_HINT = " (a difference is wanted)"

# ------------------------------------------------------------ countries


def earth_with_lead(code: str) -> str:
    return f"{code}: 0.1 ohm and the lead"


def leakage_to_be_confirmed(code: str) -> str:
    return f"{code}; for which rating heaters are eased, to be confirmed"


def country_not_known(text: str, countries: str) -> str:
    return f"{text!r} is not a country whose limits are known here: {countries}"


# ------------------------------------------------------------ electrical


def core_not_in_table(section: float, sections: str) -> str:
    return f"a core of {section:g} mm2 is not in the table; {sections} mm2 would do"


def no_insulation_limit(limit_set: str) -> str:
    return f"set {limit_set} has no insulation limit for class_0; class_1, class_2 or class_3 would do"


def no_leakage_limit(limit_set: str, protection_class: str, would_do: str) -> str:
    return f"set {limit_set} has no leakage limit for {protection_class}; {would_do} would do"


def word_not_known(word: str, meaning: str, words: str) -> str:
    return f"{word!r} is not known for {meaning}; {words} would do"


# ------------------------------------------------------------ mains


def no_mains_band(band: str, bands: str) -> str:
    return f"{band!r} is not a mains band; {bands} would do"


# ------------------------------------------------------------ descaling


def no_acid_of_the_table(acid: str, acids: str) -> str:
    return f"{acid!r} is not an acid of the table; {acids} would do"


# ------------------------------------------------------------ element groups


def no_alloy_of_the_table(alloy: str, alloys: str) -> str:
    return f"{alloy!r} is not an alloy of the table; {alloys} would do"


# ------------------------------------------------------------ heat up


def no_metal_of_the_table(metal: str, metals: str) -> str:
    return f"{metal!r} is not a metal of the table; {metals} would do"


# ------------------------------------------------------------ quantity


def no_kind_of_quantity(kind: str) -> str:
    return f"there is no kind of quantity called {kind!r}"


QUANTITY_WITHOUT_VALUE = "a quantity must have a value, and not-a-number is none"


def cannot_be_added(one: str, other: str) -> str:
    return f"{one} cannot be added to {other}"


def cannot_be_taken_from(one: str, other: str) -> str:
    return f"{one} cannot be taken from {other}"


def cannot_be_compared(one: str, other: str) -> str:
    return f"{one} cannot be compared with {other}"


# ------------------------------------------------------------ reading


def no_number_with_unit(text: str) -> str:
    return f"{text} is not a number with a unit"


def not_believable(found: str, kind: str, least: str, most: str) -> str:
    return f"{found} cannot be right for {kind}; {least} to {most} would do"


def no_unit_of(unit: str, kind: str) -> str:
    return f"{unit} is not a unit of {kind}"


def text_too_long(characters: int, would_do: str) -> str:
    return f"a text of {characters} characters is too long for a reading; {would_do}"


def signs_cannot_be_shown(would_do: str) -> str:
    return f"the text has signs that cannot be shown; {would_do}"


def nothing_was_typed(would_do: str) -> str:
    return f"nothing was typed; {would_do}"


def over_range(text: str, would_do: str) -> str:
    return f"{text} is over range; {would_do}"


NOT_ONE_VALUE = "is not one value"
SEVERAL_DECIMAL_MARKS = "has more than one decimal mark"
NOT_ONE_NUMBER = "is not one number with one unit"


def did_you_mean(near: str) -> str:
    return f" (did you mean {near}?)"


def unknown_unit(unit: str, hint: str) -> str:
    return f"has the unknown unit {unit}{hint}"


def number_too_large(text: str) -> str:
    return f"{text} is too large a number for any reading"


def time_of_zero(text: str, would_do: str) -> str:
    return f"{text} has a time of zero; {would_do}"


# ------------------------------------------------------------ wire gauge


def wire_gauge_not_known(gauge: int) -> str:
    return f"gauge {gauge}; 0 to 40 are known"


# ------------------------------------------------------------ instruments


def cannot_be_read_on(found: str, instrument: str, wanted: str) -> str:
    return f"{found} cannot be read on {instrument}, which shows {wanted}"


def uncertainty_of_other_kind(found: str, wanted: str) -> str:
    return f"the uncertainty is {found} where {wanted} is wanted"


def limit_of_other_kind(found: str, wanted: str) -> str:
    return f"a limit is {found}, but the reading is {wanted}"


# ------------------------------------------------------------ meters


def no_thermocouple_class(text: str, would_do: str) -> str:
    return f"{text!r} is not a thermocouple class; {would_do} would do"


# ------------------------------------------------------------ platinum


def no_platinum_class(text: str, would_do: str) -> str:
    return f"{text!r} is not a class of platinum sensor; {would_do} would do"


def standard_of_platinum_class(sensor_class: str) -> str:
    return f"IEC 60751:2008, class {sensor_class} (film),"


# ------------------------------------------------------------ thermistor

THREE_RESISTANCES = "Steinhart-Hart takes three points of different resistance"


def three_points_are_wanted(points: int) -> str:
    return f"Steinhart-Hart takes three points, not {points}"
