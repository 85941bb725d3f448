"""A sentence as a customer says it leads to its complaint among the first three."""

from __future__ import annotations

import pytest

from expert.job.answers.complaint_search import complaints_meant, meaning_words
from expert.language.load import load_rules
from expert.language.shipped import shipped
from tests.dialogue.complaint_sentences import AFTER_ROWS, HELD_OUT, SENTENCES

BASE = load_rules(shipped("rules"))
COMPLAINTS = tuple(BASE.complaints.values())


def meant(text: str) -> list[str]:
    """The complaints that a sentence may mean, likeliest first."""
    return [complaint.id for complaint in complaints_meant(text, COMPLAINTS, BASE.same_words)]


def missed(sentences: tuple[tuple[str, str], ...]) -> list[str]:
    """The sentences whose complaint is not among the first three."""
    return [text for text, wanted in sentences if not set(meant(text)[:3]).intersection(wanted.split())]


def test_every_complaint_is_told_in_some_sentence() -> None:
    told = {wanted for _, named in SENTENCES for wanted in named.split()}
    assert sorted({complaint.id for complaint in COMPLAINTS} - told) == []
    assert len(SENTENCES) >= 150


@pytest.mark.parametrize(
    ("sentences", "share"),
    [(SENTENCES, 0.95), (HELD_OUT, 0.92), (AFTER_ROWS, 0.95)],
    ids=["all", "held-out", "tried-after-the-rows"],
)
def test_the_complaint_is_among_the_first_three(sentences: tuple[tuple[str, str], ...], share: float) -> None:
    wrong = missed(sentences)
    assert 1 - len(wrong) / len(sentences) >= share, wrong


@pytest.mark.parametrize("text", ["", "when it is on", "does it", "xyzzy qwrt", "..."], ids=repr)
def test_fill_words_alone_mean_nothing(text: str) -> None:
    assert meant(text) == []


@pytest.mark.parametrize(
    ("text", "first"),
    [("portafiltre leeks at the side", "leaks_at_rim"), ("saftey valve driping", "safety_valve_blows")],
    ids=["portafilter", "safety-valve"],
)
def test_slips_of_the_finger_are_read_over(text: str, first: str) -> None:
    assert meant(text)[0] == first


def test_an_order_of_words_and_case_that_means_the_same_gives_the_same() -> None:
    assert meant("STEAM weak") == meant("steam, weak!")


def test_words_and_phrases_of_a_row_are_one_and_nothing_else_is() -> None:
    rows = (("heat", "come up to temperature"), ("safety valve", "relief valve"))
    wanted = ["heat", "safet", "valv"]
    assert meaning_words("it came; coming up to temperature, the relief valves", rows) == ["cam", *wanted]
    assert meaning_words("heat of a safety valve", rows) == wanted
    assert meaning_words("come up, relief", rows) == ["com", "relief"]
