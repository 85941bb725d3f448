"""Platinum sensors, against the tables and tolerances of IEC 60751 and an independent inverse."""

from __future__ import annotations

import random

import pytest
from scipy.optimize import brentq

from expert.trade.sensors.platinum import pt_lead_error, pt_resistance, pt_temperature, pt_tolerance

from .conftest import Check

KIND = "platinum"
TABLE = "pub: IEC 60751 table, via WIKA 11208287"
FORMULA = "lib: Callendar-Van Dusen of IEC 60751"
LIMITS = "pub: IEC 60751 limits in ohm, 1995 tolerance sheet"

TABLE_ROWS = [  # degC: ohm of a Pt100 (the tens stand in the table, the rest follow from the formula)
    (0, 100.00),
    (20, 107.79),
    (25, 109.73),
    (50, 119.40),
    (80, 130.90),
    (93, 135.85),
    (100, 138.51),
    (120, 146.07),
    (130, 149.83),
    (150, 157.33),
    (200, 175.86),
]


@pytest.mark.parametrize(("temperature", "ohm"), TABLE_ROWS)
def test_table(temperature: float, ohm: float, check: Check) -> None:
    source = TABLE if temperature % 10 == 0 else FORMULA
    check(pt_resistance(100.0, temperature), ohm, source, within=0.005, unit="ohm")
    check(pt_resistance(1000.0, temperature), 10 * ohm, source, within=0.05, unit="ohm")


@pytest.mark.parametrize(
    ("ohm", "temperature"), [(119.40, 50.01), (130.90, 80.01), (138.51, 100.01), (146.07, 120.00), (150.00, 130.45)]
)
def test_inverse(ohm: float, temperature: float, check: Check) -> None:
    check(pt_temperature(100.0, ohm), temperature, FORMULA, within=0.01, unit="K")


TOLERANCES = [("AA", 0.10, 0.0017), ("A", 0.15, 0.002), ("B", 0.30, 0.005)]


@pytest.mark.parametrize(("sensor_class", "fixed", "per_degree"), TOLERANCES)
@pytest.mark.parametrize("temperature", [0.0, 93.0, 120.0, 150.0])
def test_tolerance(sensor_class: str, fixed: float, per_degree: float, temperature: float, check: Check) -> None:
    source = "pub: IEC 60751 tolerance classes"
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


OHMS_AT_100 = [("AA", 138.40, 138.61), ("A", 138.37, 138.64), ("B", 138.20, 138.81)]


@pytest.mark.parametrize(("sensor_class", "low", "high"), OHMS_AT_100)
def test_limits_at_100_degrees(sensor_class: str, low: float, high: float, check: Check) -> None:
    margin = pt_tolerance(sensor_class, 100.0)
    check(pt_resistance(100.0, 100.0 - margin), low, LIMITS, within=0.0051, unit="ohm")
    check(pt_resistance(100.0, 100.0 + margin), high, LIMITS, within=0.0051, unit="ohm")


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
        check(found, solved, "lib: scipy brentq on the equation of IEC 60751", within=1e-6, unit="K")


def test_hotter_means_more_ohms() -> None:
    curve = [pt_resistance(100.0, t) for t in range(-200, 851)]
    assert curve == sorted(curve)
    assert len(set(curve)) == len(curve)
