"""`expert figure`: values as people type them, the pages, the uncertainty, the messages, the exit codes."""

from __future__ import annotations

import json
import shlex
from itertools import takewhile

import pytest
from click.testing import CliRunner
from hypothesis import given
from hypothesis import strategies as st

from expert.cli import main
from expert.job.figures.asked import figure_at_the_prompt
from expert.job.figures.curve import ROWS
from expert.job.figures.reading import NoFigure, calculate, figure_named, pieces_of, read_argument
from expert.job.figures.wording import GROUPS, NOT_POSSIBLE, about, example_of
from expert.trade.figures.register import FIGURES
from expert.trade.quantities.quantity import Quantity
from expert.trade.quantities.reading import number_and_unit


def run(*arguments: str) -> tuple[int, str, str]:
    result = CliRunner().invoke(main, ["figure", *arguments])
    return result.exit_code, result.stdout, result.stderr


ELEMENT = (
    "Resistance of an element from its plate: 37.79 ohm\n"
    "  from voltage 230 V; power 1400 W\n"
    "  R = U^2 / P\n"
    "  Holds: above 0\n"
    "  Source: Joule's law (a law of physics or a definition)\n"
)


@pytest.mark.parametrize(
    "typed",
    [
        ("230 V", "1400 W"),
        ("230", "V", "1400", "W"),
        ("230V", "1.4kW"),
        ("230", "1400"),
        ("voltage=230V", "power=1400W"),
        ("power=1400", "W", "230", "V"),
        ("power=1400 W", "voltage=230"),
    ],
    ids=["quoted", "words", "no-space", "bare", "by-name", "name-then-place", "turned-round"],
)
def test_values_may_be_typed_in_many_ways(typed: tuple[str, ...]) -> None:
    # 230 V and 1400 W: Joule's law, 52900 / 1400 = 37.786 ohm.
    assert run("element_resistance", *typed) == (0, ELEMENT, "")


@pytest.mark.parametrize(
    ("line", "shown"),
    [
        # 60 ml in 27 s is 2.22 ml/s, 133 ml/min: arithmetic.
        ("flow_rate 60 ml 27 s", "2.22 ml/s"),
        # 2 min 30 at 207 V instead of 230 V: times (230 / 207)^2 = 1.235, 185 s.
        ("time_at_voltage 2 min 30 230 V 207 V", "3 min 5 s"),
        ("time_at_voltage 2 min 230 V 207 V", "2 min 28 s"),
        # Saturated steam, IAPWS R7-97: 1.2 bar gauge at sea level is 123.445 degC.
        ("boiler_temperature 1,2 bar", "123.4 °C"),
        # IET Code of Practice: 0.1 ohm plus the cord, 2 m of 13.3 ohm/km (IEC 60228): 0.1266 ohm.
        ("earth_limit uk 2 m 1.5 mm2", "0.1266 ohm"),
        # Water boils at 93.32 degC at 2000 m: ISO 2533 with IAPWS R7-97.
        ("boiling_point 2000 m", "93.3 °C"),
        ("boiling_point", "100 °C"),
    ],
    ids=["flow", "two-pieces-of-time", "one-piece-of-time", "decimal-comma", "word", "optional", "optional-left-out"],
)
def test_results_stand_first(line: str, shown: str) -> None:
    assert figure_at_the_prompt(line, "metric")[0].endswith(f": {shown}")


def test_what_was_not_given_is_said_to_be_assumed() -> None:
    assert figure_at_the_prompt("boiling_point", "metric")[1] == "  from altitude 0 m (assumed)"


@pytest.mark.parametrize(
    ("line", "shown"),
    [
        # The package uncertainties: ufloat(230, 2.3)**2 / ufloat(26.4, 0.44) = 2004 +- 52 W.
        ("element_power 230 V +- 2.3 26.4 ohm +- 0.44", "2004 W ±52 W"),
        ("element_power 230 V +- 1 % 26.4 ohm ± 0.44 ohm", "2004 W ±52 W"),
        # A class 2.5 gauge of 3 bar at 1.2 bar: 0.075 bar x 14.6 K/bar = 1.1 K (slope of the IF97 curve).
        ("boiler_temperature 1.2 bar +- 0.075", "123.4 °C ±1.1 K"),
        ("boiler_temperature 1200 mbar +- 75", "123.4 °C ±1.1 K"),
        ("element_resistance 230 V +- 0 1400 W", "37.79 ohm ±0"),
    ],
    ids=["two-values", "percent", "gauge", "unit-of-the-value", "nothing"],
)
def test_uncertainty_is_carried_through(line: str, shown: str) -> None:
    said = figure_at_the_prompt(line, "metric")
    assert said[0].endswith(f": {shown}")
    assert said[-1] == "  ±: each value moved by its own uncertainty, the squares added"


