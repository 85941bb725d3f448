"""What says the same is told once in a reply, and a reply longer than the screen is parted where it can be read."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from expert.job.wording.records import lines_of_reply
from expert.terminal.paging import LEAST, PROMPT_LINES, pages
from expert.trace.records import Fired, Found, SearchEnded, Told
from tests.dialogue.conftest import Desk

SHUT = Fired("limits_shut", (), "Both limits are closed.", told=True)
ALSO = Fired("limits_shut_too", (), "Both limits are closed.", told=True)
OPEN = Fired("coil_is_open", (), "The coil is open.", told=True)
FOUND = Found("valve.coil_open", "found", ("The coil is open.",))


def test_the_same_conclusion_is_told_once(desk: Desk) -> None:
    assert [text for _, text in lines_of_reply(desk.job, (SHUT, Told("Then."), ALSO))] == [
        "So: Both limits are closed.",
        "Then.",
    ]


def test_a_conclusion_that_decides_is_told_where_it_decides(desk: Desk) -> None:
    assert [text for _, text in lines_of_reply(desk.job, (OPEN, SHUT, FOUND, SearchEnded("found", ())))] == [
        "So: Both limits are closed.",
        "FOUND: fill valve: coil open.",
        "  because: The coil is open.",
    ]


LINES = st.lists(st.tuples(st.sampled_from(["plain", "question", "caution"]), st.sampled_from(["text", "  more"])))


@given(LINES, st.integers(1, 60))
def test_pages_hold_every_line_in_order_and_fit(lines: list[tuple[str, str]], rows: int) -> None:
    parted = pages(lines, rows)
    assert [line for page in parted for line in page] == lines
    assert all(len(page) <= max(rows - PROMPT_LINES, LEAST) for page in parted)
    assert all(parted[:-1])


def test_a_question_stays_with_its_choices() -> None:
    lines = [("plain", "x")] * 17 + [("question", "?"), *[("question", "  1")] * 7]
    assert [len(page) for page in pages(lines, 24)] == [17, 8]
