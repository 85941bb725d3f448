"""What trips at the bench is looked for like a complaint; what was seen to be gone is raised by what is seen later."""

from __future__ import annotations

import pytest

from expert.job.search.elimination import held_by_a_result
from expert.job.state.complaints_now import raise_what_is_seen
from expert.job.state.job import Phase, Turn
from expert.trace.records import ComplaintNow
from tests.dialogue.shipped_desk import ShippedDesk


def tripped() -> ShippedDesk:
    desk = ShippedDesk().intake(complaint="leaks_at_rim")
    desk.go({"lead_looks": "sound", "told_of_danger": "nothing"}, until="lamp_lights")
    desk.type("danger tripped")
    return desk


def test_what_trips_during_a_job_is_raised_and_looked_for() -> None:
    desk = tripped()
    raised = [one.complaint for one in desk.records if isinstance(one, ComplaintNow)]
    assert raised == ["trips_supply"]
    assert desk.job.phase in (Phase.SAFE, Phase.FIND) and "something_tripped" in desk.job.hazards.open


@pytest.mark.parametrize(("since", "again"), [(0, []), (1, ["trips_supply"])], ids=["seen before", "seen since"])
def test_what_was_seen_to_be_gone_is_raised_only_by_what_was_seen_since(since: int, again: list[str]) -> None:
    desk = tripped()
    given = desk.job.answer_to("danger_here")
    assert given is not None
    del desk.job.raised["trips_supply"]
    desk.job.gone["trips_supply"] = given.number - since
    turn = Turn(desk.job.copy())
    raise_what_is_seen(turn)
    assert [one.complaint for one in turn.records if isinstance(one, ComplaintNow)] == again


@pytest.mark.parametrize(
    ("repaired", "held"),
    [
        ({}, False),
        ({"control_board.locked": False}, True),
        ({"control_board.locked": None, "fill_solenoid.stuck_shut": None}, False),
        ({"control_board.locked": None, "fill_solenoid.stuck_shut": False}, True),
        ({"fill_solenoid.stuck_shut": None}, False),
    ],
    ids=["nothing", "a lock reset", "its cause mended too", "the cause was another", "a part"],
)
def test_nobody_is_left_by_elimination_while_a_lock_without_a_cause_may_hold(
    repaired: dict[str, bool | None], held: bool
) -> None:
    desk = ShippedDesk().intake(complaint="no_heat")
    desk.job.repaired = dict(repaired)
    assert held_by_a_result(desk.job, "no_heat") is held
