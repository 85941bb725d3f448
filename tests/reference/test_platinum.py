"""Platinum sensors, against the tables and tolerances of IEC 60751 and an independent inverse."""

from __future__ import annotations

import random

import pytest
from scipy.optimize import brentq

from expert.trade.sensors.platinum import pt_lead_error, pt_resistance, pt_temperature, pt_tolerance

from .conftest import Check
from .sources import independent, restated, round_trip

KIND = "platinum"
TABLE = independent("table of IEC 60751, as makers print it (WIKA 11208287); the code has the equation only")
FORMULA = restated("the equation of IEC 60751, typed a second time")
LIMITS = independent("limits in ohm in a 1995 tolerance sheet to IEC 751")

# ohm of a Pt100 at -200, -190 ... 850 degC, to a hundredth
TENS = (
    18.52, 22.83, 27.10, 31.34, 35.54, 39.72, 43.88, 48.00, 52.11, 56.19,
    60.26, 64.30, 68.33, 72.33, 76.33, 80.31, 84.27, 88.22, 92.16, 96.09,
    100.00, 103.90, 107.79, 111.67, 115.54, 119.40, 123.24, 127.08, 130.90, 134.71,
    138.51, 142.29, 146.07, 149.83, 153.58, 157.33, 161.05, 164.77, 168.48, 172.17,
    175.86, 179.53, 183.19, 186.84, 190.47, 194.10, 197.71, 201.31, 204.90, 208.48,
    212.05, 215.61, 219.15, 222.68, 226.21, 229.72, 233.21, 236.70, 240.18, 243.64,
    247.09, 250.53, 253.96, 257.38, 260.78, 264.18, 267.56, 270.93, 274.29, 277.64,
    280.98, 284.30, 287.62, 290.92, 294.21, 297.49, 300.75, 304.01, 307.25, 310.48,
    313.71, 316.92, 320.12, 323.30, 326.48, 329.64, 332.79, 335.93, 339.06, 342.18,
    345.28, 348.38, 351.46, 354.53, 357.59, 360.64, 363.67, 366.70, 369.71, 372.71,
    375.70, 378.68, 381.65, 384.60, 387.55, 390.48,
)  # fmt: skip
SHARPEST = 0.0071  # half a hundredth, and what the table itself rounds: 310.48 for 310.487 at 560 degC
BETWEEN = [(25, 109.73), (93, 135.85)]


def test_table(check: Check) -> None:
    for place, ohm in enumerate(TENS):
        check(pt_resistance(100.0, -200.0 + 10 * place), ohm, TABLE, within=SHARPEST, unit="ohm")
    for place, ohm in tuple(enumerate(TENS))[1:-1]:  # the ends are rounded out of the range
        check(pt_temperature(100.0, ohm), -200.0 + 10 * place, TABLE, within=0.025, unit="K")


@pytest.mark.parametrize(("temperature", "ohm"), BETWEEN)
def test_between_the_rows_and_a_thousand_ohms(temperature: float, ohm: float, check: Check) -> None:
    check(pt_resistance(100.0, temperature), ohm, FORMULA, within=0.005, unit="ohm")
    check(pt_resistance(1000.0, temperature), 10 * ohm, FORMULA, within=0.05, unit="ohm")


@pytest.mark.parametrize(
    ("ohm", "temperature"), [(119.40, 50.01), (130.90, 80.01), (138.51, 100.01), (146.07, 120.00), (150.00, 130.45)]
)
def test_inverse(ohm: float, temperature: float, check: Check) -> None:
    check(pt_temperature(100.0, ohm), temperature, FORMULA, within=0.01, unit="K")


TOLERANCES = [("AA", 0.10, 0.0017), ("A", 0.15, 0.002), ("B", 0.30, 0.005)]


@pytest.mark.parametrize(("sensor_class", "fixed", "per_degree"), TOLERANCES)
@pytest.mark.parametrize("temperature", [0.0, 93.0, 120.0, 150.0])
def test_tolerance(sensor_class: str, fixed: float, per_degree: float, temperature: float, check: Check) -> None:
    source = restated("IEC 60751 tolerance classes")
    check(pt_tolerance(sensor_class, temperature), fixed + per_degree * temperature, source, within=1e-9, unit="K")


