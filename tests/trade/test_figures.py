"""The register of figures: every entry complete and callable, and whole messages for wrong calls."""

from __future__ import annotations

import inspect
import math

import pytest

from expert.trade.errors import OutOfRange, WrongArguments
from expert.trade.figures.register import FIGURES, STANDINGS, Figure, work_out
from expert.trade.quantities.units import KINDS, Quantity, read_quantity, show


@pytest.mark.parametrize("figure", FIGURES.values(), ids=list(FIGURES))
def test_entry_is_complete(figure: Figure) -> None:
    assert figure.name == figure.call.__name__ == next(name for name, entry in FIGURES.items() if entry is figure)
    for text in (figure.title, figure.formula, figure.source, figure.valid):
        assert text.strip()
    assert figure.standing in STANDINGS
    assert figure.unit in KINDS[figure.gives].units
    for wanted in figure.takes:
        assert wanted.meaning
        if wanted.kind == "word":
            assert wanted.words
        else:
            assert wanted.unit in KINDS[wanted.kind].units
            assert not wanted.words


@pytest.mark.parametrize("figure", FIGURES.values(), ids=list(FIGURES))
def test_entry_matches_its_function(figure: Figure) -> None:
    parameters = inspect.signature(figure.call).parameters
    assert list(parameters) == [wanted.name for wanted in figure.takes]
    defaults = [None if p.default is p.empty else p.default for p in parameters.values()]
    assert defaults == [wanted.default for wanted in figure.takes]
    with_default = [wanted.default is not None for wanted in figure.takes]
    assert with_default == sorted(with_default), "arguments with a default come last"


@pytest.mark.parametrize("figure", FIGURES.values(), ids=list(FIGURES))
def test_docstring_has_its_parts(figure: Figure) -> None:
    text = inspect.getdoc(figure.call) or ""
    for part in ("Source:", ">>> ", "["):
        assert part in text
    if figure.takes:
        assert "OutOfRange" in text or "WrongArguments" in text


def q(text: str, kind: str) -> Quantity:
    return read_quantity(text, kind)


CALLS = [  # figure, arguments, the result as shown
    ("element_resistance", [q("230 V", "ac_voltage"), q("2 kW", "power")], "26.45 ohm"),
    ("element_lowest_cold", [q("230 V", "ac_voltage"), q("2000 W", "power")], "24.46 ohm"),
    ("element_highest", [q("230 V", "ac_voltage"), q("2000 W", "power")], "29.39 ohm"),
    ("boiler_temperature", [q("1.2 bar", "gauge_pressure")], "123.4 °C"),
    ("boiler_temperature", [q("1 bar", "gauge_pressure"), q("2000 m", "length")], "116.8 °C"),
    ("boiler_temperature", [q("14.5038 psi", "gauge_pressure")], "120.4 °C"),
    ("boiler_pressure", [q("248 F", "temperature")], "0.97 bar"),
    ("boiling_point", [], "100 °C"),
    ("boiling_point", [q("2000", "length")], "93.3 °C"),
    ("air_pressure", [], "1.013 bar abs"),
    ("trapped_air_temperature", [q("1.0 bar", "gauge_pressure")], "91.8 °C"),
    ("flash_share", [q("1.2 bar", "gauge_pressure")], "0.04407"),
    ("pt_resistance", [q("1 kohm", "resistance"), q("100", "temperature")], "1.385 kohm"),
    ("ntc_beta_resistance", [q("10k", "resistance"), q("3977", "number"), q("93", "temperature")], "839.7 ohm"),
    ("ntc_temperature", [q("10k", "resistance"), q("3977", "number"), q("5k", "resistance")], "41.3 °C"),
    ("copper_resistance", [q("1 kohm", "resistance"), q("80", "temperature")], "1.236 kohm"),
    ("flow_rate", [q("60 ml", "volume"), q("27 s", "time")], "2.22 ml/s"),
    ("hydraulic_power", [q("9 bar", "gauge_pressure"), q("2 ml/s", "flow")], "1.8 W"),
    ("earth_limit", ["uk", q("2 m", "length"), q("1.5 mm2", "area")], "0.1266 ohm"),
    ("insulation_limit", ["germany", "class_1", "heating", q("2000 W", "power")], "300 kohm"),
    ("leakage_limit", ["design", "class_1", q("2 kW", "power")], "1.5 mA"),
    ("filter_leakage", [q("4.7 nF", "capacitance"), q("230", "ac_voltage")], "0.34 mA"),
    ("mains_lowest", ["europe"], "207 V"),
    ("orifice_flow", [q("9 bar", "pressure_difference"), q("0.7 mm", "length")], "10.13 ml/s"),
    ("expansion", [q("20", "temperature"), q("93", "temperature")], "0.03626"),
    ("insulation_shown", [q("1 Mohm", "resistance")], "1.429 Mohm"),
    ("steam_in_an_hour", [q("1 kW", "power"), q("1.2", "gauge_pressure"), q("20", "temperature")], "1.37 kg"),
    ("lime_left", [q("1000 L", "volume"), q("100 mg/L", "hardness")], "100 g"),
    (
        "heat_up_time",
        [q("1.8 L", "volume"), q("1400 W", "power"), q("20", "temperature"), q("120", "temperature")],
        "8 min 57 s",
    ),
]


