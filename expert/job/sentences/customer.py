"""The summary for the customer."""

from __future__ import annotations

# ------------------------------------------------------------ customer

REPAIRED = "The repair was tested and holds. The safety tests after repair are listed below."
REPAIRED_UNPROVED = (
    "The repair is done, but not every test could be made. The machine must not be used before they are."
)
NORMAL = "No fault was found. What was noticed is how a sound machine of this type behaves."
UNREPAIRED = "The machine goes back unrepaired."
BEYOND_REPAIR = "The machine is beyond repair."
HANDED_OVER = "The work is not finished. It was handed to a colleague."
STOPPED = "The work was stopped because the machine is dangerous. It must not be used."


def job(number: str, machine: str) -> str:
    return f"Job {number}. Machine: {machine}."


TESTED = "Tested after the repair:"
BEYOND_THE_METER = "more than the meter reads"
SAFETY_DEVICES_TESTED = "Also tested for safety:"
OTHER_TESTS = "Safety tests:"


def did_not_hold(statement: str) -> str:
    return f"NOT IN ORDER: this did not hold: {statement}"


def not_known_whether(statement: str) -> str:
    return f"not shown: {statement}"


DO_NOT_USE = "DO NOT USE THIS MACHINE. Leave its plug out until it is repaired and its safety is tested."


def danger_stands(name: str) -> str:
    return f"Danger: there may be {name}."


def not_explained(complaints: str) -> str:
    return f"Not explained yet: {complaints}."


def suspected(faults: str) -> str:
    return f"Suspected, not proved: {faults}."


def wrong(faults: str) -> str:
    return f"What was wrong: {faults}."


def reported(complaints: str) -> str:
    return f"You reported: {complaints}."


def danger_found(danger: str) -> str:
    return f"Danger found: {danger}"


def danger_was_found(danger: str) -> str:
    return f"A danger was found on the way and put right. It was told as: {danger}"


NOT_SHOWN_IN_ORDER = " (not shown to be in order)"
NOT_IN_ORDER = " (NOT IN ORDER)"
WATCH = "What to watch:"
WATCH_TRIPS = "  - If it trips the supply, gives a tingle or smells burnt: pull the plug and do not use it."
WATCH_WATER = "  - Use the water that suits your machine, and have it descaled in time."
WATCH_COMPLAINT = "  - If the complaint comes back, stop using the machine and call us with the job number."


def done(what: str, parts: str) -> str:
    return f"What was done: {what}{parts}."


COSTS = "What it costs:"


def cost_of_work(minutes: str, hour: str, worth: str) -> str:
    return f"  - work, {minutes} min at {hour} an hour: {worth}"


def cost_of_part(part: str, price: str) -> str:
    return f"  - {part}: {price}"


def part_without_price(part: str) -> str:
    return f"  - {part}: the shop says its price"


def costs_together(sum_of_all: str, beside: str) -> str:
    return f"  Together: {sum_of_all}{beside}."


AND_WITHOUT_PRICE = ", and what has no price here"


def tests_in_order(count: int) -> str:
    return f"  {count} tests in order: each, and what to watch, by expert report --slip."


def wrong_by_judgement(fault: str) -> str:
    return f"{fault} (by the judgement of the technician)"
