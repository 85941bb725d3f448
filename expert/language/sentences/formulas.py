"""Formulas, quantities and units."""

from __future__ import annotations

# ------------------------------------------------------------ formula


def is_not_known(name: str) -> str:
    return f"{name} is not known"


def gives_a_word(formula: str, word: str) -> str:
    return f"'{formula}' gives the word '{word}', not a quantity"


def word_for_a_quantity(word: str) -> str:
    return f"'{word}' is a word where a quantity is wanted"


def other_kind_than_wanted(name: str, kind: str, wanted: str) -> str:
    return f"{name} is {kind} where {wanted} is wanted"


DIVISION_BY_ZERO = "a division by zero"
TWICE_OVER_RANGE = "over range against over range has no result"

# ------------------------------------------------------------ kinds


def no_machine_gives_it_a_value(problem: str) -> str:
    return f"no machine gives this a value: {problem}"


def only_functions_take_words(name: str) -> str:
    return f"'{name}' is a word; only a trade function takes words"


def answered_in_words(question: str) -> str:
    return f"'{question}' is answered in words; a formula takes only what is measured"


def function_wants_brackets(name: str) -> str:
    return f"'{name}' is a trade function; it wants its values in brackets"


def compares_unlike_kinds(function: str, one: str, other: str) -> str:
    return f"{function} compares {one} with {other}"


TEMPERATURE_TURNED_ROUND = "a temperature in degrees cannot be turned round"


def other_number_of_values(function: str, given: int, taken: str) -> str:
    return f"{function} is given {given} values; it takes {taken}"


def has_none_of_the_words(name: str, words: str) -> str:
    return f"'{name}' has none of the words {words}"


def one_of_the_words(words: str) -> str:
    return f"one of the words {words} is wanted here"


def there_is_no(what: str, name: str) -> str:
    return f"there is no {what} '{name}'"


def plain_number_for_quantity(number: str, wanted: str, unit: str) -> str:
    return f"{number} is a plain number; {wanted} is wanted, as in '{number} {unit}'"


def gives_other_kind(given: str, wanted: str) -> str:
    return f"this gives {given}; {wanted} is wanted"


TEMPERATURE_SCALED = "a temperature in degrees cannot be scaled; scale a difference, or add or take away kelvins"


def cannot_join(operator: str, left: str, right: str) -> str:
    return f"'{operator}' cannot join {left} and {right}"


# ------------------------------------------------------------ syntax


def is_no_reading(text: str) -> str:
    return f"'{text}' is no reading; write 'above F', 'below F', 'F to F' or 'otherwise'"


def no_place_in_a_formula(text: str) -> str:
    return f"'{text}' has no place in a formula"


EXPONENT_HINT = "; a number with an exponent is written out"


def did_you_mean(near: str) -> str:
    return f"; did you mean {near}?"


def is_no_unit(word: str, hint: str) -> str:
    return f"'{word}' is not a unit{hint}"


def formula_too_long(characters: int, longest: int) -> str:
    return f"the formula has {characters} characters; {longest} are allowed"


def sign_is_wanted_before(sign: str, found: str) -> str:
    return f"'{sign}' is wanted before {found}"


COMMA_HINT = "; a decimal point is wanted, not a comma"


def one_too_many(found: str, hint: str) -> str:
    return f"{found} is one too many; an operator (+ - * /) may be missing{hint}"


def formula_too_deep(deepest: int) -> str:
    return f"the formula is nested more than {deepest} deep"


TWO_SIGNS = "two signs in a row"


def value_is_wanted_before(found: str) -> str:
    return f"a number, a name or a bracket is wanted before {found}"


# ------------------------------------------------------------ quantities


def there_is(names: str) -> str:
    return f"; there is {names}"


def is_no_kind(text: str, hint: str) -> str:
    return f"'{text}' is no kind of quantity{hint}"


def no_unit_of_kind(text: object, kind: str, units: str) -> str:
    return f"'{text}' is no unit of {kind}; it may be {units}"


def is_no_span(text: str) -> str:
    return f"'{text}' is no span; write LOW to HIGH, as in 0 ohm to 2 kohm"


def limits_reversed(reading: str) -> str:
    return f"'{reading}': the lower limit is not below the upper one"