@pytest.mark.parametrize(
    ("typed", "message"),
    [
        ((), "name a calculation, such as: expert figure element_resistance 230 V 1400 W. Or: expert figure --list"),
        (("element_resistence", "1"), "there is no figure 'element_resistence'; near it: element_resistance"),
        (("zzz",), "there is no figure 'zzz'; figure --list shows all"),
        (("element_resistance",), "element_resistance still wants voltage, power"),
        (("element_resistance", "230 V"), "element_resistance still wants power"),
        (("element_resistance", "230", "1400", "5"), "element_resistance takes voltage, power; '5' is too many"),
        (("element_resistance", "volts=230"), "element_resistance has no value 'volts'; it takes voltage, power"),
        (("element_resistance", "voltage=230", "voltage=240"), "voltage is given twice"),
        (
            ("element_resistance", "230 bar", "1400 W"),
            "voltage: '230 bar' is a pressure; an AC voltage is wanted, in V, mV or kV, or OL",
        ),
        (
            ("earth_limit", "mars", "2", "1.5"),
            "limit_set: 'mars' is none of the words design, routine, uk, germany, australia, us, canada, japan, "
            "strictest",
        ),
        # Gauge pressure where absolute pressure is wanted, and the other way round.
        (
            ("saturation_temperature", "1.0 bar g"),
            "pressure: '1.0 bar g' is a gauge pressure; an absolute pressure is wanted, in bar, psi or kPa",
        ),
        (
            ("boiler_temperature", "2.2 bar abs"),
            "gauge_pressure: '2.2 bar abs' is an absolute pressure; a gauge pressure is wanted, in bar, psi or kPa",
        ),
        (
            ("pt_temperature", "100", "5000"),
            "resistance 5000 ohm; IEC 60751:2008 holds from 18.5201 to 390.481 ohm",
        ),
        (
            ("boiler_pressure", "-4", "degC"),
            "temperature -4 degC; IAPWS R7-97(2012), equation 30, holds from 0 to 373.946 degC",
        ),
        (("ntc_temperature", "10k", "3977", "OL"), "resistance is over range (OL); nothing can be worked out from it"),
        (
            ("middle_voltage", "100", "240"),
            "highest voltage 240 V; one power for the whole range holds from 100 to 110.526 V",
        ),
        # A bare number that could mean several things, and what is the wrong way round.
        (
            ("heat_up_time", "1.8", "1400", "20", "93"),
            "volume: '1.8' of what? Type its unit too, such as 250 ml or 1.8 L",
        ),
        (("idle_energy", "150", "8"), "time: '8' of what? Type its unit too, such as 90 s or 10 min"),
        (("lime_left", "10L", "20"), "temporary_hardness: '20' of what? Type its unit too, such as 150 mg/L or 8 dH"),
        (("filter_leakage", "4.7", "230"), "capacitance: '4.7' of what? Type its unit too, such as 4.7 nF or 0.1 uF"),
        (("insulation_current", "500", "1"), "resistance: '1' of what? Type its unit too, such as 100 kohm or 1 Mohm"),
        (("pressurestat_swing", "1.1", "0.9"), "cut-in 1.1 bar lies above cut-out 0.9 bar; are the two swapped?"),
        (
            ("steam_drawn", "1.5 L", "0.8", "1.2"),
            "end pressure 1.2 bar lies above start pressure 0.8 bar; are the two swapped?",
        ),
        (
            ("heat_up_time", "1.8 L", "1400", "93", "20"),
            "start temperature 93 degC lies above end temperature 20 degC; are the two swapped?",
        ),
        (("element_resistance", "230 V +- 1 +- 2", "1400"), "voltage: '230 V +- 1 +- 2' has more than one uncertainty"),
        (("element_resistance", "230 V +- -1", "1400"), "voltage: an uncertainty is a positive number"),
    ],
    ids=[
        *("no-name", "near-miss", "no-miss", "nothing", "too-few", "too-many", "no-such-value", "twice", "wrong-kind"),
        *("wrong-word", "gauge", "absolute", "out-of-range", "minus", "over-range", "two-powers"),
        *("bare-volume", "bare-time", "bare-hardness", "bare-capacitance", "bare-insulation"),
        *("swapped-cut-in", "swapped-pressures", "swapped-temperatures"),
        *("two-uncertainties", "negative-uncertainty"),
    ],
)
def test_what_cannot_be_says_why_and_leaves_with_2(typed: tuple[str, ...], message: str) -> None:
    assert run(*typed) == (2, "", f"{message}\n")