@pytest.mark.parametrize(
    ("name", "arguments", "shown"), CALLS, ids=[f"{row[0]} {number}" for number, row in enumerate(CALLS)]
)
def test_work_out_converts_units(name: str, arguments: list[Quantity | str], shown: str) -> None:
    found = work_out(FIGURES[name], arguments)
    assert found.kind == FIGURES[name].gives
    assert show(found) == shown


WRONG = [
    (
        "element_resistance",
        [q("230", "ac_voltage")],
        "element_resistance takes 2 arguments (voltage, power), not 1",
    ),
    (
        "boiler_temperature",
        [],
        "boiler_temperature takes 1 to 2 arguments (gauge_pressure, altitude), not 0",
    ),
    (
        "boiler_temperature",
        [q("2 bar abs", "absolute_pressure")],
        "gauge_pressure of boiler_temperature is a gauge pressure, not an absolute pressure"
        " (absolute is gauge plus air pressure)",
    ),
    (
        "saturation_temperature",
        [q("1 bar", "gauge_pressure")],
        "pressure of saturation_temperature is an absolute pressure, not a gauge pressure"
        " (absolute is gauge plus air pressure)",
    ),
    (
        "flow_through_power",
        [q("2 ml/s", "flow"), q("93", "temperature")],
        "rise of flow_through_power is a temperature difference, not a temperature (a difference is wanted)",
    ),
    (
        "copper_resistance",
        [Quantity(math.inf, "resistance"), q("20", "temperature")],
        "resistance_20 of copper_resistance is over range (OL); nothing can be worked out from it",
    ),
    (
        "mains_lowest",
        ["atlantis"],
        "band of mains_lowest is one of europe, europe_in_use, europe_old, north_america, north_america_in_use,"
        " not 'atlantis'",
    ),
    (
        "mains_lowest",
        [q("230", "ac_voltage")],
        "band of mains_lowest is one of europe, europe_in_use, europe_old, north_america, north_america_in_use,"
        " not an AC voltage",
    ),
    ("flow_rate", ["much", q("2", "time")], "volume of flow_rate is a volume, not the word 'much'"),
]


@pytest.mark.parametrize(("name", "arguments", "message"), WRONG, ids=[row[2][:40] for row in WRONG])
def test_wrong_calls_say_what_would_do(name: str, arguments: list[Quantity | str], message: str) -> None:
    with pytest.raises(WrongArguments) as caught:
        work_out(FIGURES[name], arguments)
    assert str(caught.value) == message


