"""Types and complaints mistyped at intake: the nearest are named with their numbers. Whole replies compared."""

from __future__ import annotations

import pytest

from tests.dialogue.phases import at
from tests.dialogue.shipped_desk import ShippedDesk


@pytest.mark.parametrize(
    ("typed", "reply"),
    [
        ("test_machin", "'test_machin' is no machine type. Did you mean: 1 Test machine? Type 1."),
        ("Tset machine", "'Tset machine' is no machine type. Did you mean: 1 Test machine? Type 1."),
        ("2", "'2' is no machine type. Type 1."),
        ("toaster", "'toaster' is no machine type. Type 1."),
    ],
)
def test_a_mistyped_machine(typed: str, reply: str) -> None:
    assert at("machine").type(typed) == [reply]


@pytest.mark.parametrize(
    ("typed", "reply"),
    [
        ("purple", "'purple' fits no complaint. Type other words, or list to see all."),
        ("", "Type what the customer said, in a few words, or list to see all complaints."),
        ("ok", "Type what the customer said, in a few words, or list to see all complaints."),
        ("n", "Type what the customer said, in a few words, or list to see all complaints."),
        ("99", "'99' is no number here. Type 1 to 4, as in list, or the complaint in a few words."),
    ],
)
def test_a_mistyped_complaint(typed: str, reply: str) -> None:
    desk = at("complaints")
    before = desk.job
    assert desk.type(typed) == [reply]
    assert desk.job is before


@pytest.mark.parametrize(
    ("typed", "reply"),
    [
        ("y", "Type it in a few words, or ok to go on."),
        ("purple", "'purple' fits no complaint. Type other words, list to see all, or ok to go on."),
    ],
)
def test_another_complaint(typed: str, reply: str) -> None:
    desk = at("complaints")
    assert desk.type("no fill", typed) == [reply]
    assert desk.type("no fill")[0] == "Already noted: Boiler does not fill."


@pytest.mark.parametrize(
    ("typed", "named"),
    [
        ("no steem", "Steam is weak or missing"),
        ("scortched", "Smells burnt, smokes or has a scorched plug"),
        ("tinlge", "Gives a tingle or shock when touched"),
    ],
)
def test_complaints_of_the_trade_mistyped(typed: str, named: str) -> None:
    desk = ShippedDesk()
    *offered, _ = desk.type("Ann", "1", "ok", typed)
    (number,) = [row.split()[0] for row in offered if row.endswith(f"  {named}")]
    assert desk.type(number)[0] == f"Complaint: {named}."


@pytest.mark.parametrize(
    ("typed", "offered", "asked"),
    [
        ("leeks", ["  1  Water under the machine"], "Is it this? Type 1, other words, or list to see all."),
        ("pudle", ["  1  Water under the machine"], "Is it this? Type 1, other words, or list to see all."),
        ("hises", ["  1  Hisses on heat-up"], "Is it this? Type 1, other words, or list to see all."),
        (
            "the valve hisses at us",
            ["  1  Hisses on heat-up", "  2  Safety valve blows"],
            "Which of these? Type its number, or several (1, 2), other words, or list to see all.",
        ),
    ],
)
def test_a_complaint_in_words_is_never_taken_unasked(typed: str, offered: list[str], asked: str) -> None:
    desk = at("complaints")
    assert desk.type(typed) == [*offered, asked]
    assert desk.job.complaints == ()
    assert desk.type("9") == [
        f"'9' is no number here. Type 1 to {len(offered)}, or the complaint in a few words.",
    ]
    assert desk.type("none")[0] == "None of these, then."
    assert desk.type(typed) == [*offered, asked]
    assert desk.type("1")[0] == f"Complaint: {offered[0][5:]}."
