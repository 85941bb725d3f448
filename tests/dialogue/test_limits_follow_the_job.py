"""The limits of the heating tests follow supply voltage, room temperature, altitude and the set temperature."""

from __future__ import annotations

import math

import iapws
import pytest

from expert.job.answers.reading import read_answer
from expert.job.answers.taking import take_answer
from expert.job.state.job import Turn
from expert.job.wording.readings import understood
from tests.dialogue.shipped_desk import ShippedDesk


def desk_with(*plate: str, supply: str = "") -> ShippedDesk:
    """A job whose plate prompt got these lines, and whose supply was measured if `supply` is given."""
    desk = ShippedDesk().intake(*plate)
    if supply:
        job = desk.job
        take_answer(Turn(job), read_answer(job, job.base.questions["supply_voltage"], supply))
    return desk


# Joule's law: a fixed resistance of 230 V squared over 1400 W draws U 1400 / 230^2 ampere.
CURRENTS = [
    pytest.param("", 1400 / 230, id="not measured"),
    pytest.param("230 V", 1400 / 230, id="as on the plate"),
    pytest.param("207 V", 5.478, id="ten percent low"),
    pytest.param("253 V", 6.696, id="ten percent high"),
]


@pytest.mark.parametrize(("supply", "expected"), CURRENTS)
def test_the_current_expected_follows_the_supply(supply: str, expected: float) -> None:
    desk = desk_with(supply=supply)
    low, high = desk.limit("heating_current", "reduced")[1], desk.limit("heating_current", "high")[0]
    assert low == pytest.approx(0.8 * expected, rel=1e-3)
    assert high == pytest.approx(1.2 * expected, rel=1e-3)


# 1.8 L from 20 to 120 degC with 1400 W: 537 s (heat balance, constant cp; 538.7 s by IF97). Heating power goes with
# the square of the voltage: at 207 V on a 230 V plate everything takes 1.235 times as long.
TIMES = [
    pytest.param((), "", 537.0, id="20 degrees, 230 V"),
    pytest.param((), "207 V", 537.0 * 1.235, id="20 degrees, 207 V"),
    pytest.param(("room_temperature 5 degC",), "", 537.0 * 1.15, id="5 degrees: 115 K instead of 100 K"),
    pytest.param(("room_temperature 41 F",), "", 537.0 * 1.15, id="the same in Fahrenheit"),
]


@pytest.mark.parametrize(("plate", "supply", "expected"), TIMES)
def test_the_time_to_heat_follows_supply_and_room(plate: tuple[str, ...], supply: str, expected: float) -> None:
    desk = desk_with("set_temperature 120 degC", *plate, supply=supply)
    assert desk.limit("minutes_to_heat", "slow")[0] == pytest.approx(1.5 * expected, rel=2e-3)


def gauge(celsius: float, air: float) -> float:
    """Gauge pressure of saturated steam in bar. Reference: IF97 by the library iapws."""
    return float(iapws.IAPWS97(T=celsius + 273.15, x=0).P) * 10 - air


# Air: 101325 Pa at sea level, 79501 Pa at 2000 m (ISO 2533:1975).
PRESSURES = [
    pytest.param((), 123.0, 1.01325, id="sea level"),
    pytest.param(("altitude 2000 m",), 123.0, 0.79501, id="2000 m"),
    pytest.param(("altitude 6562 ft",), 123.0, 0.79501, id="the same in feet"),
    pytest.param(("set_temperature 118 degC",), 118.0, 1.01325, id="another set temperature"),
]


@pytest.mark.parametrize("question", ["boiler_pressure", "second_gauge_pressure"])
@pytest.mark.parametrize(("plate", "set_at", "air"), PRESSURES)
def test_the_gauge_follows_set_temperature_and_altitude(
    plate: tuple[str, ...], set_at: float, air: float, question: str
) -> None:
    desk = desk_with(*plate)
    assert desk.limit(question, "low")[1] == pytest.approx(gauge(set_at - 5, air), abs=0.003)
    assert desk.limit(question, "high")[0] == pytest.approx(gauge(set_at + 3, air), abs=0.003)


def test_no_set_temperature_makes_a_gauge_near_the_safety_valve_sound() -> None:
    desk = desk_with("set_temperature 131 degC")  # its pressure is 1.77 bar, three degrees more are above the valve
    job = desk.job
    given = read_answer(job, job.base.questions["boiler_pressure"], "1.95 bar")
    assert given.outcomes == ("at_safety_valve",)


def curve(celsius: float) -> float:
    """A sensor of 10 kohm at 25 degC, B25/85 = 3977 K. Source: the four-term form of the maker's data sheet 29049."""
    kelvin = celsius + 273.15
    return 10_000 * math.exp(-14.6337 + 4791.842 / kelvin - 115334 / kelvin**2 - 3.730535e6 / kelvin**3)


MAKERS_DIFFER = 0.16  # kelvin about room temperature: tables of one type from two makers
COLDER = 0.015  # and per kelvin below 25 degC


SENSORS = [
    pytest.param((), 20.0, id="20 degrees assumed"),
    pytest.param(("room_temperature 30 degC",), 30.0, id="a hot workshop"),
    pytest.param(("room_temperature 5 degC",), 5.0, id="a cold van"),
]


@pytest.mark.parametrize(("plate", "room"), SENSORS)
def test_a_cold_sensor_is_held_against_the_room(plate: tuple[str, ...], room: float) -> None:
    low, high = desk_with(*plate).limit("sensor_ohms", "sound")
    # Cold is below 40 degrees, as the bench has it: 22 K above a room of 20 degrees, and a little.
    assert low == pytest.approx(curve(room + 22 + MAKERS_DIFFER), rel=1e-4)
    assert high == pytest.approx(curve(room - 10 - MAKERS_DIFFER - COLDER * (35 - room)), rel=1e-4)


