"""One wrong look condemns nothing: what decides is looked at again before it is named, and a danger that stood on the
wrong look alone ends when two more say so. On sound machines, so whatever is named is wrong."""

from __future__ import annotations

from dataclasses import dataclass, field

import pytest

from expert.job.state.job import Job
from expert.trace.records import Answered, Cleared, Found, Repaired, Stopped
from tests.safety.scenarios import Scenario, Story, play
from tests.safety.test_findings import answered, played

# The complaint, the look that slips, what is typed for it, and the fault that it would name.
SLIPS = (
    ("no_heat", "terminal_look", "scorched", "wiring.loose_terminal"),
    ("overheats", "high_limit_bridged", "yes", "high_limit.bridged"),
    ("overheats", "sensor_seating", "out", "temperature_sensor.out_of_well"),
    ("trips_supply", "earth_bond", "0.8 ohm", "mains_lead.earth_broken"),
    ("water_under_machine", "probe_pulls_out", "yes", "level_probe.loose_nut"),
    ("weak_wand", "tip_holes_clear", "no", "steam_wand.tip_blocked"),
    ("milk_drawn_up", "vacuum_when_cold", "yes", "vacuum_relief_valve.stuck_closed"),
)


@dataclass
class OneSlip(Scenario):
    """The first answer to one question is wrong; asked again, the machine is looked at anew."""

    wrong: dict[str, str] = field(default_factory=dict)

    def _answer(self, job: Job, question: str) -> str:
        return self.wrong.pop(question, "") or super()._answer(job, question)


def slipped(complaint: str, question: str, wrong: str) -> Story:
    return play(OneSlip([complaint], rest="sound", wrong={question: wrong}))


@pytest.mark.parametrize(("complaint", "question", "wrong", "fault"), SLIPS, ids=[slip[1] for slip in SLIPS])
def test_one_wrong_look_names_and_repairs_nothing(complaint: str, question: str, wrong: str, fault: str) -> None:
    story = slipped(complaint, question, wrong)
    assert wrong in [r.text for r in story.records if isinstance(r, Answered) and r.question == question]
    named = [r.fault for r in story.records if isinstance(r, Found) and r.standing != "narrowed"]
    assert (fault in named, [r.fault for r in story.records if isinstance(r, Repaired)]) == (False, [])
    assert story.violations == ()


def test_the_stop_stands_until_somebody_lifts_it_and_the_danger_until_two_looks_speak_against_it() -> None:
    story = slipped("no_heat", "terminal_look", "scorched")
    looks = [n for n, r in enumerate(story.records) if isinstance(r, Answered) and r.question == "terminal_look"]
    lifted = next(n for n, r in enumerate(story.records) if isinstance(r, Cleared))
    assert any(isinstance(r, Stopped) for r in story.records[looks[0] : lifted])
    assert lifted < looks[1]
    mains_on = [
        n for n, r in enumerate(story.records) if getattr(r, "move", "").startswith("switch_on") and n > looks[0]
    ]
    assert all(n > looks[2] for n in mains_on)
    assert "wiring_is_burnt" not in story.job.hazards.open


def test_what_was_damp_is_not_measured_a_second_time_once_it_is_dry() -> None:
    """The low reading belongs to the wet machine: the dried one cannot say it again, and damp is what is named."""
    wet = {"stored_or_wet": "yes", "insulation_at_plug": "0.3 Mohm", "element_insulation": "0.5 Mohm"}
    records = played("trips_supply", answers=wet | {"insulation_after_drying": "40 Mohm", "dried_inside": "yes"})
    found = [r.fault for r in records if isinstance(r, Found) and r.standing == "found"]
    assert found == ["insulation.damp"]
    assert answered(records).count("element_insulation") <= 1


def test_what_a_cold_boiler_had_hidden_is_looked_at_after_its_repair() -> None:
    """How fast it heats and what lets the air out: worked out from what the open element keeps away."""
    mended = {"element_resistance": "37.8 ohm", "boiler_heats": "yes", "heating_current": "6 A"}
    records = played(
        "no_heat",
        answers={"boiler_heats": "no", "heating_current": "0 A", "element_resistance": "OL", "controller_calls": "yes"},
        after_repair=mended,
    )
    repaired = next(n for n, r in enumerate(records) if isinstance(r, Repaired))
    assert {"minutes_to_heat", "vacuum_valve_on_heat_up"} <= set(answered(records[repaired:]))