def test_help_shows_formula_units_range_source_and_standing() -> None:
    assert run("insulation_shown", "--help") == (
        0,
        "insulation_shown: What an insulation tester must show so that its error hides\n"
        "    no fail\n"
        "Formula: limit / (1 - error)\n"
        "Takes:\n"
        "  limit: that must be met (resistance, bare number in Mohm)\n"
        "  error_percent: of the tester in use (number, bare number in %) [30 %]\n"
        "Gives: resistance, in Mohm\n"
        "Holds: errors up to 90 %\n"
        "Source: IEC 61557-2 allows 30 % in use (read in print that gives or quotes it)\n"
        'Example: expert figure insulation_shown "1 Mohm" 30\n',
        "",
    )


def test_the_list_holds_every_figure_once() -> None:
    code, listed, _ = run("--list")
    assert all(len(line) < 80 for line in listed.splitlines())
    names = [line.split()[0] for line in listed.splitlines() if line.startswith("  ") and line[2] != " "]
    assert code == 0 and sorted(names) == sorted(FIGURES)
    assert [line for line in listed.splitlines() if not line.startswith("  ")] == list(GROUPS)
    as_data = json.loads(run("--list", "--json")[1])
    assert [record["figure"] for record in as_data] == names


def test_json_gives_plain_numbers_in_the_units_of_the_figure() -> None:
    data = json.loads(run("element_power", "230 V +- 2.3", "26.4 ohm +- 0.44", "--json")[1])
    assert (round(data["value"]), data["unit"], round(data["uncertainty"])) == (2004, "W", 52)
    assert data["inputs"]["voltage"] == {"value": 230.0, "unit": "V", "uncertainty": 2.3, "assumed": False}
    assert (data["source"], data["standing"]) == ("Joule's law", "law")


@pytest.mark.parametrize("how", ["option", "environment"])
def test_us_units_are_shown(how: str, monkeypatch: pytest.MonkeyPatch) -> None:
    arguments = ["boiler_temperature", "17.4 psi"]
    if how == "environment":
        monkeypatch.setenv("EXPERT_UNITS", "us")
    else:
        arguments += ["--units", "us"]
    # 17.4 psi is 1.2 bar: 123.4 degC, 254.2 degF.
    assert run(*arguments)[1].splitlines()[:2] == [
        "Temperature in a boiler from its gauge, no air in it: 254.2 °F",
        "  from gauge pressure 17.4 psi; altitude 0 ft (assumed)",
    ]


@pytest.mark.parametrize("system", ["metric", "us"])
@pytest.mark.parametrize("name", FIGURES)
def test_page_and_result_fit_eighty_columns(name: str, system: str) -> None:
    """The example alone may be longer: it stands in one piece, to be copied."""
    example = example_of(FIGURES[name])
    page = [line for line in about(FIGURES[name]) if not line.startswith("Example: ")]
    for line in (*page, *figure_at_the_prompt(example.removeprefix("expert figure "), system)):
        assert len(line) < 80, line


@pytest.mark.parametrize("name", FIGURES)
def test_every_figure_has_a_page(name: str) -> None:
    assert run(name, "--help")[1].startswith(f"{name}: ")
    assert json.loads(run(name, "--help", "--json")[1])["figure"] == name


@pytest.mark.parametrize("name", FIGURES)
def test_every_figure_through_the_command_line(name: str) -> None:
    """Its example gives what the function gives for the numbers that the example stands for, and says them again."""
    figure = FIGURES[name]
    values = shlex.split(example_of(figure).removeprefix(f"expert figure {name} "))
    code, shown, problem = run(name, *values)
    assert (code, problem) == (0, "")
    data = json.loads(run(name, *values, "--json")[1])
    said = [one if isinstance(one, str) else one["value"] for one in data["inputs"].values()]
    assert data["value"] == pytest.approx(figure.call(*said), rel=1e-9, abs=1e-12)
    lines = shown.split("\n  from ", 1)[1].splitlines()
    echoed = " ".join(line.strip() for line in (lines[0], *takewhile(lambda line: line.startswith("    "), lines[1:])))
    for one, typed, again in zip(figure.takes, values, echoed.split("; "), strict=False):
        again = again.removeprefix(f"{one.name.replace('_', ' ')} ")
        if one.kind == "word":
            assert again == typed
        else:
            meant, read = (read_argument(one, text).value for text in (typed, again))
            assert isinstance(meant, Quantity) and isinstance(read, Quantity)
            assert read.value == pytest.approx(meant.value, rel=0.006, abs=1e-9), (one.name, again)


@pytest.mark.parametrize("name", [name for name, figure in FIGURES.items() if any(t.needs_unit for t in figure.takes)])
def test_a_bare_number_is_never_taken_for_what_it_could_mean_otherwise(name: str) -> None:
    for wanted in FIGURES[name].takes:
        if wanted.needs_unit:
            with pytest.raises(NoFigure, match=rf"^{wanted.name}: '2' of what\? Type its unit too, such as "):
                read_argument(wanted, "2")
            assert f"{wanted.name}: " in run(name, "--help")[1] and "with its unit: " in run(name, "--help")[1]


