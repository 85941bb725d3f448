"""Quantities as people type them, and the whole message when the text is none."""

from __future__ import annotations

import math

import pytest

from expert.trade.quantities.units import (
    NotAQuantity,
    NotBelievable,
    Quantity,
    believable,
    number_and_unit,
    read_quantity,
    units_named,
)

READ = [  # as typed, kind, value in the base unit
    ("1.2 bar", "gauge_pressure", 1.2),
    ("1,2 bar", "gauge_pressure", 1.2),
    ("1,234 bar", "gauge_pressure", 1.234),
    ("1.2bar", "gauge_pressure", 1.2),
    ("1.2 BAR", "gauge_pressure", 1.2),
    ("1.2 bar g", "gauge_pressure", 1.2),
    ("1.2barg", "gauge_pressure", 1.2),
    ("  1.2   bar ", "gauge_pressure", 1.2),
    ("1.2\tbar\n", "gauge_pressure", 1.2),
    ("1.2\u00a0bar", "gauge_pressure", 1.2),
    ("-0.2 bar", "gauge_pressure", -0.2),
    ("\u22120.2 bar", "gauge_pressure", -0.2),
    ("+0.2", "gauge_pressure", 0.2),
    (".5 bar", "gauge_pressure", 0.5),
    ("5. bar", "gauge_pressure", 5.0),
    ("100 kPa", "gauge_pressure", 1.0),
    ("100 kpa", "gauge_pressure", 1.0),
    ("1 kgf/cm²", "gauge_pressure", 0.980665),
    ("1 kg/cm2", "gauge_pressure", 0.980665),
    ("2 bar abs", "absolute_pressure", 2.0),
    ("2 bara", "absolute_pressure", 2.0),
    ("2 bar", "absolute_pressure", 2.0),
    ("1013 hPa", "absolute_pressure", 1.013),
    ("0.3 bar", "pressure_difference", 0.3),
    ("93", "temperature", 93.0),
    ("93 C", "temperature", 93.0),
    ("93°", "temperature", 93.0),
    ("93 ° C", "temperature", 93.0),
    ("93 ºC", "temperature", 93.0),
    ("93℃", "temperature", 93.0),
    ("93 degC", "temperature", 93.0),
    ("93 degrees", "temperature", 93.0),
    ("212 F", "temperature", 100.0),
    ("212°F", "temperature", 100.0),
    ("373.15 K", "temperature", 100.0),
    ("9 °F", "temperature_difference", 5.0),
    ("5 °C", "temperature_difference", 5.0),
    ("37.8", "resistance", 37.8),
    ("37.8Ω", "resistance", 37.8),
    ("37.8\u2126", "resistance", 37.8),
    ("37.8 Ohm", "resistance", 37.8),
    ("37.8 ohms", "resistance", 37.8),
    ("37R8", "resistance", 37.8),
    ("R47", "resistance", 0.47),
    ("47R", "resistance", 47.0),
    ("1k8", "resistance", 1800.0),
    ("1K8", "resistance", 1800.0),
    ("4M7", "resistance", 4.7e6),
    ("10k", "resistance", 10000.0),
    ("10 kΩ", "resistance", 10000.0),
    ("10 k ohm", "resistance", 10000.0),
    ("3 mΩ", "resistance", 0.003),
    ("3 MΩ", "resistance", 3e6),
    ("3 mohm", "resistance", 0.003),
    ("3 MOHM", "resistance", 3e6),
    ("3 M", "resistance", 3e6),
    ("500 Meg", "resistance", 500e6),
    ("1e3", "resistance", 1000.0),
    ("OL", "resistance", math.inf),
    ("ol", "resistance", math.inf),
    ("O.L", "resistance", math.inf),
    ("0L", "resistance", math.inf),
    ("0.L Mohm", "resistance", math.inf),
    ("over range", "resistance", math.inf),
    ("overload", "resistance", math.inf),
    ("∞", "resistance", math.inf),
    ("open", "resistance", math.inf),
    ("OL", "temperature", math.inf),
    ("230", "ac_voltage", 230.0),
    ("230 V", "ac_voltage", 230.0),
    ("230VAC", "ac_voltage", 230.0),
    ("230 V~", "ac_voltage", 230.0),
    ("230 mV", "ac_voltage", 0.23),
    ("24 V DC", "dc_voltage", 24.0),
    ("-24 v", "dc_voltage", -24.0),
    ("0.4 mA", "leakage_current", 0.4),
    ("400 µA", "leakage_current", 0.4),
    ("8.7 A", "current", 8.7),
    ("2 kW", "power", 2000.0),
    ("1400 watts", "power", 1400.0),
    ("1 kWh", "energy", 3.6e6),
    ("1.8 l", "volume", 1800.0),
    ("60 ML", "volume", 60.0),
    ("60 cc", "volume", 60.0),
    ("1 fl oz", "volume", 29.5735295625),
    ("60 ml in 10 s", "flow", 6.0),
    ("60 ml in 10", "flow", 6.0),
    ("60ml/10s", "flow", 6.0),
    ("60 in 10 s", "flow", 6.0),
    ("1 L in 2 min", "flow", 1000 / 120),
    ("2.2 ml/s", "flow", 2.2),
    ("200 L/h", "flow", 200 / 3.6),
    ("18 g", "mass", 18.0),
    ("25", "time", 25.0),
    ("25 sec", "time", 25.0),
    ("2 min 30", "time", 150.0),
    ("2 min 30 s", "time", 150.0),
    ("2m30s", "time", 150.0),
    ("2:30", "time", 150.0),
    ("1:20:00", "time", 4800.0),
    ("1 h 20", "time", 4800.0),
    ("3'", "time", 180.0),
    ("9 m", "time", 540.0),
    ("9 m", "length", 9.0),
    ("0.6 mm", "length", 0.0006),
    ("1.5 mm²", "area", 1.5),
    ("50 hz", "frequency", 50.0),
    ("7 °dH", "hardness", 124.936),
    ("100 ppm", "hardness", 100.0),
    ("300 µS/cm", "conductivity", 300.0),
    ("300 uS", "conductivity", 300.0),
    ("0.3 mS/cm", "conductivity", 300.0),
    ("4n7", "capacitance", 0.0047),
    ("4.7 nF", "capacitance", 0.0047),
    ("10 μF", "capacitance", 10.0),
    ("25 %", "number", 0.25),
    ("3977", "number", 3977.0),
]


