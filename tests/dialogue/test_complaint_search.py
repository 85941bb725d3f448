"""A sentence as a customer says it leads to its complaint among the first three."""

from __future__ import annotations

import pytest

from expert.job.answers.complaint_search import complaints_meant
from expert.language.load import load_rules
from expert.language.shipped import shipped
from tests.dialogue.complaint_sentences import HELD_OUT, SENTENCES

COMPLAINTS = tuple(load_rules(shipped("rules")).complaints.values())


def missed(sentences: tuple[tuple[str, str], ...]) -> list[str]:
    """The sentences whose complaint is not among the first three."""
    return [
        text
        for text, wanted in sentences
        if not {complaint.id for complaint in complaints_meant(text, COMPLAINTS)[:3]}.intersection(wanted.split())
    ]


def test_every_complaint_is_told_in_some_sentence() -> None:
    told = {wanted for _, named in SENTENCES for wanted in named.split()}
    assert sorted({complaint.id for complaint in COMPLAINTS} - told) == []
    assert len(SENTENCES) >= 150


@pytest.mark.parametrize(
    ("sentences", "share"),
    [(SENTENCES, 0.95), (HELD_OUT, 0.92)],
    ids=["all", "those-written-last"],
)
def test_the_complaint_is_among_the_first_three(sentences: tuple[tuple[str, str], ...], share: float) -> None:
    wrong = missed(sentences)
    assert 1 - len(wrong) / len(sentences) >= share, wrong


@pytest.mark.parametrize("text", ["", "when it is on", "does it", "xyzzy qwrt", "..."], ids=repr)
def test_fill_words_alone_mean_nothing(text: str) -> None:
    assert complaints_meant(text, COMPLAINTS) == ()


@pytest.mark.parametrize(
    ("text", "first"),
    [("portafiltre leeks at the side", "leaks_at_rim"), ("saftey valve driping", "safety_valve_blows")],
    ids=["portafilter", "safety-valve"],
)
def test_slips_of_the_finger_are_read_over(text: str, first: str) -> None:
    assert complaints_meant(text, COMPLAINTS)[0].id == first


def test_an_order_of_words_and_case_that_means_the_same_gives_the_same() -> None:
    assert complaints_meant("STEAM weak", COMPLAINTS) == complaints_meant("steam, weak!", COMPLAINTS)
