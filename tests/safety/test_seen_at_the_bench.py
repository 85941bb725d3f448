"""A complaint that the bench raises itself: it goes by no word of the customer, and raised anew it opens anew."""

from __future__ import annotations

import pytest

from expert.job.state.complaints_now import complaints_now, not_gone_after_all, raise_what_is_seen
from expert.job.state.hazards import watch
from expert.job.state.job import Given, Turn
from expert.trace.records import ComplaintNow, HazardOpened
from tests.dialogue.shipped_desk import ShippedDesk

HAZARD, COMPLAINT = "something_tripped", "trips_supply"


def answer_insulation(turn: Turn, outcome: str) -> int:
    """Note an answer as the job does, without what follows from it."""
    job = turn.job
    given = Given(job.next_number, "insulation_at_plug", outcome, (outcome,))
    job.given[given.number] = given
    job.state.narrow(given.source, given.question, given.outcomes)
    return given.number


@pytest.fixture
def turn() -> Turn:
    """The insulation was measured bad, and the bench raised what it shows."""
    desk = ShippedDesk().intake(complaint="low_flow")
    desk.go({}, until="lamp_lights")
    turn = Turn(desk.job.copy())
    answer_insulation(turn, "bad")
    assert raise_what_is_seen(turn)
    watch(turn)
    return turn


def complaints(turn: Turn) -> list[str]:
    return [record.standing for record in turn.records if isinstance(record, ComplaintNow)]


def opened(turn: Turn) -> list[tuple[str, ...]]:
    return [record.because for record in turn.records if isinstance(record, HazardOpened) and record.hazard == HAZARD]


def test_what_its_answer_raised_goes_with_it_and_the_trace_says_so(turn: Turn) -> None:
    number = max(turn.job.given)
    turn.job.state.take_back(turn.job.given[number].source)
    not_gone_after_all(turn, number)
    assert complaints(turn) == ["raised", "withdrawn"] and COMPLAINT not in complaints_now(turn.job)
    watch(turn)
    assert HAZARD in turn.job.hazards.open  # until a test ends it
    assert raise_again(turn) == [(f"complaint {COMPLAINT}",)]


def raise_again(turn: Turn) -> list[tuple[str, ...]]:
    """What had opened the danger until it ended, by its tests as it were."""
    before = opened(turn)
    open_ = turn.job.hazards.open.pop(HAZARD)
    turn.job.hazards.released[HAZARD] = open_.causes
    return before


@pytest.mark.parametrize("answered", ["taken back", "mended"])
def test_raised_anew_it_opens_its_danger_anew(turn: Turn, answered: str) -> None:
    """Whether what had raised it was taken back, or a repair was to have cured it."""
    job, number = turn.job, max(turn.job.given)
    raise_again(turn)
    if answered == "taken back":
        job.state.take_back(job.given[number].source)
        not_gone_after_all(turn, number)
        answer_insulation(turn, "bad")
    else:
        fault = next(name for name, fault in job.base.faults.items() if COMPLAINT in fault.explains)
        job.repaired[fault], job.repaired_at[fault] = None, job.next_number
    assert raise_what_is_seen(turn)
    watch(turn)
    assert opened(turn)[1:] == [
        (f"complaint {COMPLAINT}", f"complaint {COMPLAINT} again before answer {job.seen_again[COMPLAINT]}")
    ]


def test_the_customers_word_takes_nothing_back_that_was_seen(turn: Turn) -> None:
    desk = ShippedDesk()
    desk.job = turn.job
    desk.type("complaints", "ok")
    assert desk.job.state.possible(f"complaint.{COMPLAINT}") == ("yes",)
    assert HAZARD in desk.job.hazards.open
