"""Each class of what was once found unsafe, on the shipped rules: what must hold now."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

import pytest

from expert.desk.opening import shop_of
from expert.desk.unattended import play
from expert.job.answers.reading import read_answer
from expert.job.prompts.as_left import AsLeft, take_up_again
from expert.job.prompts.danger import DangerStop
from expert.job.prompts.move import BenchMove
from expert.job.prompts.repair import Repair
from expert.language.model.job_answers import JobAnswers
from expert.trace.records import Answered, Closed, HandedOver, Moved, PromptPut, Record, Repaired
from tests.dialogue.shipped_desk import ShippedDesk, shipped_knowledge

BASE = shipped_knowledge().base
TYPE = "heat_exchanger_lever_tank"
HEATS = {"mains": "on", "element": "connected"}


def played(
    *complaints: str,
    answers: Mapping[str, str],
    arrives: str = "cold",
    rest: str = "sound",
    after_repair: Mapping[str, str] | None = None,
    qualified: bool = False,
) -> list[Record]:
    """The records of a job that nobody types at; all else is as on a sound machine, unless `rest` is ''."""
    job = JobAnswers(
        machine=TYPE,
        machine_type=BASE.machines[TYPE],
        complaints=complaints,
        answers=answers,
        plate={},
        qualified_for_live_work=qualified,
        arrives=arrives,
        rest=rest,
        after_repair=after_repair,
    )
    return play(shipped_knowledge(), shop_of(shipped_knowledge()), job, "7")[1]


def stood(records: Iterable[Record]) -> Iterator[Mapping[str, str]]:
    """Every state that the machine was brought into, in order; not how it came."""
    return (r.state for r in records if isinstance(r, Moved) and not r.move.startswith("arrives"))


def ever(records: Iterable[Record], state: Mapping[str, str]) -> bool:
    return any(state.items() <= now.items() for now in stood(records))


def answered(records: Iterable[Record]) -> list[str]:
    return [record.question for record in records if isinstance(record, Answered)]


def before(records: list[Record], state: Mapping[str, str]) -> list[str]:
    """What was answered before the machine was first brought into such a state, or at all if it never was."""
    for number, record in enumerate(records):
        if (
            isinstance(record, Moved)
            and not record.move.startswith("arrives")
            and state.items() <= record.state.items()
        ):
            return answered(records[:number])
    return answered(records)


def outcome(records: Iterable[Record]) -> str:
    """How the job was closed; a job that was handed over is still open."""
    last = next(record for record in reversed(list(records)) if isinstance(record, Closed | HandedOver))
    return last.outcome if isinstance(last, Closed) else "handed_over"


GASKET = {
    "rim_on_blind": "leaks",
    "handle_position": "past_centre",
    "gasket_feel": "hard",
    "blind_pressure": "9.4",
    "return_when_blind": "some",
}
RUNAWAY = ("relay_output", "high_limit_bridged", "sensor_seating", "safety_valve_outlet_free")


# ---------------------------------------------------------------- 0, 1: what tells of danger comes first


@pytest.mark.parametrize("beside", ["slow_heat", "no_heat", "low_flow", "leaks_at_rim"])
def test_00_a_smell_of_burning_is_looked_for_before_the_plug_goes_in(beside: str) -> None:
    records = played(beside, "burnt_smell", answers={})
    assert "inside_looks" in before(records, {"mains": "on"})


@pytest.mark.parametrize("arrives", ["cold", "hot", "unsure"])
@pytest.mark.parametrize("complaint", ["overheats", "safety_valve_blows"])
def test_01_a_boiler_that_got_too_hot_is_looked_at_dead_before_it_heats(complaint: str, arrives: str) -> None:
    records = played(complaint, "slow_heat", answers={}, arrives=arrives)
    assert set(RUNAWAY) <= set(before(records, HEATS))


def test_00_an_overfull_boiler_is_not_switched_on() -> None:
    assert "level_set_by_hand" in before(played("boiler_overfills", answers={}), {"mains": "on"})


# ---------------------------------------------------------------- 2, 14, 16: what was found or seen forbids


@pytest.mark.parametrize(
    ("complaint", "answers", "never"),
    [
        pytest.param("overheats", {"relay_output": "2 ohm"}, HEATS, id="2 relay shorted"),
        pytest.param("overheats", {"high_limit_bridged": "yes"}, HEATS, id="2 limit bridged"),
        pytest.param(
            "trips_supply",
            {"insulation_at_plug": "0.159", "insulation_after_drying": "0.2"},
            {"mains": "on"},
            id="14 insulation",
        ),
        pytest.param("leaks_at_rim", {"told_of_danger": "wet", "inside_looks": "wet"}, {"mains": "on"}, id="16 wet"),
        pytest.param("leaks_at_rim", {"told_of_danger": "wet", "earth_bond": "0.5"}, {"mains": "on"}, id="16 earth"),
        pytest.param("leaks_at_rim", {"lead_looks": "damaged"}, {"mains": "on"}, id="10 lead"),
        pytest.param("burnt_smell", {"inside_looks": "burnt"}, {"mains": "on"}, id="0 burnt"),
        pytest.param("overheats", {"safety_valve_outlet_free": "no"}, HEATS, id="17 valve closed"),
    ],
)
def test_02_14_16_it_is_not_energised_before_it_is_mended(
    complaint: str, answers: dict[str, str], never: dict[str, str]
) -> None:
    records = played(complaint, answers=answers)
    assert set(answers) <= set(answered(records)), "it was met"
    assert not ever(records, never)
    assert outcome(records) not in ("normal", "repaired")


@pytest.mark.parametrize("question", ["lead_looks", "told_of_danger"])
def test_10_16_who_cannot_tell_has_not_passed_it(question: str) -> None:
    answers = {"lead_looks": "sound", "told_of_danger": "nothing"}
    records = played(
        "leaks_at_rim", answers={name: text for name, text in answers.items() if name != question}, rest=""
    )
    assert not ever(records, {"mains": "on"})


@pytest.mark.parametrize("word", ["shock", "burnt", "tripped", "wet", "burst", "repaired", "nobody_knows"])
def test_16_a_word_of_danger_leads_to_dead_tests_first(word: str) -> None:
    dead = before(played("low_flow", answers={"told_of_danger": word}), {"mains": "on"})
    assert {"told_of_danger", "lead_looks", "earth_bond", "insulation_at_plug"} <= set(dead)


@pytest.mark.parametrize(
    ("told", "dead"),
    [
        # The first that fits is answered: whatever stands below it may have happened as well.
        ("shock", ["lead_looks", "inside_looks", "earth_bond", "insulation_at_plug", "element_resistance"]),
        ("burnt", ["lead_looks", "inside_looks", "earth_bond", "insulation_at_plug", "element_resistance"]),
        ("tripped", ["lead_looks", "inside_looks", "earth_bond", "insulation_at_plug", "element_resistance"]),
        ("wet", ["lead_looks", "inside_looks", "earth_bond", "insulation_at_plug"]),
    ],
)
def test_16_whoever_tells_one_of_several_dangers_is_tested_for_all_that_may_stand_behind_it(
    told: str, dead: list[str]
) -> None:
    first = before(played("low_flow", answers={"told_of_danger": told}), {"mains": "on"})
    assert not set(dead) - set(first)


# ---------------------------------------------------------------- 3, 6, 15: hands


def test_03_repairs_are_made_with_the_plug_out() -> None:
    assert all(fault.repair.bench.get("mains") != "on" for fault in BASE.faults.values())


def test_04_a_boiler_without_water_does_not_heat() -> None:
    records = played("boiler_will_not_fill", answers={"water_reaches_boiler": "no", "boiler_water_low": "yes"})
    assert "level_set_by_hand" in before(records, HEATS)
    assert not ever(
        played("boiler_will_not_fill", answers={"boiler_water_low": "yes", "level_set_by_hand": "no"}), HEATS
    )


def test_06_no_test_holds_a_protection_shut() -> None:
    told = [q.how for q in BASE.questions.values()]
    told += [step for q in BASE.questions.values() if q.prepare for step in q.prepare.steps]
    assert not [text for text in told if "inch the return" in text or "hold the return" in text.lower()]


def test_15_what_is_tested_live_and_open_is_set_up_with_the_plug_out() -> None:
    live = [q for q in BASE.questions.values() if {"mains": "on", "covers": "off"}.items() <= q.bench.items()]
    assert len(live) > 10
    for question in live:
        if question.measure is not None:
            assert question.prepare is not None and question.prepare.bench["mains"] == "isolated", question.id
        assert "live_work" in question.cautions, question.id


def test_15_nothing_is_heated_or_closed_with_something_altered_for_a_test() -> None:
    moves = {move.id: move for move in BASE.bench.moves}
    assert all(moves[name].needs["altered"] == ("nothing",) for name in ("covers_on", "switch_on"))


# ---------------------------------------------------------------- 5, 10, 12: readings and plates


def read(plate: str, question: str, text: str) -> tuple[str, ...]:
    desk = ShippedDesk()
    desk.type("Ann", "1", *([plate] if plate else []), "ok", "no_heat", "ok", "no", "1")
    return tuple(read_answer(desk.job, BASE.questions[question], text).outcomes)


@pytest.mark.parametrize("stamp", [130, 145, 150])
def test_05_a_limit_that_has_not_opened_is_never_sound(stamp: int) -> None:
    answers = {"limit_stamp": f"{stamp} C", "high_limit_opens_at": f"{stamp + 20} C", "relay_output": "2 ohm"}
    records = played("overheats", answers=answers, after_repair={"relay_output": "OL"})
    read_as = [r.outcomes for r in records if isinstance(r, Answered) and r.question == "high_limit_opens_at"]
    assert read_as and read_as[0] == ("late",)


@pytest.mark.parametrize(("stamp", "outcome_read"), [("140", "as_on_plate"), ("150", "as_on_plate"), ("165", "higher")])
def test_05_a_limit_of_a_higher_rating_than_the_plate_is_a_wrong_part(stamp: str, outcome_read: str) -> None:
    answers = {"limit_stamp": stamp, "high_limit_opens_at": stamp, "safety_valve_outlet": "lifts"}
    records = played("safety_valve_blows", answers=answers)
    read_as = [r.outcomes for r in records if isinstance(r, Answered) and r.question == "limit_stamp"]
    assert read_as == [(outcome_read,)]
    if outcome_read == "higher":
        asked = answered(records)
        assert "high_limits_renewed" in asked[asked.index("limit_stamp") :], "new ones are asked for"
        assert "high_limits_renewed" in before(records, HEATS)


@pytest.mark.parametrize(("plate", "outcomes"), [("", ("high",)), ("limits us", ("high",))])
def test_12_two_milliamperes_are_too_many_until_a_country_says_otherwise(plate: str, outcomes: tuple[str, ...]) -> None:
    assert read(plate, "leakage_current", "2 mA") == outcomes


@pytest.mark.parametrize(
    "line",
    [
        "rated_power 14 W",
        "safety_valve_pressure 20 bar",
        "high_limit_temperature 250 degC",
        "set_temperature 160 degC",
        "brew_pressure 95 bar",
    ],
)
def test_10_an_absurd_plate_is_not_taken(line: str) -> None:
    desk = ShippedDesk()
    desk.type("Ann", "1", line, "yes", "ok")
    assert not desk.job.plate_told


# ---------------------------------------------------------------- 7, 8, 9: who says what


def test_07_not_sure_is_the_worst_for_safety_and_not_hot_for_a_test() -> None:
    state = next(a.state for a in BASE.bench.arrives.values() if a.unsure)
    assert (state["mains"], state["pressure"], state["boiler"]) == ("on", "some", "warm")


def test_08_a_rhythm_of_y_confirms_nothing() -> None:
    desk = ShippedDesk().intake()
    desk.go({"lamp_lights": "yes"}, until="boiler_heats")
    words = {
        record.question: record for record in desk.records if isinstance(record, PromptPut) and record.prompt == "move"
    }
    assert words and all(move.word not in ("", "y", "yes") for move in BASE.bench.moves)
    assert all(owner.drops_typed_ahead for owner in (DangerStop, BenchMove, Repair, AsLeft))


def test_09_whoever_takes_a_job_up_is_asked_who_and_what_for() -> None:
    desk = ShippedDesk().intake(qualified="yes")
    job, _ = take_up_again(desk.job)
    assert (job.prompt.kind, job.prompt.subject) == ("standing", "technician")


# ---------------------------------------------------------------- 13, 17: nothing goes back unlooked at


def test_13_after_a_runaway_every_device_that_should_have_caught_it_is_tested() -> None:
    answers = {"relay_output": "2 ohm", "limit_stamp": "145 C", "high_limit_opens_at": "146 C"}
    records = played("overheats", answers=answers, after_repair={"relay_output": "OL"})
    assert outcome(records) == "repaired"
    assert {"high_limit_bridged", "high_limit_opens_at", "safety_valve_bench_test"} <= set(answered(records))


@pytest.mark.parametrize(("bench_test", "new", "heats"), [("2.0", "no", True), ("can't tell", "no", False)])
def test_13_a_safety_valve_that_blew_is_proved_or_new_before_it_heats(bench_test: str, new: str, heats: bool) -> None:
    answers = {"safety_valve_bench_test": bench_test, "safety_valve_renewed": new}
    records = played("safety_valve_blows", answers=answers)
    assert not heats or "safety_valve_bench_test" in before(records, HEATS)
    assert "high_limits_renewed" not in answered(records), (
        "nobody changes sound limits for a valve that nobody can tell"
    )
    assert ever(records, HEATS) is heats
    assert heats or outcome(records) not in ("normal", "repaired")


@pytest.mark.parametrize(("earth", "plugged_in"), [("0.05 ohm", True), ("can't tell", False)])
def test_14_after_a_repair_inside_the_earth_is_measured_before_the_plug_goes_in(earth: str, plugged_in: bool) -> None:
    signs = {"controller_calls": "yes", "boiler_heats": "no", "heating_current": "0", "element_resistance": "OL"}
    mended = {"element_resistance": "40", "earth_bond": earth, "boiler_heats": "yes", "heating_current": "6 A"}
    records = played("no_heat", answers=signs, after_repair=mended)
    repair = next(n for n, record in enumerate(records) if isinstance(record, Repaired))
    after = records[repair:]
    assert ever(after, {"mains": "on"}) is plugged_in
    assert not plugged_in or "earth_bond" in before(after, {"mains": "on"})


def test_17_a_new_gasket_is_not_all_that_is_looked_at() -> None:
    signs = GASKET
    records = played("leaks_at_rim", answers=signs, after_repair={})
    assert outcome(records) == "repaired"
    looked = {"lead_looks", "safety_valve_outlet_free", "high_limit_bridged", "earth_bond"}
    assert looked <= set(answered(records))


def test_17_behind_a_closed_safety_valve_it_does_not_go_back() -> None:
    signs = GASKET | {"safety_valve_outlet_free": "no"}
    records = played("leaks_at_rim", answers=signs, after_repair={"safety_valve_outlet_free": "no"})
    assert outcome(records) != "repaired"
