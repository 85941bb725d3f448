"""A shop that works in US units: psi, Fahrenheit, feet and fluid ounces go in bare and come out."""

from __future__ import annotations

import pytest

from expert.job.answers.reading import NotAnAnswer, read_answer
from expert.terminal.beside import remark_on
from expert.trade.quantities.units import show
from tests.dialogue.shipped_desk import ShippedDesk


def us_desk(*plate: str, complaint: str = "safety_valve_blows") -> ShippedDesk:
    return ShippedDesk("us").intake(*plate, complaint=complaint)


KNOWN = {"lead_looks": "sound", "lamp_lights": "yes", "safety_valve_outlet": "weeps", "relay_lamp_set_low": "dark"}
# What has to be proved dead before a machine that blew off is heated at all.
KNOWN |= {"relay_output": "OL", "sensor_seating": "seated", "high_limit_bridged": "no", "limit_stamp": "293 degF"}
KNOWN |= {"high_limit_opens_at": "293 degF", "safety_valve_bench_test": "29 psi", "safety_valve_outlet_free": "yes"}
KNOWN |= {"boiler_water_low": "no"}


def test_the_plate_is_shown_in_us_units() -> None:
    desk = ShippedDesk("us")
    prompt = desk.type("Ann", "1")
    shown = "\n".join(prompt)
    for line in (
        "  set_temperature         253.4 °F",  # 123 degC is 253.4 degF exactly
        "  safety_valve_pressure   29.0 psi",  # 2.0 bar; one psi is 0.0689476 bar (NIST SP 811)
        "  brew_pressure           138 psi",
        "  boiler_volume           60.9 fl oz",  # 1.8 L; one US fluid ounce is 29.5735 mL (NIST SP 811)
        "  room_temperature        68 °F assumed",
        "  altitude                0 ft assumed",
        "  rated_voltage           230 V",
    ):
        assert line in shown


# Bare numbers have the units of the shop. 17.4 psi is 1.2 bar, 253.4 degF is 123 degC, 98 degF is 36.67 degC,
# 2.03 fl oz/s is 60 mL/s (NIST SP 811, exact factors).
TYPED = [
    pytest.param("boiler_pressure", "17.4", 1.19969, id="psi"),
    pytest.param("boiler_pressure", "1,2 bar", 1.2, id="a metric gauge in a US shop"),
    pytest.param("boiler_pressure", "120 kPa", 1.2, id="kilopascal"),
    pytest.param("wall_temperature", "253.4", 123.0, id="Fahrenheit"),
    pytest.param("wall_temperature", "98 F", 36.6667, id="98 F"),
    pytest.param("wall_temperature", "123 C", 123.0, id="Celsius said so"),
    pytest.param("altitude", "5280", 1609.344, id="a mile in feet"),
    pytest.param("element_resistance", "37R8", 37.8, id="ohms are ohms"),
    pytest.param("free_flow", "8 oz in 30 s", 7.88627, id="fluid ounces in a time"),
]


@pytest.mark.parametrize(("question", "typed", "expected"), TYPED)
def test_bare_numbers_have_the_units_of_the_shop(question: str, typed: str, expected: float) -> None:
    job = us_desk().job
    quantity = read_answer(job, job.base.questions[question], typed).quantity
    assert quantity is not None and quantity.value == pytest.approx(expected, rel=1e-5)


def test_a_reading_is_told_in_us_units_with_its_limit_and_where_that_comes_from() -> None:
    desk = us_desk()
    desk.go(KNOWN, until="boiler_pressure")
    # 17.0 psi expected: 1.17 bar, steam tables at 253.4 degF; 118 degC, five less: 1.863 bar less 1.013, 12.3 psi.
    assert remark_on(desk.job, "17").text == (
        "17.0 psi: sound (high is above 20.0 psi; expected 17.0 psi from 253.4 °F; "
        "the machine's boiler gauge, 0 to 3 bar: ±1.09 psi)."
    )
    assert desk.type("17")[0] == "17.0 psi: sound (12.3 psi to 20.0 psi)."


def test_how_shows_the_limits_in_us_units() -> None:
    desk = us_desk("altitude 5000")
    desk.go(KNOWN, until="boiler_pressure")
    limits = [line for line in desk.type("how") if line.startswith("Limit: ")]
    assert limits == [
        "Limit: none is below 1.45 psi.",
        "Limit: low is below 14.8 psi.",
        "Limit: at_safety_valve is above 26.1 psi.",
        "Limit: high is above 22.5 psi.",
    ]


REFUSED = [
    pytest.param(
        "boiler_pressure",
        "1.2 bar abs",
        "'1.2 bar abs' is an absolute pressure; a gauge pressure is wanted, in psi, bar or kPa. Or type: can't tell",
        id="absolute",
    ),
    pytest.param(
        "boiler_pressure",
        "253 °F",
        "'253 °F' is a temperature; a gauge pressure is wanted, in psi, bar or kPa. Or type: can't tell",
        id="a temperature",
    ),
    pytest.param(
        "wall_temperature",
        "600",
        "600 °F cannot be right here: expected is something between 32 °F and 482 °F. Read again, mind the unit. "
        "Or type: can't tell",
        id="hotter than any boiler",
    ),
]


@pytest.mark.parametrize(("question", "typed", "message"), REFUSED)
def test_what_does_not_fit_is_refused_with_the_units_of_the_shop(question: str, typed: str, message: str) -> None:
    job = us_desk().job
    with pytest.raises(NotAnAnswer) as refused:
        read_answer(job, job.base.questions[question], typed)
    assert str(refused.value) == message


def test_a_figure_in_the_dialogue_uses_the_units_of_the_shop_and_leaves_the_job_where_it_was() -> None:
    desk = us_desk()
    desk.go(KNOWN, until="boiler_pressure")
    before = desk.job.prompt
    # 123.44 degC by IF97 (library iapws) at 17.4 psi above 1.01325 bar.
    said = desk.type("figure boiler_temperature 17.4 psi")
    assert said[0] == "Temperature in a boiler from its gauge, no air in it: 254.2 °F"
    assert desk.job.prompt == before


def test_the_trace_keeps_base_units_whatever_the_shop_shows() -> None:
    from expert.trace.records import Answered

    desk = us_desk()
    desk.go(KNOWN, until="boiler_pressure")
    desk.type("17.4")
    answered = next(r for r in desk.records if isinstance(r, Answered) and r.question == "boiler_pressure")
    assert answered.reading == pytest.approx(1.19969, rel=1e-5)
    assert answered.text == "17.4"
    given = desk.job.answer_to("boiler_pressure")
    assert given is not None and given.quantity is not None
    assert (show(given.quantity), show(given.quantity, system="us")) == ("1.20 bar", "17.4 psi")
