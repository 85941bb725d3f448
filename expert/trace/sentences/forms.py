"""What a line or a record should be, and is not."""

from __future__ import annotations

# ------------------------------------------------------------ cleaning


def limit_too_short(limit: int, shortest: int) -> str:
    return f"the limit is {limit}; {shortest} or more will do"


def cut_here(characters: int) -> str:
    return f" [cut here: {characters} characters]"


def cut_here_on_a_line(characters: int) -> str:
    return f"\n[cut here: {characters} characters]"


# ------------------------------------------------------------ json values


def union_will_not_do(kind: object) -> str:
    return f"{kind} will not do in a record: of unions, only 'X | None' will"


def will_not_do(kind: object, where: str) -> str:
    return f"{kind} will not do in a record: {where}"


def is_wanted(wanted: str, found: str) -> str:
    return f"{wanted} is wanted, not {found}"


def fields_are_wanted(kind: str, found: str) -> str:
    return f"an object with the fields of {kind} is wanted, not {found}"


def is_no_field(unknown: object, names: str) -> str:
    return f"{unknown!r} is not a field; there are {names}"


def field_is_missing(name: str) -> str:
    return f"the field {name!r} is missing"


def one_is_wanted(wanted: str, found: str) -> str:
    return f"a {wanted} is wanted, not {found}"


def values_are_wanted(wanted: int, found: int) -> str:
    return f"{wanted} values are wanted, not {found}"


def keys_must_be_texts(where: str) -> str:
    return f"a mapping in a record has text keys: {where}"


def object_is_wanted(found: str) -> str:
    return f"an object is wanted, not {found}"


def one_of_is_wanted(wanted: str, found: str) -> str:
    return f"one of {wanted} is wanted, not {found}"


def text_is_wanted(found: str) -> str:
    return f"a text is wanted, not {found}"


def no_characters(value: str) -> str:
    return f"the text has bytes that are no characters; clean it first: {value!a}"


def whole_number_is_wanted(found: str) -> str:
    return f"a whole number is wanted, not {found}"


def whole_number_up_to(largest: int) -> str:
    return f"a whole number up to {largest} is wanted"


def yes_or_no_is_wanted(found: str) -> str:
    return f"true or false is wanted, not {found}"


def number_is_wanted(found: str) -> str:
    return f"a number is wanted, not {found}"


# ------------------------------------------------------------ kinds


def not_in_kinds(name: str) -> str:
    return f"{name} does not stand in KINDS"


def is_no_kind(kind: str) -> str:
    return f"{kind!a} is not a kind of record that this version knows"


def record_does_not_fit(kind: str, problem: object) -> str:
    return f"the record {kind!r} does not fit: {problem}"


# ------------------------------------------------------------ lines


def step_too_long(length: int, longest: int) -> str:
    return f"a step of {length:,} bytes; a line may have {longest:,}"


CLOCK_WITHOUT_ZONE = "the clock gives a time without a zone; UTC is wanted"
NOT_JSON = "the line is not JSON"


def keys_of_a_line(keys: str) -> str:
    return f"a line is an object with the keys {keys}"


SEQ_IS_A_NUMBER = "'seq' is a whole number from 1"
NO_RECORD = "a line without a record"
CHAIN_IS_A_DIGEST = "'chain' is a digest, 43 characters of base 64"
AT_IS_A_TIME = "'at' is a time such as 2026-01-31T09:30:00Z"


def is_not_json(name: str) -> str:
    return f"{name} is not JSON"


# ------------------------------------------------------------ older lines

TEXTS_ARE_WANTED = "'before', 'check' and 'kind' are texts"

# ------------------------------------------------------------ packing

NOT_PACKED = "the line cannot be unpacked: it was changed, or a line before it was changed or is missing"
ONE_KEY_EACH = "'records' are objects with one key each, the kind"
PACKED_IS_A_TEXT = "'packed' is a text"