@pytest.mark.parametrize("typed", ["14 AWG", "14AWG", "AWG14", "awg 14", "2.08 mm2"])
def test_a_section_may_be_a_gauge(typed: str) -> None:
    assert run("lead_drop", "6", "10", typed)[1].splitlines()[0] == (
        "Voltage that a two-core lead drops, there and back: 0.99 V"
    )


def test_water_as_its_report_prints_it() -> None:
    assert (
        run("hardness_of", "80 mg/L", "20mg/l")[1].splitlines()[0] == run("hardness_of", "80", "20")[1].splitlines()[0]
    )


@given(st.sampled_from(sorted(FIGURES)), st.text(max_size=60))
def test_no_text_gives_anything_but_a_result_or_a_message(name: str, text: str) -> None:
    try:
        result = calculate(figure_named(name), pieces_of(text))
    except NOT_POSSIBLE as problem:
        assert str(problem)
    else:
        assert len(result.arguments) == len(FIGURES[name].takes)


def test_a_flood_of_words_is_refused() -> None:
    with pytest.raises(NoFigure, match=r"^61 words are too many for duty$"):
        calculate(figure_named("duty"), ["1"] * 61)


def test_a_range_draws_the_curve() -> None:
    """The straight line of a pump, from its free flow to nothing at 15 bar, by equal steps."""
    code, shown, _ = run("vibration_pump_flow", "0 to 15 bar", "10", "15", "230", "230")
    lines = shown.splitlines()
    assert code == 0 and lines[0] == "Flow of a sound vibration pump against a pressure, over pressure:"
    assert lines[1] == "  0.00 bar    10 ml/s                                        *"
    assert lines[5] == "  5.00 bar  6.67 ml/s                           *"
    assert lines[ROWS] == "  15.0 bar     0 ml/s  *"
    marks = [line.index("*") for line in lines[1 : ROWS + 1]]
    assert marks == sorted(marks, reverse=True)
    data = json.loads(run("vibration_pump_flow", "0 to 15 bar", "10", "15", "230", "230", "--json")[1])
    assert (data["over"], data["over_unit"], data["unit"]) == ("pressure", "bar", "ml/s")
    assert [flow for _, flow in data["points"]] == pytest.approx([10 * (1 - bar / 15) for bar, _ in data["points"]])
    assert figure_at_the_prompt('vibration_pump_flow "0 to 15 bar" 10 15 230 230', "metric") == lines


def test_a_curve_tells_where_it_does_not_hold_and_no_more_digits_than_it_has() -> None:
    shown = run("langelier_index", "7.5", "320", "temperature=25 to 145 degC", "150", "34")[1].splitlines()
    # 25 degC: Roberge, Corrosion Engineering, chapter 8.
    assert shown[1].split()[:3] == ["25", "°C", "-0.7"]
    assert shown[12].split() == ["135", "°C", "does", "not", "hold"]


@pytest.mark.parametrize(
    ("values", "message"),
    [
        (("1 to 3 L", "1000 to 2000", "20", "93"), "one value at a time may be a range"),
        (("2 L to 2 L", "1000", "20", "93"), "the range begins where it ends"),
        (
            ("1 to 3 L", "1000", "20", "430"),
            "end temperature 430 degC; the heat balance with constant heat capacity holds",
        ),
        (("1 to 3", "1000", "20", "93"), "volume: '1' of what? Type its unit too, such as 250 ml or 1.8 L"),
    ],
    ids=["two", "none", "beyond", "bare"],
)
def test_a_range_that_cannot_be_drawn(values: tuple[str, ...], message: str) -> None:
    code, _, problem = run("heat_up_time", *values)
    assert code == 2 and problem.startswith(message)


@pytest.mark.parametrize("name", FIGURES)
def test_every_figure_draws_or_says_why_not(name: str) -> None:
    """Its example, with each number in turn a range from itself to a tenth more."""
    figure = FIGURES[name]
    values = shlex.split(example_of(figure).removeprefix(f"expert figure {name} ")) if figure.takes else []
    for place, one in enumerate(figure.takes):
        if one.kind == "word":
            continue
        number, unit = number_and_unit(values[place])
        ranged = [*values[:place], f"{number:.10g} {unit} to {number * 1.1:.10g} {unit}".strip(), *values[place + 1 :]]
        code, shown, problem = run(name, *ranged)
        assert (code, bool(shown), bool(problem)) in ((0, True, False), (2, False, True))
        assert all(len(line) < 80 for line in shown.splitlines())
        assert code == 0 or "does not hold" in problem or ";" in problem or "holds" in problem or "odd" in problem, (
            problem
        )
