"""Reading a line and taking an answer."""

from __future__ import annotations

# ------------------------------------------------------------ owner

NO_TEST = "There is no test to explain here. Type help for what you can type."
NOTHING_ASKED = "Nothing is asked now."


# ------------------------------------------------------------ steps


def too_long(most: int) -> str:
    return f"That is too long: more than {most} characters. Nothing was taken."


JOB_IS_CLOSED = "The job is closed."


# ------------------------------------------------------------ mistyped


def command_meant(command: str, message: str) -> str:
    return f"Did you mean: {command}? {message}"


# ------------------------------------------------------------ reading


def limits_not_worked_out(problem: str) -> str:
    return f"The limits for this reading cannot be worked out: {problem}. Type: can't tell"


def yes_or_no(typed: str) -> str:
    return f"{typed} is no answer here. Type yes or no, or: can't tell"


def one_of_these(typed: str, numbers: str, words: str) -> str:
    return f"{typed} is no answer here. Type {numbers}, or one of {words}, or: can't tell"


def digit_alone(typed: str, with_unit: str) -> str:
    return f"{typed} alone may be the number of a line in a list. If it was read, type it with its unit: {with_unit}"


def or_cant_tell(problem: str) -> str:
    return f"{problem} Or type: can't tell"


def cannot_be_right(value: str, low: str, high: str) -> str:
    return (
        f"{value} cannot be right here: expected is something between {low} and {high}. Read again, "
        "mind the unit. Or type: can't tell"
    )


# ------------------------------------------------------------ taking


def taken_as(label: str) -> str:
    return f"Taken as: {label}. If that is wrong: take back"


def judged_anew(number: int, question: str) -> str:
    return f"Limits rest on this reading, so answer {number} is judged anew: {question}"


def judged_anew_by_value(number: int, question: str) -> str:
    return f"Limits rest on this value, so answer {number} is judged anew: {question}"


def second_test(question: str) -> str:
    return f"A second test that bears on it: {question}"


def no_test_without(instrument: str, number: int) -> str:
    return f"No test is asked any more that needs this: {instrument}. When it is at hand: take back {number}"
