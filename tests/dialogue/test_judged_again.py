"""A reading is held against the limits that hold now: when they move, it is judged anew, and back again."""

from __future__ import annotations

import pytest

from tests.dialogue.shipped_desk import ShippedDesk

# 1400 W on 230 V draw 6.09 A; a fixed resistance draws 5.16 A at 195 V (Joule's law). Below 0.8 of it is "reduced".
KNOWN = {"lead_looks": "sound", "lamp_lights": "yes", "boiler_heats": "yes", "controller_calls": "yes"}
SUPPLY = "What is the voltage at the socket while the machine heats?"


def desk_with_current(current: str) -> ShippedDesk:
    desk = ShippedDesk().intake(complaint="slow_heat")
    desk.go(KNOWN, until="heating_current")
    desk.type(current)
    return desk


def at_the_supply(desk: ShippedDesk) -> ShippedDesk:
    desk.go(KNOWN | {"stays_on_when_moved": "yes"}, until="supply_voltage", most=200)
    return desk


def outcomes(desk: ShippedDesk, question: str) -> tuple[str, ...]:
    given = desk.job.answer_to(question)
    assert given is not None
    return given.outcomes


def test_a_current_is_judged_anew_when_the_supply_turns_out_low() -> None:
    desk = at_the_supply(desk_with_current("4.6 A"))
    assert outcomes(desk, "heating_current") == ("reduced",)
    minutes = desk.job.minutes
    number = next(given.number for given in desk.job.given.values() if given.question == "heating_current")
    said = desk.type("195 V")
    place = said.index(
        f"Limits rest on this reading, so answer {number} is judged anew: Heat called for, pump off: what current does "
        "the machine draw?"
    )
    assert said[place + 1] == "4.6 A: sound (4.13 A to 6.19 A)."
    assert outcomes(desk, "heating_current") == ("sound",)
    assert desk.job.state.possible("heating_current") == ("sound",)
    assert desk.job.minutes - minutes == desk.job.base.questions["supply_voltage"].minutes


def test_it_is_judged_back_when_the_supply_is_taken_back() -> None:
    desk = at_the_supply(desk_with_current("4.6 A"))
    desk.type("195 V")
    number = next(given.number for given in desk.job.given.values() if given.question == "supply_voltage")
    desk.type(f"take back {number}", "yes")
    assert outcomes(desk, "heating_current") == ("reduced",)


@pytest.mark.parametrize("supply", ["230 V", "225 V"])
def test_nothing_is_said_where_nothing_changes(supply: str) -> None:
    desk = at_the_supply(desk_with_current("4.6 A"))
    assert not any("judged anew" in line for line in desk.type(supply))
    assert outcomes(desk, "heating_current") == ("reduced",)


def test_a_dead_supply_leaves_what_was_understood_before() -> None:
    desk = at_the_supply(desk_with_current("4.6 A"))
    desk.type("0 V")
    assert outcomes(desk, "heating_current") == ("reduced",)
