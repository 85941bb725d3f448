"""An instrument that is not at hand is remembered for all tests that need it, until it is."""

from __future__ import annotations

import pytest

from expert.job.answers.taking import instrument_lacking
from tests.dialogue.phases import at


def test_no_test_is_asked_that_needs_it_and_taking_it_back_brings_it_back() -> None:
    desk = at("find")
    assert desk.job.prompt.subject == "coil"
    said = desk.type("can't tell no meter")
    assert said[1] == "No test is asked any more that needs this: ohm meter. When it is at hand: take back 2"
    assert desk.job.instruments == desk.job.shop.instruments - {"ohms"}
    desk.type("take back 2", "yes")
    assert desk.job.instruments == desk.job.shop.instruments


@pytest.mark.parametrize(
    ("reason", "lacking"),
    [
        ("no meter", "ohms"),
        ("I have no ohm meter here", "ohms"),
        ("the multimeter is broken", "ohms"),
        ("no access", ""),
        ("too dark", ""),
        ("", ""),
    ],
)
def test_what_counts_as_lacking_the_instrument(reason: str, lacking: str) -> None:
    assert instrument_lacking(at("find").job, "coil", reason) == lacking


def test_a_look_lacks_no_instrument() -> None:
    assert instrument_lacking(at("find").job, "pump_runs", "no meter") == ""