TOLERANCE_OHMS = [
    ("A", 0, 0.06),
    ("A", 100, 0.13),
    ("A", 200, 0.20),
    ("B", 0, 0.12),
    ("B", 100, 0.30),
    ("B", 200, 0.48),
]


@pytest.mark.parametrize(("sensor_class", "temperature", "ohm"), TOLERANCE_OHMS)
def test_tolerance_in_ohm(sensor_class: str, temperature: float, ohm: float, check: Check) -> None:
    margin = pt_tolerance(sensor_class, temperature)
    found = pt_resistance(100.0, temperature + margin) - pt_resistance(100.0, temperature)
    check(found, ohm, LIMITS, within=0.0105, unit="ohm")  # the sheet rounds to 0.01 and cuts in places


# Class AA came with the standard of 2008 and cannot stand in a sheet of 1995: its row is the formula's.
OHMS_AT_100 = [("AA", 138.40, 138.61), ("A", 138.37, 138.64), ("B", 138.20, 138.81)]


@pytest.mark.parametrize(("sensor_class", "low", "high"), OHMS_AT_100)
def test_limits_at_100_degrees(sensor_class: str, low: float, high: float, check: Check) -> None:
    margin = pt_tolerance(sensor_class, 100.0)
    source = FORMULA if sensor_class == "AA" else LIMITS
    check(pt_resistance(100.0, 100.0 - margin), low, source, within=0.0051, unit="ohm")
    check(pt_resistance(100.0, 100.0 + margin), high, source, within=0.0051, unit="ohm")


def test_limits_of_class_aa_at_150_degrees(check: Check) -> None:
    """The printed sheet misprints these two; the values here follow from the class and the formula."""
    margin = pt_tolerance("AA", 150.0)
    check(pt_resistance(100.0, 150.0 - margin), 157.19, FORMULA, within=0.0051, unit="ohm")
    check(pt_resistance(100.0, 150.0 + margin), 157.46, FORMULA, within=0.0051, unit="ohm")


def test_slope_and_leads(check: Check) -> None:
    slope = (pt_resistance(100.0, 94.0) - pt_resistance(100.0, 92.0)) / 2
    check(slope, 0.380, FORMULA, within=0.0005, unit="ohm/K")
    check(pt_lead_error(100.0, 93.0, 0.5), 1.3, FORMULA, within=0.05, unit="K")
    check(pt_lead_error(1000.0, 93.0, 0.5), 0.13, FORMULA, within=0.005, unit="K")


def test_straight_line_is_a_third_of_a_kelvin_out(check: Check) -> None:
    """Reading a Pt100 with 100 (1 + 0.00385 t) gives 119.66 degC for a true 120 degC."""
    straight = (pt_resistance(100.0, 120.0) / 100 - 1) / 0.00385
    check(straight, 119.66, FORMULA, within=0.005, unit="K")


def test_whole_range_against_an_independent_solver(check: Check) -> None:
    def by_the_standard(t: float) -> float:
        a, b, c = 3.9083e-3, -5.775e-7, -4.183e-12
        return 1 + a * t + b * t**2 + (c * (t - 100) * t**3 if t < 0 else 0.0)

    chance = random.Random(60751)
    for _ in range(200):
        t = chance.uniform(-200.0, 850.0)
        check(pt_resistance(100.0, t), 100 * by_the_standard(t), FORMULA, relative=1e-12, unit="ohm")
        ratio = by_the_standard(t)
        solved = brentq(lambda x, ratio=ratio: by_the_standard(x) - ratio, -201.0, 851.0, xtol=1e-10)
        found = pt_temperature(100.0, 100 * ratio)
        check(found, solved, round_trip("scipy, numerical inverse of the same equation"), within=1e-10, unit="K")


def test_hotter_means_more_ohms() -> None:
    curve = [pt_resistance(100.0, t) for t in range(-200, 851)]
    assert curve == sorted(curve)
    assert len(set(curve)) == len(curve)
