"""The shipped questions guard against the ways in which a right meter tells a wrong story."""

from __future__ import annotations

import re

import pytest

from expert.job.answers.reading import NotAnAnswer, read_answer
from expert.language.model import Question
from tests.dialogue.shipped_desk import ShippedDesk, shipped_knowledge

BASE = shipped_knowledge().base
MEASURED = [question for question in BASE.questions.values() if question.measure is not None]


def of_kind(kind: str, instrument: str = "") -> list[Question]:
    return [
        q
        for q in MEASURED
        if q.measure and q.measure.kind == kind and (not instrument or q.measure.instrument == instrument)
    ]


def named(questions: list[Question]) -> list[object]:
    assert questions, "nothing to judge"
    return [pytest.param(question, id=question.id) for question in questions]


# ---------------------------------------------------------------- gauge against absolute


@pytest.mark.parametrize("question", named(of_kind("gauge_pressure")))
@pytest.mark.parametrize("typed", ["1.2 bar abs", "1.2 bara", "17.4 psia", "120 kPa abs"])
def test_an_absolute_pressure_is_no_gauge_reading(question: Question, typed: str) -> None:
    with pytest.raises(NotAnAnswer) as refused:
        read_answer(ShippedDesk().intake().job, question, typed)
    assert str(refused.value) == (
        f"'{typed}' is an absolute pressure; a gauge pressure is wanted, in bar, psi or kPa. Or type: can't tell"
    )


def test_no_question_asks_for_an_absolute_pressure() -> None:
    assert [q.id for q in of_kind("absolute_pressure")] == []


# ---------------------------------------------------------------- cold against hot


@pytest.mark.parametrize("question", ["sensor_ohms", "sensor_in_ice", "sensor_in_boiling_water", "insulation_at_plug"])
def test_what_changes_most_with_heat_is_measured_on_a_cold_boiler(question: str) -> None:
    assert BASE.questions[question].bench["boiler"] == "cold"


# IEC 60028: copper at 90 degC reads 1.275 times its 20 degC value, at 15 degC 0.980 times. Plate: 950 ohm.
COILS = [
    pytest.param("931 ohm", ("sound",), id="cold"),
    pytest.param("1174 ohm", ("sound",), id="at 80 degrees, 1.2358 times"),
    pytest.param("1.21 kohm", ("sound",), id="at 90 degrees"),
    pytest.param("620 ohm", ("off_value",), id="a third of its turns shorted"),
    pytest.param("1600 ohm", ("off_value",), id="more than heat can explain"),
]


@pytest.mark.parametrize(("typed", "outcomes"), COILS)
def test_a_coil_is_sound_cold_and_hot(typed: str, outcomes: tuple[str, ...]) -> None:
    job = ShippedDesk().intake().job
    assert read_answer(job, job.base.questions["fill_coil_resistance"], typed).outcomes == outcomes


def test_copper_never_applies_to_the_element() -> None:
    low, high = ShippedDesk().intake().limit("element_resistance", "sound")
    assert low is not None and high is not None
    # 230 V 1400 W is 37.79 ohm; +5 % and -10 % of power, cold 3 % less: far from copper's 39 % at 120 degC.
    assert (low, high) == (pytest.approx(34.94, abs=0.01), pytest.approx(41.98, abs=0.01))


# ---------------------------------------------------------------- low ohms

LOW_OHMS = [
    *["switch_resistance", "path_resistance", "element_resistance", "lead_continuity", "fuse_continuity"],
    *["high_limit_continuity", "high_limit_resets", "controller_supply_path", "fill_output_wires"],
]


@pytest.mark.parametrize("question", LOW_OHMS)
def test_leads_are_shorted_and_subtracted_where_tenths_of_an_ohm_count(question: str) -> None:
    assert re.search(r"leads,? short|[Ss]hort the meter's leads and subtract", BASE.questions[question].how)


