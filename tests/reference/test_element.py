"""Heating elements from the rating plate, against exact arithmetic, the alloy table and pint."""

from __future__ import annotations

import math
import random
from collections.abc import Callable

import pint
import pytest
from scipy.integrate import quad
from scipy.optimize import brentq

from expert.trade.errors import OutOfRange
from expert.trade.physics.element import (
    COLD_FACTOR,
    element_current,
    element_highest,
    element_lowest,
    element_lowest_cold,
    element_power,
    element_resistance,
    half_wave_voltage,
    least_power,
    middle_voltage,
    most_power,
    pair_resistance,
    power_at_voltage,
)
from expert.trade.physics.element_groups import alloy_factor, element_cold, group_resistance, parallel_resistance

from .conftest import Check
from .sources import independent, restated, transcription

KIND = "element"
JOULE = restated("Joule's law, by hand")
TOLERANCE = restated("IEC 60335-1 clause 10 table 1, from memory, to be confirmed")
COLD = restated("the same, over 1.03 (common practice, no source)")
ALLOY = transcription("HLT alloy table, Ct", ours="")
INTEGRATED = independent("scipy, the cut sine integrated")
SINE = independent("scipy, voltage times current integrated over a period of the mains")
PINT = restated("pint on the same equation")

PLATES = [  # V, W: ohm, band from, band to
    (230, 800, 66.13, 62.98, 73.47),
    (230, 1000, 52.90, 50.38, 58.78),
    (230, 1200, 44.08, 41.98, 48.98),
    (230, 2000, 26.45, 25.19, 29.39),
    (230, 3000, 17.63, 16.79, 19.59),
    (230, 4000, 13.23, 12.60, 14.69),
    (120, 1000, 14.40, 13.71, 16.00),
    (120, 1500, 9.60, 9.14, 10.67),
]


@pytest.mark.parametrize(("volts", "watts", "ohm", "low", "high"), PLATES)
def test_plates(volts: float, watts: float, ohm: float, low: float, high: float, check: Check) -> None:
    check(element_resistance(volts, watts), ohm, JOULE, within=0.01, unit="ohm")
    check(element_lowest(volts, watts), low, TOLERANCE, within=0.01, unit="ohm")
    check(element_highest(volts, watts), high, TOLERANCE, within=0.01, unit="ohm")
    check(element_lowest_cold(volts, watts), low / 1.03, COLD, within=0.01, unit="ohm")


def test_plate_with_a_range(check: Check) -> None:
    middle = middle_voltage(220.0, 240.0)
    check(element_resistance(middle, 2000.0), 26.45, JOULE, within=0.01, unit="ohm")
    check(element_lowest(middle, 2000.0), 25.19, TOLERANCE, within=0.01, unit="ohm")
    check(element_highest(middle, 2000.0), 29.39, TOLERANCE, within=0.01, unit="ohm")


def test_plate_with_a_wide_range_is_refused() -> None:
    with pytest.raises(OutOfRange, match=r"^highest voltage 240 V; one power for the whole range holds from 200 to "):
        middle_voltage(200.0, 240.0)


def test_plate_with_a_pair_of_powers(check: Check) -> None:
    check(element_resistance(220.0, 1850.0), 26.16, JOULE, within=0.01, unit="ohm")
    check(element_resistance(240.0, 2200.0), 26.18, JOULE, within=0.01, unit="ohm")
    check(pair_resistance(220.0, 240.0, 1850.0, 2200.0), 26.17, JOULE, within=0.01, unit="ohm")


def test_pair_that_does_not_agree_is_refused() -> None:
    with pytest.raises(OutOfRange, match=r"^second resistance 28\.8 ohm; a plate with two pairs"):
        pair_resistance(220.0, 240.0, 1850.0, 2000.0)


POWER_ROWS = [(100, 110, 90), (200, 220, 180), (300, 320, 270), (400, 420, 360), (2000, 2100, 1800)]


@pytest.mark.parametrize(("rated", "most", "least"), POWER_ROWS)
def test_power_tolerance(rated: float, most: float, least: float, check: Check) -> None:
    check(most_power(rated), most, TOLERANCE, within=1e-9, unit="W")
    check(least_power(rated), least, TOLERANCE, within=1e-9, unit="W")


