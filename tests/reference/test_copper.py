"""Copper windings, against IEC 60028 values and exact arithmetic."""

from __future__ import annotations

import random

import pytest

from expert.trade.physics.copper import copper_at_20, copper_resistance, winding_temperature

from .conftest import Check
from .sources import independent, restated, round_trip, transcription

KIND = "copper"
IEC = restated("IEC 60028 annealed copper, 0.00393 /K at 20 degC, as a meter maker's appendix quotes it (HIOKI RM3545)")
RATIO = restated("234.5 degC form, worked out by hand")
INVERSE = round_trip("inverse of the same formula")
TABLES = independent("copper wire tables for 20 degC (Floyd, Electric Circuit Fundamentals) and for 25 degC")
FORM = transcription("234.5 degC form (HIOKI RM3545)", ours="0.00393 /K of IEC 60028")

ROWS = [(20, 1.0000), (25, 1.0196), (40, 1.0786), (60, 1.1572), (80, 1.2358), (100, 1.3144), (120, 1.3930)]


@pytest.mark.parametrize(("temperature", "factor"), ROWS)
def test_factor(temperature: float, factor: float, check: Check) -> None:
    check(copper_resistance(1.0, temperature), factor, IEC, within=0.0002)
    by_ratio = (234.5 + temperature) / (234.5 + 20.0)
    check(copper_resistance(1.0, temperature), by_ratio, FORM, within=0.0002)


def test_coil_of_1000_ohm_at_80_degrees(check: Check) -> None:
    check(copper_resistance(1000.0, 80.0), 1235.8, IEC, within=0.05, unit="ohm")


@pytest.mark.parametrize(("cold", "hot"), [(20, 96.35), (25, 102.85)])
def test_winding_that_rose_by_30_percent(cold: float, hot: float, check: Check) -> None:
    check(winding_temperature(100.0, cold, 130.0), hot, RATIO, within=0.01, unit="K")


@pytest.mark.parametrize(("reference", "coefficient"), [(25, 0.003854), (0, 0.004264)])
def test_coefficient_at_other_references(reference: float, coefficient: float, check: Check) -> None:
    """0.00393 belongs to 20 degC; taken at 25 degC it puts the rise 2 % out."""
    rise_for_one_percent = winding_temperature(100.0, reference, 101.0) - reference
    found = 0.01 / rise_for_one_percent
    check(found, coefficient, RATIO, within=1e-6, unit="1/K")


def test_wrong_reference_is_two_percent_out(check: Check) -> None:
    check((0.00393 / 0.003854 - 1) * 100, 2.0, RATIO, within=0.05, unit="%")


def test_there_and_back(check: Check) -> None:
    chance = random.Random(60028)
    for _ in range(200):
        r20, t = chance.uniform(1.0, 5000.0), chance.uniform(-50.0, 200.0)
        check(
            copper_at_20(copper_resistance(r20, t), t),
            r20,
            INVERSE,
            relative=1e-12,
            unit="ohm",
        )
        cold = chance.uniform(0.0, 40.0)
        hot = winding_temperature(r20, cold, r20 * (234.5 + t) / (234.5 + cold))
        check(hot, t, INVERSE, within=1e-9, unit="K")


WIRES = [  # gauge: ohm in 1000 ft at 20 degC, and at 25 degC
    (14, 2.525, 2.58),
    (12, 1.588, 1.62),
    (10, 0.9989, 1.02),
    (8, 0.6282, 0.641),
]


@pytest.mark.parametrize(("gauge", "at_20", "at_25"), WIRES)
def test_wire_tables_for_two_temperatures(gauge: int, at_20: float, at_25: float, check: Check) -> None:
    """Two printed tables of the same wires; the second rounds to three figures."""
    check(copper_resistance(at_20, 25.0), at_25, TABLES, relative=0.005, unit="ohm in 1000 ft")


def test_hotter_means_more_ohms() -> None:
    curve = [copper_resistance(100.0, t) for t in range(-50, 201)]
    assert curve == sorted(curve)
    assert len(set(curve)) == len(curve)
