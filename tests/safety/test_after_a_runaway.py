"""What comes before heat once a boiler was too hot, who is led into live work, and what the slip says."""

from __future__ import annotations

from itertools import product

import pytest

from expert.engine.bench import BenchMap, after, bench_state, in_time, terms_for
from expert.trace.records import CustomerTold, Moved, PromptPut, Record
from tests.dialogue.shipped_desk import NO_DANGER
from tests.safety.scenarios import Scenario, play
from tests.safety.test_findings import BASE, GASKET, HEATS, answered, before, ever, outcome, played

DEVICES = {"high_limit_bridged", "limit_stamp", "high_limit_opens_at", "safety_valve_bench_test"}
# What was seen, measured or found: answers, and what holds once it is mended.
RAN_AWAY = {
    "relay shorted": ({"relay_output": "2 ohm"}, {"relay_output": "OL"}),
    "limit bridged": ({"high_limit_bridged": "yes"}, {"high_limit_bridged": "no"}),
    "limit tripped": ({"high_limit_tripped": "yes"}, {"high_limit_tripped": "no"}),
    "sensor out of its well": ({"sensor_seating": "out"}, {"sensor_seating": "seated"}),
}


def gone_through(answers: dict[str, str], mended: dict[str, str], arrives: str = "cold") -> list[Record]:
    """A job in which somebody answers for every stop, so that it goes on to repair and proof."""
    wanted = {"safety_valve_bench_test": "2.0", "limit_stamp": "145", "high_limit_opens_at": "146"}
    scenario = Scenario(("overheats",), wanted | answers, "sound", arrives, again=wanted | mended)
    return list(play(scenario).records)


@pytest.mark.parametrize("name", RAN_AWAY)
def test_nothing_heats_before_every_device_is_proved(name: str) -> None:
    answers, mended = RAN_AWAY[name]
    records = gone_through(answers, mended)
    assert answers.keys() <= set(answered(records)), "it was met"
    at = answered_at(records, next(iter(answers)))
    assert ever(records[at:], HEATS) and set(before(records, HEATS)) >= DEVICES


def test_a_boiler_at_its_safety_valve_is_unplugged_and_its_devices_proved() -> None:
    records = gone_through({"boiler_pressure": "2.0"}, {"boiler_pressure": "1.2"}, arrives="hot")
    at = answered_at(records, "boiler_pressure")
    assert set(before(records[at:], HEATS)) >= DEVICES


@pytest.mark.parametrize("lacking", ["high_limit_opens_at", "safety_valve_bench_test"])
def test_what_cannot_be_tested_is_renewed_or_it_does_not_heat(lacking: str) -> None:
    new = {"high_limit_opens_at": "high_limits_renewed", "safety_valve_bench_test": "safety_valve_renewed"}[lacking]
    answers = {"relay_output": "2 ohm", lacking: "can't tell", new: "no"}
    records = played(
        "overheats", answers=answers, after_repair={"relay_output": "OL", lacking: "can't tell", new: "no"}
    )
    assert new in answered(records)
    assert not ever(records, HEATS) and outcome(records) not in ("repaired", "normal")


def test_a_mere_complaint_asks_for_the_dead_looks_only_before_it_heats() -> None:
    dead = set(before(played("overheats", answers={}), HEATS))
    assert {"relay_output", "high_limit_bridged", "sensor_seating", "safety_valve_outlet_free"} <= dead
    assert not {"high_limit_opens_at", "safety_valve_bench_test"} & dead


def test_devices_once_proved_in_a_job_are_not_proved_again_when_the_fault_is_found() -> None:
    records = gone_through({"relay_output": "2 ohm"}, {"relay_output": "OL"})
    proved = [name for name in answered(records) if name in ("high_limit_opens_at", "safety_valve_bench_test")]
    assert sorted(proved) == ["high_limit_opens_at", "safety_valve_bench_test"]


