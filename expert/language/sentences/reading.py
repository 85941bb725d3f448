"""Keys, names and values of any record, and conditions."""

from __future__ import annotations

# ------------------------------------------------------------ conditions


def condition_rests_on_itself(condition: str, way: str) -> str:
    return f"the condition {condition} rests on itself: {way}"


def worked_out_in_condition(name: str) -> str:
    return f"'{name}' is a worked-out value; a condition takes the named readings of a question"


def rating_in_condition(name: str) -> str:
    return f"'{name}' is a rating, a number; a condition takes the named readings of a question"


def did_you_mean_one_of(part: str, faults: str) -> str:
    return f"; did you mean {part}.{faults}?"


def part_in_condition(part: str, hint: str) -> str:
    return f"'{part}' is a part; a condition takes one of its faults{hint}"


def there_is_no(what: str, name: str, hint: str) -> str:
    return f"there is no {what} '{name}'{hint}"


def no_machine_feature(name: str) -> str:
    return f"'{name}' is no machine feature; 'applies' takes machine.<feature> only"


# ------------------------------------------------------------ draft


def list_of_all(what: str) -> str:
    return f"the list of {what}s"


# ------------------------------------------------------------ names

THERE_IS_NONE = "; there is none yet"


def did_you_mean(near: str) -> str:
    return f"; did you mean {near}?"


def there_is(names: str) -> str:
    return f"; there is {names}"


# ------------------------------------------------------------ reader

A_MAPPING = "a mapping (key: value)"
A_LIST = "a list ([one, two])"


def quote_never_opened(what: str) -> str:
    return f"{what} ends with a quote, but none opens it"


def is_empty(what: str, wanted: str) -> str:
    return f"{what} is empty; {wanted} is wanted"


def is_not_as_wanted(what: str, found: str, wanted: str) -> str:
    return f"{what} is {found}; {wanted} is wanted"


def may_be_one_of(what: str, found: str, choices: str, hint: str) -> str:
    return f"{what} is '{found}'; it may be {choices}{hint}"


def the_name_of(what: str) -> str:
    return f"the name of a {what}"


def part_for_a_fault(part: str, faults: str) -> str:
    return f"'{part}' is a part; one of its faults is wanted here: {faults}"


def stands_twice(text: str) -> str:
    return f"'{text}' stands twice in this list"


def the_outcome_of(fact: str) -> str:
    return f"the outcome of {fact}"


def is_no_outcome(text: str, fact: str, hint: str) -> str:
    return f"'{text}' is not an outcome of {fact}; {hint}"


# ------------------------------------------------------------ record


def did_you_mean_key(near: str) -> str:
    return f"did you mean {near}?"


def may_have_keys(keys: str) -> str:
    return f"it may have {keys}"


def several_in_brackets(first: str) -> str:
    return f"several under one key stand in brackets, as in [..., {first}]"


def is_no_key(key: str, what: str, hint: str) -> str:
    return f"'{key}' is not a key of {what}; {hint}"


def must_have_key(what: str, key: str) -> str:
    return f"{what} must have '{key}'"


def an_entry_of(key: str) -> str:
    return f"an entry of '{key}'"


def number_is_wanted(key: str, found: str) -> str:
    return f"'{key}' is '{found}'; a plain number is wanted, as in 2 or 2.5"


def yes_or_no_is_wanted(key: str, found: str) -> str:
    return f"'{key}' is '{found}'; write yes or no"


A_LIST_OF_STATES = "a list of states ([{mains: on, covers: off}])"


def key_among_names(key: str, what: str) -> str:
    return f"'{key}' is a key of {what}, and stands where names are given; it may be indented too little"


def line_above_is_missing(found: str, wanted: str, line: str) -> str:
    return (
        f"this and what follows are each {found}, and stand where {wanted} is wanted; the line '{line}:' may be "
        "missing above"
    )


def the_state_of(what: str) -> str:
    return f"the state of {what}"


def is_no_state(text: str, dimension: str, hint: str) -> str:
    return f"'{text}' is not a state of {dimension}; {hint}"


# ------------------------------------------------------------ survey


def list_inside_another(key: str) -> str:
    return f"'{key}' is a list of the file, but stands inside another one; it begins in column 1"


def is_no_id(text: str) -> str:
    return f"'{text}' is no id; small letters, digits and single underscores, as in fill_coil"


def word_of_the_language(text: str) -> str:
    return f"'{text}' is a word of the language; choose another id"


def defined_twice(what: str, name: str, first: object) -> str:
    return f"there is already a {what} '{name}', at {first}"


# ------------------------------------------------------------ values


def list_of(name: str) -> str:
    return f"the list of {name}"


# ------------------------------------------------------------ schemas

ANY_OF = "At least one of these holds."
ALL_OF = "Every one of these holds."
NOT_SO = "This does not hold."
NAMED_CONDITIONS = "Named conditions, all of which hold."
CONDITION_AS_MAPPING = "A mapping: all of it must hold; a list of outcomes: any of them will do."