def test_every_low_limit_is_in_that_list() -> None:
    low = {
        question.id
        for question in of_kind("resistance", "multimeter_ohms")
        for reading in question.measure.readings  # type: ignore[union-attr]
        for limit in (reading.low, reading.high)
        if limit is not None and re.fullmatch(r"(0?\.\d+|[0-5]) ohm", limit.text)
    }
    assert low == {"switch_resistance", "path_resistance"}


def test_the_earth_is_measured_with_a_tester_and_never_with_a_plain_meter() -> None:
    earth = BASE.questions["earth_bond"]
    assert earth.measure is not None and earth.measure.instrument == "earth_tester"
    assert "Zero the tester's leads" in earth.how


# ---------------------------------------------------------------- in circuit, live, sums at the plug

_LEAD_OFF = re.compile(
    r"[Pp]ull (?:the|one|both|its|a)|unplugged|leads? off|plug joined|off the relay|out of its well|glass"
)


# The path is measured along its joints: what stands in parallel to it would have to be wire.
@pytest.mark.parametrize(
    "question", named([q for q in of_kind("resistance", "multimeter_ohms") if q.id != "path_resistance"])
)
def test_nothing_is_measured_in_circuit(question: Question) -> None:
    assert _LEAD_OFF.search(f"{question.ask} {question.how}")


@pytest.mark.parametrize("question", named(of_kind("resistance")))
def test_ohms_are_measured_dead(question: Question) -> None:
    assert question.bench["mains"] == "isolated"
    if question.bench.get("covers") == "off":
        assert "mains_isolate" in question.cautions
        assert "prove dead with a tested meter" in BASE.cautions["mains_isolate"].text


@pytest.mark.parametrize("question", named(of_kind("resistance", "insulation_tester")))
def test_before_every_insulation_test_its_danger_is_told(question: Question) -> None:
    assert "insulation_test" in question.cautions


def test_the_element_is_judged_at_its_own_terminals_only() -> None:
    element = BASE.questions["element_resistance"]
    assert "not at the plug" in element.how
    assert not [q.id for q in of_kind("resistance", "multimeter_ohms") if "at the plug" in q.ask]


def test_arresters_are_taken_off_before_an_insulation_test_condemns() -> None:
    assert "Surge arresters to the body fail this test falsely" in BASE.questions["insulation_at_plug"].how
    assert "Filter capacitors leak here" in BASE.questions["leakage_current"].how
    apart = BASE.questions["insulation_without_arresters"]
    assert {"capacitor_charge", "insulation_test", "mains_isolate"} <= set(apart.cautions)


def test_temperatures_are_compared_at_rest() -> None:
    assert "held still for ten minutes" in BASE.questions["wall_temperature"].how
    assert "wait five minutes" in BASE.questions["sensor_in_ice"].how
    assert "Boiler at the temperature of the room" in BASE.questions["sensor_ohms"].how


# ---------------------------------------------------------------- one-shot and reset, scald and pressure


def test_a_limit_is_reset_once_and_after_its_cause_is_known() -> None:
    reset = BASE.questions["high_limit_resets"]
    assert {"reset_once", "safety_device"} <= set(reset.cautions)
    assert "after the reason is known" in BASE.cautions["reset_once"].text
    assert "find out why" in BASE.questions["high_limit_tripped"].how


def test_covers_come_off_only_without_pressure_and_a_gauge_does_not_count() -> None:
    moves = {move.id: move for move in BASE.bench.moves}
    off = moves["covers_off"]
    assert off.needs["pressure"] == ("none",)
    assert off.needs["mains"] == ("isolated",)
    assert "by thermometer" in moves["let_cool"].confirm
    assert "A gauge at zero proves nothing" in BASE.cautions["boiler_pressure"].text
    # No reading of a gauge changes what the bench is taken to be.
    assert "boiler_pressure" not in str([(move.needs, move.makes) for move in moves.values()])
