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
        (
            "leeks",
            "'leeks' fits no complaint. Did you mean: 2 Water under the machine? Type other words, or list to see all.",
        ),
        (
            "pudle",
            "'pudle' fits no complaint. Did you mean: 2 Water under the machine? Type other words, or list to see all.",
        ),
        (
            "hises",
            "'hises' fits no complaint. Did you mean: 3 Hisses on heat-up? Type other words, or list to see all.",
        ),
        (
            "no fill, stem",
            "'stem' fits no complaint. Did you mean: 4 Safety valve blows? Type other words, or list to see all.",
        ),
        ("purple", "'purple' fits no complaint. Type other words, or list to see all."),
        ("", "Type what the customer said, in a few words, or list to see all complaints."),
        ("ok", "Type what the customer said, in a few words, or list to see all complaints."),
        ("n", "Type what the customer said, in a few words, or list to see all complaints."),
        ("99", "'99' fits no complaint. Type other words, or list to see all."),
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
    (reply,) = desk.type("Ann", "1", "ok", typed)
    number = [complaint.name for complaint in desk.job.base.complaints.values()].index(named) + 1
    assert f"{number} {named}" in reply
    assert desk.type(str(number))[0].startswith("Complaint: ")