def test_what_drives_the_heat_is_mended_before_what_should_have_caught_it() -> None:
    mended = {"relay_output": "OL", "high_limit_bridged": "no"}
    records = gone_through({"relay_output": "2 ohm", "high_limit_bridged": "yes"}, mended)
    repairs = [record.question for record in records if isinstance(record, PromptPut) and record.prompt == "repair"]
    assert repairs[:2] == ["solid_state_relay.output_shorted", "high_limit.bridged"]


def test_a_safety_valve_that_was_tried_is_put_back_by_a_move_that_names_it() -> None:
    records = played("overheats", answers={"relay_output": "2 ohm"}, after_repair={"relay_output": "OL"})
    at = answered_at(records, "safety_valve_bench_test")
    moves = [record.move for record in records[at:] if isinstance(record, Moved)]
    assert "put_back" in moves[: moves.index("covers_on")]
    put_back = next(move for move in BASE.bench.moves if move.id == "put_back")
    assert any("safety valve" in step and "sealed" in step for step in put_back.steps)


def answered_at(records: list[Record], question: str) -> int:
    return next(n for n, record in enumerate(records) if getattr(record, "question", "") == question)


# ---------------------------------------------------------------- live work


def test_live_work_is_never_a_way_to_something_else() -> None:
    """From every state of the bench to every test outside live work, for the qualified: never through live work."""
    bench = BASE.bench
    ways = BenchMap(bench, terms_for(bench, True, lambda condition: None))
    starts = [dict(zip(bench.states, state, strict=True)) for state in product(*bench.states.values())]
    wanted = {tuple(sorted(q.bench.items())) for q in BASE.questions.values() if not bench.is_live(q.bench)}
    for start, goal in product(starts, wanted):
        state = bench_state(bench, start)
        route = ways.route(state, dict(goal))
        for move in route.moves if route else ():
            state = after(in_time(bench, state), move.makes)
            assert not bench.is_live(dict(state)), (start, goal, move.id)


@pytest.mark.parametrize(
    ("answers", "never"),
    [
        pytest.param({"heating_current": "0"}, "joint_drop", id="11 no current, no joint"),
        pytest.param(
            {"relay_lamp_when_calling": "dark", "relay_control_volts": "0", "element_resistance": "40"},
            "other_relay_fitted",
            id="11 no drive",
        ),
    ],
)
def test_11_what_cannot_tell_is_not_tested(answers: dict[str, str], never: str) -> None:
    seen = {"controller_calls": "yes", "boiler_heats": "no", "display_temperature": "21", "boiler_pressure": "0"}
    safe = {"lamp_lights": "yes", "earth_bond": "0.05 ohm", "insulation_at_plug": "60 Mohm"}
    # Nobody can tell anything else: what is still put would be put for want of a better test.
    records = played("no_heat", answers=NO_DANGER | safe | seen | answers, qualified=True, rest="")
    assert never not in [record.question for record in records if isinstance(record, PromptPut)]


def test_11_live_tests_wait_for_the_dead_ones_that_decide_as_much() -> None:
    seen = {"controller_calls": "yes", "boiler_heats": "no", "heating_current": "0", "element_resistance": "OL"}
    records = played("no_heat", answers=seen, qualified=True)
    asked = [record.question for record in records if isinstance(record, PromptPut) and record.is_test]
    assert "element_resistance" in asked
    assert not [name for name in asked[: asked.index("element_resistance")] if BASE.bench.is_live(_bench(name))]


def _bench(question: str) -> dict[str, str]:
    return dict(BASE.questions[question].bench)


# ---------------------------------------------------------------- the slip


def test_the_slip_of_a_machine_that_is_not_fine_says_not_to_use_it_and_why() -> None:
    records = played("overheats", answers={"relay_output": "2 ohm"})
    slip = " ".join(next(record.lines for record in records if isinstance(record, CustomerTold)))
    assert "DO NOT USE THIS MACHINE" in slip and "a relay that cannot switch off" in slip


def test_the_slip_of_a_repaired_machine_does_not() -> None:
    records = played("leaks_at_rim", answers=GASKET, after_repair={})
    assert "DO NOT USE" not in " ".join(next(r.lines for r in records if isinstance(r, CustomerTold)))
