"""What is wrong with a trace, or cannot be known of it."""

from __future__ import annotations

# ------------------------------------------------------------ agreeing

END_OVERWRITTEN = "the end was overwritten: NUL bytes stand where lines may have been"
REGISTER_CHANGED = "the register was changed after it was written: it proves nothing any more"
AND_THE_JOB_WAS_CLOSED = ", and the job was closed"


def end_cut_off(here: str, known: int, closed: str) -> str:
    return f"the end was cut off: {here} are here, and the register of the folder knows of {known}{closed}"


WRITTEN_ANEW = "the trace was written anew: the register of the folder knows another line in this place"


def known_only_from_line(lines: int) -> str:
    return (
        f"the register of the folder knows this trace only from line {lines} on: it came from elsewhere, or is older "
        "than the register"
    )


def known_as(job: str) -> str:
    return f"the register of the folder knows this trace as {job}: it was renamed or copied"


NOT_KNOWN = "the register of the folder does not know this trace: it came from elsewhere, or is older than the register"

# ------------------------------------------------------------ signing


def seal_signed(lines: int, digest: str) -> str:
    return f"sealed after {lines} lines, the last {digest}"


def cannot_be_read(path: object, why: object) -> str:
    return f"{path} cannot be read: {why}"


def holds_no_key(path: object) -> str:
    return f"{path} holds no key: 64 hexadecimal digits are wanted"


SIGNATURES_NEED = "signatures need the library cryptography: pip install 'bench-expert[signing]'"

# ------------------------------------------------------------ skimming


def file_too_long(path: object, length: int, longest: int) -> str:
    return f"{path} has {length:,} bytes; a trace has at most {longest:,}"


NO_WHOLE_LINE = "there is no whole line"


def line_changed(number: int) -> str:
    return f"line {number} was changed"


def keys_of_a_line(keys: str) -> str:
    return f"a line is an object with the keys {keys}"


def line_does_not_follow(number: int) -> str:
    return f"line {number} does not follow from the line before it"


def line_has_another_number(number: int) -> str:
    return f"line {number} has another number"


ONE_KEY_EACH = "'records' are objects with one key each, the kind"
RECORD_NO_OBJECT = "a record is not an object"
RECORD_NOT_JSON = "a record is not JSON"

# ------------------------------------------------------------ verifying

CHANGED_AFTERWARDS = "the line was changed after it was written"


def one_of_two_replaced(index: int) -> str:
    return f"the line does not follow from line {index}: one of the two was replaced"


FIRST_FOLLOWS_ANOTHER = "the first line follows from another"


def line_replaced(index: int) -> str:
    return f"line {index} was replaced"


FOLLOWS_ANOTHER = "it follows from another"


def changed_or(rest: str) -> str:
    return f"the line was changed after it was written, or {rest}"


def number_missing(missing: int, found: int) -> str:
    return f"number {missing} is missing: here stands number {found}"


def numbers_missing(first: int, last: int, found: int) -> str:
    return f"numbers {first} to {last} are missing: here stands number {found}"


def number_due(due: int, found: int) -> str:
    return f"number {due} is due, but here stands number {found}: lines were put in or moved"


def begins_with(kind: str) -> str:
    return f"a trace begins with 'opened', not with {kind!r}"


OPENED_TWICE = "the job is opened a second time"
NO_SEAL = "the job is open: the trace has no seal yet"


def seal_of_another(sealed: str, before: int) -> str:
    return f"the seal is for another trace: it speaks of {sealed}, and {before} stand before it"


LINES_AFTER_SEAL = "lines follow the seal"
SIGNATURE_OF_ANOTHER = "the signature of the seal is not that of its key"


def signature_not_checked(problem: object) -> str:
    return f"the signature of the seal was not checked: {problem}"


SOMETHING_AFTER_SEAL = "something follows the seal"
LAST_LINE_CHANGED = "the last line is whole, but it is not JSON: it was changed"


def last_line_torn(length: int) -> str:
    return f"the last line is torn: a write of {length} bytes did not come to its end"


def clock_put_back(later: str, earlier: str) -> str:
    return f"the clock was put back: {later} follows {earlier}"