def test_the_sensor_limits_agree_with_a_reference_value() -> None:
    high = desk_with().limit("sensor_ohms", "sound")[1]
    assert high == pytest.approx(19873 * (1 + 0.385 * 0.0501), rel=0.002)  # data sheet: 19873 ohm at 10 degC, -5 %/K


def test_the_sensor_in_boiling_water_follows_the_altitude() -> None:
    sea, high = desk_with(), desk_with("altitude 2000 m")
    # At 2000 m water boils 6.7 K lower (93.3 degC): the sensor reads about a fifth more.
    for side in (0, 1):
        here, above = (
            sea.limit("sensor_in_boiling_water", "sound")[side],
            high.limit("sensor_in_boiling_water", "sound")[side],
        )
        assert here is not None and above is not None
        assert above / here == pytest.approx(1.21, abs=0.02)


# A low supply is one thing, a loss inside the machine another: these tests hold the inside against the socket.
INSIDE = [
    ("mains_at_inlet", "low", 0.9),
    ("mains_after_switch", "low", 0.9),
    ("element_volts", "low", (1 + 0.5**0.5) / 2),  # half-way between a half wave and the whole
    ("controller_supply_volts", "none", 0.85),
    ("pump_voltage", "low", 0.85),
    ("fill_output_voltage", "low", 0.8),
    ("board_mains_voltage", "low", 0.85),
]


@pytest.mark.parametrize(("question", "reading", "share"), INSIDE, ids=[row[0] for row in INSIDE])
def test_voltages_inside_are_held_against_the_socket(question: str, reading: str, share: float) -> None:
    assert desk_with().limit(question, reading)[1] == pytest.approx(share * 230)
    assert desk_with(supply="198 V").limit(question, reading)[1] == pytest.approx(share * 198)


def test_how_says_what_the_limit_rests_on() -> None:
    desk = desk_with("altitude 2000 m", supply="207 V")
    desk.go({"lamp_lights": "yes", "controller_calls": "yes"}, until="heating_current")
    lines = [line for line in desk.type("how") if line.startswith("From: ")]
    assert lines == [
        "From: current of a sound element at the voltage here: 5.478 A = element_current(power_at_voltage("
        "plate.element_power, plate.rated_voltage, supply_here), supply_here); element_power 1400 W, "
        "rated_voltage 230 V (Joule's law)",
        "From: voltage at the socket, as measured, or that of the plate while it was not: 207 V = supply_voltage; "
        "supply_voltage 207 V (this machine's plate and this job's reading)",
    ]


def test_how_says_when_the_supply_was_not_measured() -> None:
    desk = desk_with()
    desk.go({"lamp_lights": "yes", "controller_calls": "yes"}, until="heating_current")
    assert (
        "From: voltage at the socket, as measured, or that of the plate while it was not: 230 V = supply_voltage; "
        "supply_voltage not measured, taken as the rated voltage 230 V (this machine's plate and this job's reading)"
        in desk.type("how")
    )


def test_the_plate_prompt_shows_what_is_assumed_and_what_was_told() -> None:
    desk = ShippedDesk()
    assert "\n".join(desk.type("Ann", "1")).endswith(
        "\n  room_temperature        20 °C assumed\n  altitude                0 m assumed"
    )
    said = desk.type("altitude 1500 m")
    assert said[0] == "1500 m: high (above 1000 m)."
    assert any("altitude                1500 m" in line for line in said)


@pytest.mark.parametrize(
    ("line", "message"),
    [
        pytest.param(
            "altitude 9000 m",
            "altitude: 9000 m cannot be right here: expected is something between -400 m and 5500 m. "
            "Read again, mind the unit.",
            id="higher than anybody repairs machines",
        ),
        pytest.param(
            "room_temperature 20 bar",
            "room_temperature: '20 bar' is a pressure; a temperature is wanted, in degC, degF or K, or OL.",
            id="another kind",
        ),
    ],
)
def test_what_is_told_at_the_plate_is_checked(line: str, message: str) -> None:
    desk = ShippedDesk()
    desk.type("Ann", "1")
    assert desk.type(line)[0] == message


# References: data sheet 29049 has 32555 ohm at 0 degC and 677.3 at 100, 678 where water boils; 230 V 1400 W is
# 37.79 ohm (Joule's law); 123 degC is 1.17 bar above the air at sea level (IF97).
EXPECTED = [
    ("sensor_in_ice", "33k", "expected 32.6 kohm from 10 kohm and 3977"),
    ("sensor_in_boiling_water", "690", "expected 678 ohm from 10 kohm and 3977"),
    ("element_resistance", "38", "expected 37.8 ohm from 230 V and 1400 W"),
    ("boiler_pressure", "1.2", "expected 1.17 bar from 123 °C"),
    ("insulation_at_plug", "80", "limit from the limits of Germany and class 1"),
    ("blind_pressure", "9.4", "limit from 9.50 bar"),
]


@pytest.mark.parametrize(("question", "typed", "words"), EXPECTED, ids=[row[0] for row in EXPECTED])
def test_what_is_expected_stands_beside_the_limit(question: str, typed: str, words: str) -> None:
    job = desk_with().job
    record = job.base.questions[question]
    assert f"; {words}; " in understood(job, record, read_answer(job, record, typed))[0]
