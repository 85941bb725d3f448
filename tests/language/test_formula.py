"""Formulas: grammar, kinds, values. Expected values are worked by hand from the definition of the units."""
# ruff: noqa: E501  (the messages stand whole beside their cause)

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from expert.language.formulas.formula import CannotWorkOut, Formula, NotKnown, evaluate
from expert.language.formulas.kinds import Known, settle
from expert.language.formulas.syntax import DEEPEST, LONGEST, FormulaProblem, read_formula, read_limits
from expert.trade.quantities.units import Quantity

KNOWN = Known(
    {
        "plate.rated_voltage": "ac_voltage",
        "plate.element_power": "power",
        "plate.set_temperature": "temperature",
        "plate.air": "absolute_pressure",
        "steam": "gauge_pressure",
        "coil": "resistance",
        "room": "temperature",
        "turns": "number",
    },
    {"machine.metal": ("brass", "copper"), "machine.fill": ("automatic", "by_hand")},
    ("runs",),
)
VALUES: dict[str, Quantity | str] = {
    "plate.rated_voltage": Quantity(230.0, "ac_voltage"),
    "plate.element_power": Quantity(1400.0, "power"),
    "plate.set_temperature": Quantity(123.0, "temperature"),
    "coil": Quantity(40.0, "resistance"),
    "room": Quantity(15.0, "temperature"),
    "turns": Quantity(3.0, "number"),
    "machine.metal": "brass",
}


def formula(text: str, kind: str) -> Formula:
    return settle(read_formula(text), kind, KNOWN, text)


def look_up(name: str) -> Quantity | str:
    if name not in VALUES:
        raise NotKnown(name)
    return VALUES[name]


@pytest.mark.parametrize(
    ("text", "kind", "value"),
    [
        ("100 kohm", "resistance", 100_000.0),
        ("37.8ohm", "resistance", 37.8),
        ("2 * coil", "resistance", 80.0),
        ("coil / 8", "resistance", 5.0),
        ("coil - 10 ohm - 5 ohm", "resistance", 25.0),  # from left to right
        ("1 ohm + 2 * 3 ohm", "resistance", 7.0),  # times before plus
        ("(1 ohm + 2 ohm) * 3", "resistance", 9.0),
        ("8 ohm / 2 / 2", "resistance", 2.0),
        ("-coil + 50 ohm", "resistance", 10.0),
        ("coil / 20 ohm", "number", 2.0),
        ("turns * turns - 1", "number", 8.0),
        ("50 %", "number", 0.5),
        ("plate.set_temperature - 5 K", "temperature", 118.0),
        ("plate.set_temperature - room", "temperature_difference", 108.0),
        ("room + (plate.set_temperature - room) / 2", "temperature", 69.0),
        ("212 degF", "temperature", 100.0),  # boiling point of water, both scales' definition
        ("-5 degC", "temperature", -5.0),
        ("30 degC - 20 degC", "temperature_difference", 10.0),
        ("1.2 bar", "gauge_pressure", 1.2),
        ("1.2 bar", "absolute_pressure", 1.2),
        ("2 bar - 0.5 bar", "pressure_difference", 1.5),
        ("0.5 * 2 bar", "gauge_pressure", 1.0),
        ("6 L/min", "flow", 100.0),  # 6000 ml in 60 s
        ("10 V/turns", "ac_voltage", 10.0 / 3.0),
        ("least(coil, 10 ohm, 30 ohm)", "resistance", 10.0),
        ("greatest(coil, 2 * coil)", "resistance", 80.0),
        ("element_resistance(230 V, 1000 W)", "resistance", 52.9),  # Joule's law: 230^2 / 1000
        ("2 * element_resistance(plate.rated_voltage, 2 * plate.element_power)", "resistance", 2 * 230**2 / 2800),
    ],
)
def test_value(text: str, kind: str, value: float) -> None:
    found = evaluate(formula(text, kind), look_up)
    assert found.kind == kind
    assert found.value == pytest.approx(value, rel=1e-12)


def test_names_are_those_referred_to_each_once() -> None:
    assert formula("coil + 2 * coil + element_resistance(plate.rated_voltage, 5 W)", "resistance").names == (
        "coil",
        "plate.rated_voltage",
    )


def test_a_word_argument_comes_from_the_machine_or_stands_in_the_formula() -> None:
    text = "heat_up_time_with_metal(1 L, plate.element_power, room, 100 degC, 2 kg, {})"
    from_machine = evaluate(formula(text.format("machine.metal"), "time"), look_up)
    assert from_machine == evaluate(formula(text.format("brass"), "time"), look_up)