@pytest.mark.parametrize(("typed", "kind", "value"), READ, ids=[f"{row[1]}: {row[0]!r}" for row in READ])
def test_read_as_typed(typed: str, kind: str, value: float) -> None:
    assert read_quantity(typed, kind).value == pytest.approx(value, rel=1e-12)
    assert read_quantity(typed, kind).kind == kind


def test_bare_number_takes_the_question_s_unit() -> None:
    assert read_quantity("2", "resistance", "kohm") == Quantity(2000.0, "resistance")
    assert read_quantity("2 ohm", "resistance", "kohm") == Quantity(2.0, "resistance")
    assert read_quantity("93°", "temperature", "°F").value == pytest.approx(33.888888888889)


def test_bare_number_on_a_us_bench() -> None:
    assert read_quantity("212", "temperature", system="us").value == pytest.approx(100.0)
    assert read_quantity("14.5", "gauge_pressure", system="us").value == pytest.approx(0.99974, abs=1e-5)
    assert read_quantity("230", "ac_voltage", system="us") == Quantity(230.0, "ac_voltage")


OHMS = "a resistance is wanted, in ohm, kohm or Mohm, or OL"
GAUGE = "a gauge pressure is wanted, in bar, psi or kPa"
REFUSED = [  # as typed, kind, the whole message
    ("37 V", "resistance", f"'37 V' is a voltage; {OHMS}"),
    ("37 VAC", "resistance", f"'37 VAC' is an AC voltage; {OHMS}"),
    ("98 F", "resistance", f"'98 F' is a temperature or a capacitance; {OHMS}"),
    ("2 bar abs", "gauge_pressure", f"'2 bar abs' is an absolute pressure; {GAUGE}"),
    (
        "1 bar g",
        "absolute_pressure",
        "'1 bar g' is a gauge pressure; an absolute pressure is wanted, in bar, psi or kPa",
    ),
    ("230 V~", "dc_voltage", "'230 V~' is an AC voltage; a DC voltage is wanted, in V, mV or kV, or OL"),
    ("5 blah", "power", "'5 blah' has the unknown unit 'blah'; a power is wanted, in W or kW"),
    ("2 MW", "power", "'2 MW' has the unknown unit 'MW'; a power is wanted, in W or kW"),
    ("warm", "temperature", "'warm' has no number; a temperature is wanted, in degC, degF or K, or OL"),
    ("nan", "resistance", f"'nan' has no number; {OHMS}"),
    ("", "time", "nothing was typed; a time is wanted, in s, min or h"),
    ("  \t ", "time", "nothing was typed; a time is wanted, in s, min or h"),
    ("1,234,5", "resistance", f"'1,234,5' has more than one decimal mark; {OHMS}"),
    ("1.234,5 ohm", "resistance", f"'1.234,5 ohm' has more than one decimal mark; {OHMS}"),
    ("1,234.5 ohm", "resistance", f"'1,234.5 ohm' has more than one decimal mark; {OHMS}"),
    ("1 000 ohm", "resistance", f"'1 000 ohm' is not one number with one unit; {OHMS}"),
    (">500 Mohm", "resistance", f"'>500 Mohm' is not one value; {OHMS}"),
    ("~1.2 bar", "gauge_pressure", f"'~1.2 bar' is not one value; {GAUGE}"),
    ("1 to 2 bar", "gauge_pressure", f"'1 to 2 bar' is not one number with one unit; {GAUGE}"),
    ("1/2 bar", "gauge_pressure", f"'1/2 bar' is not one number with one unit; {GAUGE}"),
    ("OL", "time", "'OL' is over range; a time is wanted, in s, min or h"),
    ("OL bar", "resistance", f"'OL bar' has no number; {OHMS}"),
    ("12 s", "flow", "'12 s' is a time; a flow is wanted, in ml/s, ml/min or L/min"),
    ("60 g in 10 s", "flow", "'60 g' is a mass; a volume is wanted, in ml, L or cl"),
    ("60 ml in 0 s", "flow", "'60 ml in 0 s' has a time of zero; a flow is wanted, in ml/s, ml/min or L/min"),
    ("2 min 30 min", "time", "'2 min 30 min' is not one number with one unit; a time is wanted, in s, min or h"),
    ("30 s 2 min", "time", "'30 s 2 min' is not one number with one unit; a time is wanted, in s, min or h"),
    ("many", "number", "'many' has no number; a number is wanted"),
    ("1e999", "power", "'1e999' is too large a number for any reading"),
    ("\u0663 bar", "gauge_pressure", f"'\u0663 bar' has no number; {GAUGE}"),
    ("\x1b[31m3 bar", "gauge_pressure", f"the text has signs that cannot be shown; {GAUGE}"),
    ("3\x00", "gauge_pressure", f"the text has signs that cannot be shown; {GAUGE}"),
    ("3\u202e bar", "gauge_pressure", f"the text has signs that cannot be shown; {GAUGE}"),
    ("9" * 200, "resistance", f"a text of 200 characters is too long for a reading; {OHMS}"),
    ("9" * 10_000_000, "resistance", f"a text of 10000000 characters is too long for a reading; {OHMS}"),
    ("q" * 79, "resistance", f"'{'q' * 37}...' has no number; {OHMS}"),
    ("900 bar", "gauge_pressure", "900 bar cannot be right for a gauge pressure; -1.10 bar to 40.0 bar would do"),
    ("-3", "resistance", "-3 ohm cannot be right for a resistance; 0 ohm to 2000 Gohm would do"),
    ("5000 °C", "temperature", "5000 °C cannot be right for a temperature; -60 °C to 700 °C would do"),
    ("-5 s", "time", "-5 s cannot be right for a time; 0 s to 720 h would do"),
]


