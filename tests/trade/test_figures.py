"""The register of figures: every entry complete and callable, and whole messages for wrong calls."""

from __future__ import annotations

import inspect
import math

import pytest

from expert.trade.errors import OutOfRange, WrongArguments
from expert.trade.figures.register import FIGURES, STANDINGS, Figure, work_out
from expert.trade.quantities.units import KINDS, Quantity, read_quantity


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


# Figure, what is typed, the same as plain numbers in the figure's own units, and how many of its units it gives.
# Converted by hand from the definitions: 1 psi = 6894.757 Pa, t(degF) = 9/5 t(degC) + 32, 1 gal (US) = 3785.411784 ml.
# What the figures themselves give is held against outside sources in tests/reference.
CALLS: list[tuple[str, list[Quantity | str], tuple[float | str, ...], float]] = [
    ("element_resistance", [q("230 V", "ac_voltage"), q("2 kW", "power")], (230.0, 2000.0), 1.0),
    ("boiler_temperature", [q("14.503774 psi", "gauge_pressure")], (1.0,), 1.0),
    ("boiler_temperature", [q("1 bar", "gauge_pressure"), q("2 km", "length")], (1.0, 2000.0), 1.0),
    ("boiler_pressure", [q("248 F", "temperature")], (120.0,), 1.0),
    ("boiling_point", [], (), 1.0),
    ("pt_resistance", [q("1 kohm", "resistance"), q("212 F", "temperature")], (1000.0, 100.0), 1.0),
    (
        "ntc_beta_resistance",
        [q("10k", "resistance"), q("3977", "number"), q("93", "temperature")],
        (10000.0, 3977.0, 93.0),
        1.0,
    ),
    ("flow_rate", [q("0.06 L", "volume"), q("0.45 min", "time")], (60.0, 27.0), 1.0),
    ("hydraulic_power", [q("900 kPa", "gauge_pressure"), q("120 ml/min", "flow")], (9.0, 2.0), 1.0),
    ("earth_limit", ["uk", q("200 cm", "length"), q("1.5 mm2", "area")], ("uk", 2.0, 1.5), 1.0),
    ("filter_leakage", [q("4.7 nF", "capacitance"), q("230", "ac_voltage")], (0.0047, 230.0), 1.0),
    ("orifice_flow", [q("9 bar", "pressure_difference"), q("0.7 mm", "length")], (9.0, 0.7), 1.0),
    ("insulation_shown", [q("1000 kohm", "resistance")], (1.0,), 1e6),  # megohms
    ("expansion", [q("68 F", "temperature"), q("93", "temperature")], (20.0, 93.0), 0.01),  # per cent
    (
        "steam_in_an_hour",
        [q("1 kW", "power"), q("1.2", "gauge_pressure"), q("20", "temperature")],
        (1000.0, 1.2, 20.0),
        1000.0,  # kilograms
    ),
    (
        "heat_up_time",
        [q("1.8 L", "volume"), q("1.4 kW", "power"), q("20", "temperature"), q("120", "temperature")],
        (1800.0, 1400.0, 20.0, 120.0),
        1.0,
    ),
]


@pytest.mark.parametrize(
    ("name", "arguments", "plain", "gives"), CALLS, ids=[f"{row[0]} {number}" for number, row in enumerate(CALLS)]
)
def test_work_out_converts_units(
    name: str, arguments: list[Quantity | str], plain: tuple[float | str, ...], gives: float
) -> None:
    found = work_out(FIGURES[name], arguments)
    assert found.kind == FIGURES[name].gives
    assert found.value == pytest.approx(FIGURES[name].call(*plain) * gives, rel=1e-6)


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
        [170.0],
        "temperature 170 degC; the 10 k curve (B25/85 = 3977 K, data sheet 29049) holds from -40 to 160 degC",
    ),
    (
        "ntc_50k_temperature",
        [500.0],
        "resistance 500 ohm; the 50 k table (B25/50 = 3950 K, type 503F3950) holds from 694.453 to 1619053 ohm",
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
        "start temperature 93 degC lies above end temperature 20 degC; are the two swapped?",
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