@pytest.mark.parametrize(
    ("text", "kind", "expected"),
    [
        ("", "resistance", (0, "a number, a name or a bracket is wanted before the end")),
        ("2 *", "resistance", (3, "a number, a name or a bracket is wanted before the end")),
        ("(coil", "resistance", (5, "')' is wanted before the end")),
        ("coil)", "resistance", (4, "')' is one too many; an operator (+ - * /) may be missing")),
        ("2 coil", "resistance", (2, "'coil' is not a unit")),
        ("1e3 ohm", "resistance", (1, "'e3' is not a unit; a number with an exponent is written out")),
        ("1,2 ohm", "resistance", (1, "',' is one too many; an operator (+ - * /) may be missing; a decimal point is wanted, not a comma")),
        ("2 ** coil", "resistance", (3, "a number, a name or a bracket is wanted before '*'")),
        ("coil; 1", "resistance", (4, "';' has no place in a formula")),
        ("--coil", "resistance", (0, "two signs in a row")),
        ("100", "resistance", (0, "100 is a plain number; a resistance is wanted, as in '100 ohm'")),
        ("5 V", "resistance", (0, "this gives an AC voltage or a DC voltage; a resistance is wanted")),
        ("coil + 5 V", "resistance", (5, "'+' cannot join a resistance and an AC voltage or a DC voltage")),
        ("coil * coil", "resistance", (5, "'*' cannot join a resistance and a resistance")),
        ("steam + plate.air", "gauge_pressure", (6, "'+' cannot join a gauge pressure and an absolute pressure")),
        ("room + plate.set_temperature", "temperature", (5, "'+' cannot join a temperature and a temperature")),
        ("2 * room", "temperature", (2, "a temperature in degrees cannot be scaled; scale a difference, or add or take away kelvins")),
        ("0.9 * plate.set_temperature", "temperature", (4, "a temperature in degrees cannot be scaled; scale a difference, or add or take away kelvins")),
        ("machine.fill", "resistance", (0, "'machine.fill' is a word; only a trade function takes words")),
        ("runs", "resistance", (0, "'runs' is answered in words; a formula takes only what is measured")),
        ("element_resistance", "resistance", (0, "'element_resistance' is a trade function; it wants its values in brackets")),
        ("element_resistance(5 V)", "resistance", (0, "element_resistance is given 1 values; it takes voltage (ac_voltage), power (power)")),
        ("element_resistance(5 W, 5 W)", "resistance", (19, "this gives a power; an AC voltage is wanted")),
        ("least(coil, 5 V)", "resistance", (0, "least compares a resistance with an AC voltage or a DC voltage")),
        ("1 ohm / 0", "resistance", (0, "no machine gives this a value: a division by zero")),
        ("coil / (1 ohm - 1 ohm) * 1 ohm", "resistance", (0, "no machine gives this a value: a division by zero")),
        ("coil + 1 ohm * (coil / coil / 0)", "resistance", (0, "no machine gives this a value: a division by zero")),
        ("nonsense", "resistance", (0, "there is no value 'nonsense'")),
        ("__import__(coil)", "resistance", (0, "there is no trade function '__import__'")),
        ("coil.real", "resistance", (0, "there is no value 'coil.real'")),
        (
            "heat_up_time_with_metal(1 L, 1 kW, room, 100 degC, 2 kg, machine.fill)",
            "time",
            (57, "'machine.fill' has none of the words brass, copper, aluminium, stainless"),
        ),
    ],
)  # fmt: skip
def test_what_is_wrong_and_where(text: str, kind: str, expected: tuple[int, str]) -> None:
    with pytest.raises(FormulaProblem) as caught:
        formula(text, kind)
    assert (caught.value.offset, caught.value.message) == expected


def test_length_and_depth_are_limited() -> None:
    with pytest.raises(FormulaProblem, match=f"^the formula has 503 characters; {LONGEST} are allowed$"):
        read_formula("1 + " * 125 + "100")
    with pytest.raises(FormulaProblem, match=f"^the formula is nested more than {DEEPEST} deep$"):
        read_formula("(" * 100 + "1" + ")" * 100)


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("coil / (coil - coil) * coil", "a division by zero"),
        ("over - over", "over range against over range has no result"),
    ],
)
def test_a_formula_without_result(text: str, message: str) -> None:
    known = Known({**KNOWN.kinds, "over": "resistance"}, {})
    settled = settle(read_formula(text), "resistance", known, text)
    with pytest.raises(CannotWorkOut, match=f"^{message}$"):
        evaluate(settled, {**VALUES, "over": Quantity(math.inf, "resistance")}.__getitem__)


def test_a_name_that_is_not_known_yet() -> None:
    with pytest.raises(NotKnown, match=r"^steam is not known$") as caught:
        evaluate(formula("steam + 1 bar", "gauge_pressure"), look_up)
    assert caught.value.name == "steam"


@pytest.mark.parametrize(
    ("text", "low", "high"),
    [
        ("above 100 kohm", 100_000.0, None),
        ("below 0.5 * coil", None, 20.0),
        ("0.75 * coil to 1.25 * coil", 30.0, 50.0),
        ("5 to 10 ohm", 5.0, 10.0),  # as people say it
        ("otherwise", None, None),
    ],
)
def test_limits_of_a_reading(text: str, low: float | None, high: float | None) -> None:
    found = [
        None if limit is None else evaluate(settle(limit[0], "resistance", KNOWN, limit[1]), look_up).value
        for limit in read_limits(text)
    ]
    assert found == [low, high]


@pytest.mark.parametrize("text", ["100 kohm", "over 5 ohm", "5 ohm to", "above", "otherwise 5 ohm", "to 5 ohm"])
def test_what_is_no_reading(text: str) -> None:
    with pytest.raises(FormulaProblem):
        read_limits(text)


@given(st.text(alphabet="0123456789.+-*/(), abcVWkohmdegCto\u03a9", max_size=40))
def test_any_text_is_a_formula_or_a_problem(text: str) -> None:
    for read in (read_formula, read_limits):
        try:
            read(text)
        except FormulaProblem as problem:
            assert 0 <= problem.offset <= len(text) and problem.message