OUTSIDE = [
    (
        "saturation_pressure",
        [400.0],
        "temperature 400 degC; IAPWS R7-97(2012), equation 30, holds from 0 to 373.946 degC",
    ),
    (
        "saturation_temperature",
        [300.0],
        "absolute pressure 300 bar; IAPWS R7-97(2012), equation 31, holds from 0.00611212 to 220.64 bar",
    ),
    (
        "boiling_point",
        [12000.0],
        "altitude 12000 m; the standard atmosphere (ISO 2533:1975) holds from -500 to 11000 m",
    ),
    ("element_resistance", [230.0, 0.0], "power 0 W; Joule's law holds above 0 W"),
    (
        "element_lowest_cold",
        [230.0, 20.0],
        "rated power 20 W; the power tolerance (IEC 60335-1, clause 10, table 1) holds above 25 W",
    ),
    ("pt_resistance", [100.0, 900.0], "temperature 900 degC; IEC 60751:2008 holds from -200 to 850 degC"),
    ("pt_tolerance", ["AA", 200.0], "temperature 200 degC; IEC 60751:2008, class AA (film), holds from 0 to 150 degC"),
    (
        "ntc_10k_resistance",
        [140.0],
        "temperature 140 degC; the 10 k curve (B25/85 = 3977 K, data sheet 29049) holds from -40 to 125 degC",
    ),
    (
        "ntc_50k_temperature",
        [1000.0],
        "resistance 1000 ohm; the 50 k table (B25/50 = 3950 K, type 503F3950) holds from 1641 to 163126 ohm",
    ),
    (
        "copper_resistance",
        [100.0, 250.0],
        "temperature 250 degC; annealed copper (IEC 60028) holds from -50 to 200 degC",
    ),
    ("flow_rate", [60.0, 0.0], "time 0 s; a flow taken with cup and clock holds above 0 s"),
    (
        "heat_up_time",
        [300.0, 1000.0, 93.0, 20.0],
        "end temperature 20 degC; the heat balance with constant heat capacity holds from 93 to 150 degC",
    ),
    ("earth_limit", ["uk", 200.0, 1.5], "cord length 200 m; IEC 60228, class 5 plain copper, holds from 0 to 100 m"),
    (
        "langelier_index",
        [7.0, 100.0, 130.0, 100.0, 100.0],
        "temperature 130 degC; the short saturation index formula holds from 0 to 125 degC",
    ),
    ("gauge_uncertainty", [9.0, 3.0], "accuracy class 9; EN 837-1 holds from 0.1 to 4"),
]


@pytest.mark.parametrize(("name", "arguments", "message"), OUTSIDE, ids=[row[0] for row in OUTSIDE])
def test_out_of_range_names_value_unit_limits_and_source(name: str, arguments: list[float | str], message: str) -> None:
    with pytest.raises(OutOfRange) as caught:
        FIGURES[name].call(*arguments)
    assert str(caught.value) == message


WORDS = [
    (
        "earth_limit",
        ["mars", 2.0, 1.5],
        "'mars' is not known for an earth limit; "
        "design, routine, uk, germany, australia, us, canada, japan, strictest would do",
    ),
    ("earth_limit", ["uk", 2.0, 4.0], "a core of 4 mm2 is not in the table; 0.75, 1, 1.5, 2.5 mm2 would do"),
    ("leakage_limit", ["uk", "class_3", 0.0], "set uk has no leakage limit for class_3; class_1, class_2 would do"),
    ("leakage_limit", ["catering", "class_2", 0.0], "set catering has no leakage limit for class_2; class_1 would do"),
    (
        "insulation_limit",
        ["uk", "class_0", "heating", 0.0],
        "set uk has no insulation limit for class_0; class_1, class_2 or class_3 would do",
    ),
    ("pt_tolerance", ["C", 20.0], "'C' is not a class of platinum sensor; AA, A, B would do"),
    (
        "element_cold",
        [230.0, 2000.0, "tin", 200.0],
        "'tin' is not an alloy of the table; nicr_80_20, nicr_60_15, fecral_25_5 would do",
    ),
    (
        "heat_up_time_with_metal",
        [1.0, 1.0, 20.0, 21.0, 1.0, "lead"],
        "'lead' is not a metal of the table; brass, copper, aluminium, stainless would do",
    ),
]


@pytest.mark.parametrize(("name", "arguments", "message"), WORDS, ids=[row[2][:40] for row in WORDS])
def test_unknown_words_say_what_would_do(name: str, arguments: list[float | str], message: str) -> None:
    with pytest.raises(WrongArguments) as caught:
        FIGURES[name].call(*arguments)
    assert str(caught.value) == message
