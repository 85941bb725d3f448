"""The customer's slip as the screen shows it: of many tests those in order are counted, the printed slip has each."""

from __future__ import annotations

from collections.abc import Sequence

from expert.job.sentences import customer as say
from expert.job.wording.customer import WHAT_TO_WATCH

MOST_TESTS = 6  # told one by one
LEFT_TO_THE_SLIP = (*WHAT_TO_WATCH, say.REPAIRED)  # said by the count of the tests
HEADS = (say.TESTED, say.SAFETY_DEVICES_TESTED, say.OTHER_TESTS)
TEST = "  - "
OPEN = (say.did_not_hold(""), say.not_known_whether(""), say.NOT_IN_ORDER, say.NOT_SHOWN_IN_ORDER)


def slip_on_screen(lines: Sequence[str]) -> tuple[str, ...]:
    """The slip's lines; of a long one without the tests in order, and without what holds for every machine."""
    in_order = set(_tests_in_order(lines))
    if len(in_order) <= MOST_TESTS:
        return tuple(lines)
    left = [line for number, line in enumerate(lines) if number not in in_order and line not in LEFT_TO_THE_SLIP]
    after = [*left[1:], ""]
    # A heading below which nothing is left says nothing.
    shown = [line for line, below in zip(left, after, strict=True) if line not in HEADS or below.startswith(TEST)]
    return (*shown, say.tests_in_order(len(in_order)))


def _tests_in_order(lines: Sequence[str]) -> list[int]:
    """The numbers of the lines that tell a test which came out as it should."""
    found, among_tests = [], False
    for number, line in enumerate(lines):
        among_tests = line in HEADS or (among_tests and line.startswith(TEST))
        if among_tests and line not in HEADS and not any(words in line for words in OPEN):
            found.append(number)
    return found
