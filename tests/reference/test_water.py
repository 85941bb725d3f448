"""Water: hardness scales, saturation indices, conductivity; PHREEQC only judges the words of the tendency."""

from __future__ import annotations

import periodictable
import pytest
from phreeqpython import PhreeqPython

from expert.trade.physics.water_quality import (
    alkalinity_of,
    conductivity_at_25,
    dissolved_solids,
    hardness_class,
    hardness_of,
    langelier_index,
    lime_left,
    probe_verdict,
    ryznar_index,
    ryznar_tendency,
    saturation_ph,
    scaling_tendency,
)
from expert.trade.quantities.units import Quantity, read_quantity, show

from .conftest import Check
from .sources import independent, restated

KIND = "water"
DEFINITIONS = independent("hardness factors as printed (Hach)")
SHORT = restated("definition or usual factor, by hand")
ROBERGE = independent("worked example in Roberge, Corrosion Engineering, chapter 8")
FORMULA = restated("short saturation index formula, by hand")

FACTORS = [("1 °dH", 17.848), ("1 °fH", 10), ("1 °e", 14.254), ("1 gr/US gal", 17.118), ("1 mmol/L", 100.087)]


@pytest.mark.parametrize(("typed", "milligrams"), FACTORS)
def test_hardness_scales(typed: str, milligrams: float, check: Check) -> None:
    check(read_quantity(typed, "hardness").value, milligrams, DEFINITIONS, within=0.001, unit="mg/L")


def test_hardness_from_an_analysis(check: Check) -> None:
    calcium, magnesium = periodictable.Ca.mass, periodictable.Mg.mass
    lime = calcium + periodictable.C.mass + 3 * periodictable.O.mass
    hydrogen_carbonate = periodictable.H.mass + periodictable.C.mass + 3 * periodictable.O.mass
    masses = independent("periodictable, molar masses")
    check(hardness_of(1.0, 0.0), 2.4973, DEFINITIONS, within=0.001)
    check(hardness_of(0.0, 1.0), 4.1180, DEFINITIONS, within=0.001)
    check(alkalinity_of(1.0), 0.8202, DEFINITIONS, within=0.001)
    check(hardness_of(1.0, 0.0), lime / calcium, masses, relative=1e-4)
    check(hardness_of(0.0, 1.0), lime / magnesium, masses, relative=1e-4)
    check(alkalinity_of(1.0), lime / 2 / hydrogen_carbonate, masses, relative=1e-4)
    check(read_quantity("1 mmol/L", "hardness").value, lime, masses, relative=1e-4, unit="mg/L")


SCALES = [  # degrees dH: mg/L CaCO3, fH, e, gr/gal, with the digits printed
    (1, 17.85, 1.785, 1.252, 1.043),
    (4, 71.4, 7.14, 5.01, 4.17),
    (7, 124.9, 12.49, 8.77, 7.30),
    (10, 178.5, 17.85, 12.52, 10.43),
    (20, 357.0, 35.70, 25.04, 20.85),
]


@pytest.mark.parametrize(("degrees", "milligrams", "french", "english", "grains"), SCALES)
def test_scale_rows(
    degrees: float, milligrams: float, french: float, english: float, grains: float, check: Check
) -> None:
    hardness = read_quantity(f"{degrees} dH", "hardness").value
    check(hardness, milligrams, DEFINITIONS, relative=6e-4, unit="mg/L")
    check(hardness / 10, french, DEFINITIONS, relative=6e-4, unit="fH")
    check(hardness / 14.254, english, DEFINITIONS, relative=6e-4, unit="e")
    check(hardness / 17.118, grains, DEFINITIONS, relative=6e-4, unit="gr/gal")


def test_shown_in_other_scales() -> None:
    hardness = read_quantity("7 °dH", "hardness")
    assert show(hardness) == "124.9 mg/L"
    assert show(hardness, "fH") == "12.49 °fH"
    assert show(hardness, system="us") == "7.3 gr/gal"
    assert show(Quantity(17.848, "hardness"), "dH") == "1 °dH"