@pytest.mark.parametrize(("typed", "kind", "message"), REFUSED, ids=[f"{row[1]}: {row[0][:20]!r}" for row in REFUSED])
def test_refused_with_the_whole_message(typed: str, kind: str, message: str) -> None:
    with pytest.raises(NotAQuantity) as caught:
        read_quantity(typed, kind)
    assert str(caught.value) == message


def test_message_on_a_us_bench_names_its_units_first() -> None:
    with pytest.raises(NotAQuantity) as caught:
        read_quantity("5 V", "gauge_pressure", system="us")
    assert str(caught.value) == "'5 V' is a voltage; a gauge pressure is wanted, in psi, bar or kPa"
    with pytest.raises(NotBelievable) as hot:
        read_quantity("5000", "temperature", system="us")
    assert str(hot.value) == "5000 °F cannot be right for a temperature; -76 °F to 1292 °F would do"


def test_foreign_default_unit_is_the_caller_s_mistake() -> None:
    with pytest.raises(ValueError, match=r"^'volt' is not a unit of a resistance$"):
        read_quantity("5", "resistance", "volt")


def test_over_range_is_believable_only_where_an_instrument_shows_it() -> None:
    believable(Quantity(math.inf, "resistance"))
    with pytest.raises(NotBelievable):
        believable(Quantity(math.inf, "volume"))
    with pytest.raises(NotBelievable):
        believable(Quantity(-math.inf, "resistance"))


def test_number_and_unit() -> None:
    assert number_and_unit("100 kohm") == (100.0, "kohm")
    assert number_and_unit("-0,5") == (-0.5, "")
    assert number_and_unit("1.5 mm2") == (1.5, "mm2")
    with pytest.raises(NotAQuantity) as caught:
        number_and_unit("kohm")
    assert str(caught.value) == "'kohm' is not a number with a unit"


def test_units_named() -> None:
    assert units_named("bar") == ("gauge_pressure", "absolute_pressure", "pressure_difference")
    assert units_named("bar abs") == ("absolute_pressure",)
    assert units_named("V") == ("ac_voltage", "dc_voltage")
    assert units_named("mA") == ("current", "leakage_current")
    assert units_named("") == ()
    assert units_named("x" * 1000) == ()