OTHER_SUPPLY = [(230, 120, 27), (120, 230, 367), (230, 207, 81), (230, 253, 121)]


@pytest.mark.parametrize(("rated", "actual", "percent"), OTHER_SUPPLY)
def test_other_supply(rated: float, actual: float, percent: float, check: Check) -> None:
    check(power_at_voltage(100.0, rated, actual), percent, JOULE, within=0.5, unit="%")


def test_208_volts_on_a_240_volt_plate(check: Check) -> None:
    check(power_at_voltage(100.0, 240.0, 208.0), 75.1, JOULE, within=0.05, unit="%")


def test_three_elements(check: Check) -> None:
    check(group_resistance(230.0, 1500.0, 1), 35.27, JOULE, within=0.005, unit="ohm")
    check(group_resistance(230.0, 1500.0, 3), 11.76, JOULE, within=0.005, unit="ohm")
    check(group_resistance(230.0, 1500.0, 3, 1), 17.63, JOULE, within=0.005, unit="ohm")
    ratio = group_resistance(230.0, 1500.0, 3, 1) / group_resistance(230.0, 1500.0, 3)
    check(ratio, 1.5, JOULE, within=1e-9)
    check(group_resistance(230.0, 1500.0, 2, 1) / group_resistance(230.0, 1500.0, 2), 2.0, JOULE, within=1e-9)


def test_reading_in_circuit(check: Check) -> None:
    check(parallel_resistance(26.45, 1000.0), 25.77, JOULE, within=0.005, unit="ohm")
    check(parallel_resistance(10000.0, 10000.0), 5000.0, JOULE, within=1e-9, unit="ohm")


def test_half_wave(check: Check) -> None:
    check(half_wave_voltage(230.0), 230 / 1.414, JOULE, within=0.05, unit="V")
    check(element_power(half_wave_voltage(230.0), 52.9), 500.0, JOULE, within=1e-9, unit="W")


@pytest.mark.parametrize("volts", [100.0, 115.0, 120.0, 208.0, 230.0, 240.0])
def test_half_wave_against_integration(volts: float, check: Check) -> None:
    """The root of the mean square of a sine whose negative half is cut off, and the heat that it makes in 50 ohm."""
    peak = math.sqrt(2) * volts
    area, _ = quad(lambda angle: (peak * math.sin(angle)) ** 2, 0.0, math.pi)
    effective = math.sqrt(area / (2 * math.pi))
    check(half_wave_voltage(volts), effective, INTEGRATED, relative=1e-14, unit="V")
    heat, _ = quad(lambda angle: (peak * math.sin(angle)) ** 2 / 50.0, 0.0, math.pi)
    check(element_power(half_wave_voltage(volts), 50.0), heat / (2 * math.pi), INTEGRATED, relative=1e-14, unit="W")


ALLOYS = {
    "nicr_80_20": (1.006, 1.012, 1.018, 1.025, 1.026, 1.018, 1.008),
    "nicr_60_15": (1.011, 1.024, 1.038, 1.052, 1.064, 1.069, 1.078),
    "fecral_25_5": (1.002, 1.005, 1.008, 1.013, 1.021, 1.030, 1.040),
}
TEMPERATURES = (100, 200, 300, 400, 500, 600, 800)


@pytest.mark.parametrize("alloy", ALLOYS)
def test_alloys(alloy: str, check: Check) -> None:
    for temperature, factor in zip(TEMPERATURES, ALLOYS[alloy], strict=True):
        check(alloy_factor(alloy, temperature), factor, ALLOY, within=1e-12)
        cold = element_resistance(230.0, 2000.0) / factor
        check(element_cold(230.0, 2000.0, alloy, temperature), cold, ALLOY, relative=1e-12, unit="ohm")
    check(alloy_factor(alloy, 20.0), 1.0, ALLOY, within=1e-12)


def test_nickel_chromium_80_20_is_not_monotonic() -> None:
    factors = [alloy_factor("nicr_80_20", t) for t in range(20, 801, 10)]
    assert factors != sorted(factors)
    assert max(factors) == alloy_factor("nicr_80_20", 500.0)