@pytest.mark.parametrize(
    ("milligrams", "word"),
    [
        (0, "soft"),
        (60, "soft"),
        (61, "moderately hard"),
        (120, "moderately hard"),
        (121, "hard"),
        (180, "hard"),
        (181, "very hard"),
    ],
)
def test_classes_of_the_usgs(milligrams: float, word: str) -> None:
    assert hardness_class(milligrams) == word


EXAMPLE = {"solids": 320.0, "calcium_hardness": 150.0, "alkalinity": 34.0}


@pytest.mark.parametrize(("temperature", "at_saturation", "index"), [(25, 8.2, -0.7), (82, 7.2, 0.3)])
def test_worked_example(temperature: float, at_saturation: float, index: float, check: Check) -> None:
    check(saturation_ph(temperature=temperature, **EXAMPLE), at_saturation, ROBERGE, within=0.05, unit="pH")
    check(langelier_index(ph=7.5, temperature=temperature, **EXAMPLE), index, ROBERGE, within=0.05, unit="pH")


@pytest.mark.parametrize(
    ("temperature", "at_saturation", "langelier", "ryznar"), [(25, 8.231, -0.731, 8.962), (82, 7.234, 0.266, 6.968)]
)
def test_worked_example_to_three_places(
    temperature: float, at_saturation: float, langelier: float, ryznar: float, check: Check
) -> None:
    check(saturation_ph(temperature=temperature, **EXAMPLE), at_saturation, FORMULA, within=0.001, unit="pH")
    check(langelier_index(ph=7.5, temperature=temperature, **EXAMPLE), langelier, FORMULA, within=0.001, unit="pH")
    check(ryznar_index(ph=7.5, temperature=temperature, **EXAMPLE), ryznar, FORMULA, within=0.001, unit="pH")


INDICES = [  # pH, TDS, degC, Ca, alkalinity: LSI
    (7.5, 320, 93, 150, 34, 0.440),
    (7.5, 320, 120, 150, 34, 0.846),
    (7.6, 400, 20, 250, 200, 0.254),
    (7.6, 400, 93, 250, 200, 1.522),
    (7.6, 400, 125, 250, 200, 1.999),
    (7.0, 150, 20, 68, 40, -1.568),
    (7.0, 150, 93, 68, 40, -0.300),
]


@pytest.mark.parametrize(("ph", "solids", "temperature", "calcium", "alkalinity", "index"), INDICES)
def test_indices(
    ph: float, solids: float, temperature: float, calcium: float, alkalinity: float, index: float, check: Check
) -> None:
    found = langelier_index(ph, solids, temperature, calcium, alkalinity)
    check(found, index, FORMULA, within=0.001, unit="pH")


@pytest.mark.parametrize(
    ("ryznar", "words"),
    [
        (5.4, "heavy scale"),
        (5.5, "scale"),
        (6.2, "neither"),
        (6.8, "aggressive"),
        (8.5, "aggressive"),
        (8.6, "very aggressive"),
    ],
)
def test_words_of_ryznar(ryznar: float, words: str) -> None:
    assert ryznar_tendency(ryznar) == words


PHREEQC = independent("phreeqpython, calcite saturation index")
ORACLE = restated("phreeqpython against its own computed values")
WATERS = [  # pH, TDS, degC, Ca, alkalinity: tendency in words
    (7.5, 320, 25, 150, 34, "tends to dissolve lime"),
    (7.6, 400, 93, 250, 200, "tends to scale"),
    (7.0, 150, 20, 68, 40, "tends to dissolve lime"),
    (8.0, 500, 60, 300, 250, "tends to scale"),
]


@pytest.fixture(scope="module")
def phreeqc() -> PhreeqPython:
    return PhreeqPython()


def calcite_index(phreeqc: PhreeqPython, ph: float, temperature: float, calcium: float, alkalinity: float) -> float:
    recipe = {
        "temp": temperature,
        "units": "mmol/kgw",
        "pH": ph,
        "Ca": calcium / 100.087,
        "Alkalinity": alkalinity / 50.0435,
        "Cl": "3 charge",
    }
    return float(phreeqc.add_solution(recipe).si("Calcite"))


@pytest.mark.parametrize(("temperature", "index"), [(25, -0.507), (82, 0.182)])
def test_oracle_gives_its_reference_values(
    temperature: float, index: float, phreeqc: PhreeqPython, check: Check
) -> None:
    check(calcite_index(phreeqc, 7.5, temperature, 150, 34), index, ORACLE, within=0.02, unit="SI")


@pytest.mark.parametrize(("ph", "solids", "temperature", "calcium", "alkalinity", "words"), WATERS)
def test_tendency_agrees_with_phreeqc(
    ph: float,
    solids: float,
    temperature: float,
    calcium: float,
    alkalinity: float,
    words: str,
    phreeqc: PhreeqPython,
    check: Check,
) -> None:
    ours = langelier_index(ph, solids, temperature, calcium, alkalinity)
    library = calcite_index(phreeqc, ph, temperature, calcium, alkalinity)
    assert scaling_tendency(ours) == words
    assert (library > 0) == (words == "tends to scale")
    check(ours, library, PHREEQC, within=0.3, unit="SI")


CONDUCTIVITY = independent("phreeqpython, specific conductance")
SCALES_447 = [("NaCl", 58.44, 215.5), ("KCl", 74.55, 225.6)]  # mg/L that the two scales of Sper show at 447 uS/cm


@pytest.mark.parametrize(("salt", "molar_mass", "milligrams"), SCALES_447)
def test_published_scales_hold_for_their_salts(
    salt: str, molar_mass: float, milligrams: float, phreeqc: PhreeqPython, check: Check
) -> None:
    for share in (0.5, 1.0, 2.0):
        water = phreeqc.add_solution_simple({salt: milligrams * share / molar_mass}, temperature=25)
        found = dissolved_solids(water.sc, milligrams / 447)
        check(found, milligrams * share, CONDUCTIVITY, relative=0.05, unit="mg/L")


@pytest.mark.parametrize(("calcium", "alkalinity"), [(68, 40), (100, 60), (150, 90), (250, 100)])
def test_usual_factor_for_tap_water(calcium: float, alkalinity: float, phreeqc: PhreeqPython, check: Check) -> None:
    """Of the ions as they are in the water, in mg/L; the factor 0.64 is a mean and up to a fifth out."""
    lime, carbonate = calcium / 100.087, alkalinity / 50.0435
    water = phreeqc.add_solution(
        {"temp": 25, "units": "mmol/kgw", "pH": 7.5, "Ca": lime, "Alkalinity": carbonate, "Cl": "3 charge"}
    )
    chloride = 2 * lime - carbonate
    check(dissolved_solids(water.sc), 40.08 * lime + 61.02 * carbonate + 35.45 * chloride, CONDUCTIVITY, relative=0.2)


@pytest.mark.parametrize(
    ("temperature", "out"), [(5, 0.06), (10, 0.04), (15, 0.03), (20, 0.02), (30, 0.02), (40, 0.05), (60, 0.12)]
)
def test_conductivity_brought_to_25_degrees(
    temperature: float, out: float, phreeqc: PhreeqPython, check: Check
) -> None:
    recipe = {"units": "mmol/kgw", "pH": 7.5, "Ca": 1, "Alkalinity": 1.5, "Cl": "3 charge"}
    read, wanted = (phreeqc.add_solution({"temp": t, **recipe}).sc for t in (temperature, 25))
    check(conductivity_at_25(read, temperature), wanted, CONDUCTIVITY, relative=out, unit="uS/cm")


@pytest.mark.parametrize(
    ("microsiemens", "verdict"),
    [(1, "blind"), (9.9, "blind"), (10, "doubtful"), (50, "doubtful"), (51, "sound"), (500, "sound")],
)
def test_level_probe(microsiemens: float, verdict: str) -> None:
    """More than 10 uS/cm from a level-switch maker; doubtful up to 50 is common practice without a source."""
    assert probe_verdict(microsiemens) == verdict


def test_lime(check: Check) -> None:
    check(lime_left(1e6, 100.0), 100.0, SHORT, within=1e-9, unit="g")
    cubic_metre = show(Quantity(lime_left(1e6, 100.0), "mass"))
    assert cubic_metre == "100 g"


def test_hotter_water_scales_more() -> None:
    indices = [langelier_index(7.5, 320.0, t, 150.0, 34.0) for t in range(126)]
    assert indices == sorted(indices)