def test_cold_band_covers_cold_wire_of_the_two_common_alloys() -> None:
    """In water the wire stays below red heat; up to 600 degC both alloys stay within 3 % of cold."""
    for alloy in ("nicr_80_20", "fecral_25_5"):
        assert all(alloy_factor(alloy, t) <= COLD_FACTOR + 1e-9 for t in range(20, 601))


def test_joules_law_against_pint(check: Check) -> None:
    units = pint.UnitRegistry()
    chance = random.Random(1841)
    for _ in range(100):
        volts, watts = chance.uniform(100.0, 440.0), chance.uniform(26.0, 9000.0)
        ohm = ((volts * units.V) ** 2 / (watts * units.W)).to("ohm").magnitude
        amps = (watts * units.W / (volts * units.V)).to("A").magnitude
        check(element_resistance(volts, watts), ohm, PINT, relative=1e-12, unit="ohm")
        check(element_power(volts, ohm), watts, PINT, relative=1e-12, unit="W")
        check(element_current(watts, volts), amps, PINT, relative=1e-12, unit="A")


def test_more_watts_mean_fewer_ohms_and_the_band_holds_the_plate() -> None:
    watts = [float(step) for step in range(30, 6000, 10)]
    for band in (element_lowest_cold, element_lowest, element_resistance, element_highest):
        ohms = [band(230.0, watt) for watt in watts]
        # At 200 W the upper tolerance changes from +10 % to +20 W: 200 W and 210 W may both draw up to 220-odd watts.
        assert ohms == sorted(ohms, reverse=True)
    for watt in watts:
        low, middle, high = (band(230.0, watt) for band in (element_lowest_cold, element_resistance, element_highest))
        assert low < middle < high


def over_a_period(power: Callable[[float], float]) -> float:
    """Mean of what goes on through one period of the mains, by numerical integration."""
    total, _ = quad(power, 0.0, 2 * math.pi, limit=200)
    return float(total / (2 * math.pi))


@pytest.mark.parametrize(("volts", "ohm"), [(230.0, 26.45), (230.0, 37.8), (120.0, 10.3), (208.0, 41.1), (100.0, 7.1)])
def test_heat_current_and_resistance_from_the_sine_itself(volts: float, ohm: float, check: Check) -> None:
    """u(t) times i(t) through a period; the resistance of a plate is the one that gives off its watts."""
    peak = math.sqrt(2) * volts
    watts = over_a_period(lambda angle: (peak * math.sin(angle)) ** 2 / ohm)
    amperes = math.sqrt(over_a_period(lambda angle: (peak * math.sin(angle) / ohm) ** 2))
    check(element_power(volts, ohm), watts, SINE, relative=1e-12, unit="W")
    check(element_current(watts, volts), amperes, SINE, relative=1e-12, unit="A")
    found = brentq(lambda r: over_a_period(lambda angle: (peak * math.sin(angle)) ** 2 / r) - watts, 1.0, 1000.0)
    check(element_resistance(volts, watts), found, SINE, relative=1e-9, unit="ohm")
    for share in (0.8, 0.9, 1.1):
        other = over_a_period(lambda angle, part=share: (part * peak * math.sin(angle)) ** 2 / ohm)
        check(power_at_voltage(watts, volts, share * volts), other, SINE, relative=1e-12, unit="W")


@pytest.mark.parametrize("voltages", [(220.0, 240.0), (110.0, 120.0), (100.0, 110.0)])
def test_middle_and_pairs_from_the_sine_itself(voltages: tuple[float, float], check: Check) -> None:
    """The middle lies as far from both ends; a pair of powers is what one resistance gives off at both voltages."""
    low, high = voltages
    middle = brentq(lambda volts: (volts - low) - (high - volts), low, high)
    check(middle_voltage(low, high), middle, SINE, relative=1e-12, unit="V")
    watts = [over_a_period(lambda a, top=volts: 2 * (top * math.sin(a)) ** 2 / 27.0) for volts in voltages]
    check(pair_resistance(low, high, *watts), 27.0, SINE, relative=1e-12, unit="ohm in a pair")
