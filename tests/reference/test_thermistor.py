"""NTC thermistors, against makers' tables and coefficients, and reference values of a library."""

from __future__ import annotations

import math
import random

import pytest
from scipy.optimize import brentq

from expert.trade.sensors.thermistor import (
    ntc_10k_resistance,
    ntc_10k_temperature,
    ntc_50k_resistance,
    ntc_50k_temperature,
    ntc_beta_resistance,
    ntc_slope,
    ntc_temperature,
    steinhart_hart_temperature,
    steinhart_hart_through,
)
from expert.trade.sensors.thermistor_parts import (
    ntc_sensor_least,
    ntc_sensor_most,
    ntc_sensor_resistance,
    ntc_sensor_spread,
    ntc_sensor_temperature,
)

from .conftest import Check
from .sources import independent, restated, round_trip

KIND = "thermistor"
SHEET = restated("data sheet 29049 (NTCLE100E3), four-term coefficients")
SOLVED = round_trip("scipy, numerical inverse of the beta formula")
SHEET_INVERSE = round_trip("the sheet's two four-term forms, each typed from the sheet")
BETA = independent("thermistor-utils, Beta_converter, computed values")
STEINHART = independent("thermistor-utils, SH_converter, computed values")
THROUGH = independent("maker's table AMF52-503F3950, against Steinhart-Hart through three of its rows")
TABLE = restated("maker's table AMF52-503F3950, the rows that the code holds")
OTHER = independent("another maker's table of type 503F3950 (CMFB)")
CARRIED_ON = independent("scipy, Steinhart-Hart solved with coefficients from thermistor-utils")
PRINTED = independent(
    "resistance table of data sheet 29049 as a printer's firmware holds it; the code has its coefficients"
)
UNKNOWN = independent("two makers' tables of type 503F3950, read by the definition of beta")
OTHER_ROWS = independent("maker's table AMF52-503F3950, rows that the code does not hold")

TEN_K = [  # degC: four-term ohm, beta 3977 ohm, beta's error [K]
    (0, 32555, 33900.4, 0.8),
    (10, 19873, 20271.6, 0.4),
    (25, 10000, 10000, 0),
    (50, 3605.3, 3563.1, -0.3),
    (60, 2490.0, 2462.6, -0.3),
    (85, 1070.3, 1070.3, 0),
    (93, 835.0, 839.7, 0.2),
    (100, 677.3, 684.9, 0.4),
    (110, 508.3, 518.6, 0.7),
    (120, 386.6, 398.3, 1.2),
    (125, 338.7, 350.8, 1.4),
]


@pytest.mark.parametrize(("temperature", "ohm", "beta_ohm", "error"), TEN_K)
def test_ten_k_rows(temperature: float, ohm: float, beta_ohm: float, error: float, check: Check) -> None:
    check(ntc_10k_resistance(temperature), ohm, SHEET, relative=0.001, unit="ohm")
    check(ntc_10k_temperature(ohm), temperature, SHEET, within=0.05, unit="K")
    check(ntc_beta_resistance(10000.0, 3977.0, temperature), beta_ohm, BETA, within=0.1, unit="ohm")
    read_by_beta = ntc_temperature(10000.0, 3977.0, ntc_10k_resistance(temperature))
    check(read_by_beta - temperature, error, BETA, within=0.06, unit="K")


TEN_K_TABLE = (  # ohm from 5 to 150 degC, every 5 K
    *(25339, 19872, 15698, 12488, 10000, 8059, 6535, 5330, 4372, 3605, 2989, 2490, 2084, 1753, 1481),
    *(1256, 1070, 915.4, 786.0, 677.3, 585.7, 508.3, 442.6, 386.6, 338.7, 297.7, 262.4, 231.9, 205.5, 182.6),
)


def test_ten_k_table(check: Check) -> None:
    """The sheet's rows, which its four-term forms must give: to half a unit of the last digit printed, or 0.02 %."""
    for temperature, ohm in zip(range(5, 155, 5), TEN_K_TABLE, strict=True):
        half = 0.55 if ohm >= 1000 else 0.055
        check(ntc_10k_resistance(temperature), ohm, PRINTED, within=max(half, 2e-4 * ohm), unit="ohm")
        check(ntc_10k_temperature(ohm), temperature, PRINTED, within=0.03, unit="K")
        check(
            ntc_sensor_resistance(10000.0, 3977.0, temperature), ohm, PRINTED, within=max(half, 2e-4 * ohm), unit="ohm"
        )
        # Another resistance at 25 degC, as the tolerance allows: the curve goes with it.
        check(
            ntc_sensor_resistance(10050.0, 3977.0, temperature) / 1.005,
            ohm,
            PRINTED,
            within=max(half, 2e-4 * ohm),
            unit="ohm",
        )
        check(ntc_sensor_temperature(10050.0, 3977.0, ohm * 1.005), temperature, PRINTED, within=0.03, unit="K")


def test_unknown_parts_by_their_beta(check: Check) -> None:
    """A part of no known curve, 47 kohm and 3977 K: the library's beta values for 10 kohm, times 4.7."""
    for temperature, _, ohm, _ in TEN_K:
        check(ntc_sensor_resistance(47000.0, 3977.0, temperature) / 4.7, ohm, BETA, within=0.1, unit="ohm by 4.7")
        check(ntc_sensor_temperature(47000.0, 3977.0, ohm * 4.7), temperature, BETA, within=0.01, unit="K")


@pytest.mark.parametrize(("ohm", "temperature"), [(5000, 41.342), (1000, 87.205), (500, 111.354)])
def test_beta_inverse(ohm: float, temperature: float, check: Check) -> None:
    check(ntc_temperature(10000.0, 3977.0, ohm), temperature, BETA, within=0.001, unit="K")


FIFTY_K = [  # degC: kohm of the table, kohm by beta 3950, what beta reads too much [K]
    (0, 163.126, 168.103, 0.6),
    (20, 61.918, 62.677, 0.3),
    (25, 50.000, 50.000, 0),
    (40, 26.591, 26.507, -0.1),
    (50, 17.941, 17.941, 0),
    (60, 12.355, 12.431, 0.2),
    (80, 6.194, 6.352, 0.8),
    (90, 4.498, 4.668, 1.2),
    (95, 3.855, 4.027, 1.5),
    (100, 3.316, 3.488, 1.8),
    (110, 2.479, 2.646, 2.4),
    (120, 1.877, 2.035, 3.2),
    (125, 1.641, 1.794, 3.6),
]


@pytest.mark.parametrize(("temperature", "kohm", "beta_kohm", "error"), FIFTY_K)
def test_fifty_k_rows(temperature: float, kohm: float, beta_kohm: float, error: float, check: Check) -> None:
    check(ntc_50k_resistance(temperature) / 1000, kohm, TABLE, within=1e-9, unit="kohm")
    check(ntc_50k_temperature(kohm * 1000), temperature, TABLE, within=1e-10, unit="K")
    check(ntc_beta_resistance(50000.0, 3950.0, temperature) / 1000, beta_kohm, BETA, within=0.0011, unit="kohm")
    check(ntc_temperature(50000.0, 3950.0, kohm * 1000) - temperature, error, BETA, within=0.06, unit="K")


OTHER_MAKER = [  # degC, kohm: type 503F3950 of another maker (CMFB), all rows from -10 degC
    *((-10, 278.722), (-5, 212.960), (0, 164.069), (5, 127.484), (10, 99.788), (15, 78.710), (20, 62.520)),
    *((25, 50.000), (30, 40.247), (35, 32.600), (40, 26.564), (45, 21.769), (50, 17.941), (55, 14.864)),
    *((60, 12.378), (65, 10.361), (70, 8.709), (75, 7.361), (80, 6.245), (85, 5.323), (90, 4.555), (95, 3.914)),
    *((100, 3.377), (105, 2.925), (110, 2.542), (115, 2.217), (120, 1.941), (125, 1.705)),
]


def test_another_makers_table_of_the_same_type(check: Check) -> None:
    """Two makers' parts of one name differ by half a kelvin at 100 and 1.1 K at 120 degC: the spread covers it."""
    for temperature, kohm in OTHER_MAKER:
        spread = ntc_sensor_spread(50000.0, 3950.0, temperature)
        check(ntc_sensor_temperature(50000.0, 3950.0, kohm * 1000), temperature, OTHER, within=spread, unit="K")
        least, most = (call(50000.0, 3950.0, temperature) / 1000 for call in (ntc_sensor_least, ntc_sensor_most))
        assert least <= kohm <= most


@pytest.mark.parametrize("beta", [3950.0, 4005.0, 4056.0])
def test_by_beta_alone_the_spread_still_covers_the_table(beta: float) -> None:
    """A part of unknown make, whichever temperatures its beta belongs to; 49 kohm so that it is not taken for known."""
    for temperature, kohm, _, _ in FIFTY_K:
        found = ntc_sensor_temperature(49000.0, beta, kohm * 980)
        assert abs(found - temperature) <= ntc_sensor_spread(49000.0, beta, temperature)


def test_the_spread_of_an_unknown_part_is_not_wider_than_its_ground(check: Check) -> None:
    """The worst of three betas on two makers' tables is the ground; the straight line above it lies within 1.7 K."""
    for temperature, _, _, _ in FIFTY_K:
        kohms = [
            kohm for rows in (((t, k) for t, k, *_ in FIFTY_K), OTHER_MAKER) for t, kohm in rows if t == temperature
        ]
        worst = max(
            abs(1 / (math.log(kohm / 50) / beta + 1 / 298.15) - 273.15 - temperature)
            for beta in (3950.0, 4005.0, 4056.0)
            for kohm in kohms
        )
        spread = ntc_sensor_spread(49000.0, 4005.0, temperature)
        check(spread, worst, UNKNOWN, within=1.7, unit=f"K at {temperature}")
        assert spread >= worst - 0.05


def test_curves_reach_160_degrees(check: Check) -> None:
    """Beyond the table the 50 k goes on by Steinhart-Hart, solved here by scipy; the 10 k by its sheet's own form."""
    a, b, c = 8.317657e-4, 2.214539e-4, 9.960863e-8
    for temperature in (-40, -20, -5, 126, 130, 140, 150, 160):
        kelvin = temperature + 273.15
        solved = math.exp(brentq(lambda x, t=kelvin: a + b * x + c * x**3 - 1 / t, 0.0, 25.0))
        check(ntc_50k_resistance(temperature), solved, CARRIED_ON, relative=5e-6, unit="ohm")
        back = ntc_50k_temperature(ntc_50k_resistance(temperature))
        check(back, temperature, round_trip("inverse of the same curve"), within=1e-10, unit="K")


@pytest.mark.parametrize(("at", "beta"), [(50, 3950), (85, 4005), (100, 4025), (125, 4056)])
def test_one_table_has_many_betas(at: float, beta: float, check: Check) -> None:
    """B25/50 to B25/125 of the 50 k table: a beta value means nothing without its two temperatures."""
    kelvin = at + 273.15
    found = math.log(50000.0 / ntc_50k_resistance(at)) / (1 / 298.15 - 1 / kelvin)
    check(found, beta, TABLE, within=1.0, unit="K")


def test_steinhart_hart_through_the_ten_k_curve(check: Check) -> None:
    a, b, c = steinhart_hart_through(*((t, ntc_10k_resistance(t)) for t in (25.0, 85.0, 125.0)))
    check(a, 1.1445238e-3, STEINHART, relative=1e-6, unit="1/K")
    check(b, 2.3121150e-4, STEINHART, relative=1e-6, unit="1/K")
    check(c, 1.0232851e-7, STEINHART, relative=1e-5, unit="1/K")
    for temperature in (93.0, 120.0):
        found = steinhart_hart_temperature(a, b, c, ntc_10k_resistance(temperature))
        check(found, temperature, STEINHART, within=0.005, unit="K")


def test_steinhart_hart_through_the_fifty_k_table(check: Check) -> None:
    a, b, c = steinhart_hart_through((25.0, 50000.0), (80.0, 6194.0), (125.0, 1641.0))
    check(a, 8.317657e-4, STEINHART, relative=1e-6, unit="1/K")
    check(b, 2.214539e-4, STEINHART, relative=1e-6, unit="1/K")
    check(c, 9.960863e-8, STEINHART, relative=1e-5, unit="1/K")
    for temperature, kohm, _, _ in FIFTY_K:
        found = steinhart_hart_temperature(a, b, c, kohm * 1000)
        if 60 <= temperature <= 125:
            check(found, temperature, THROUGH, within=0.031, unit="K")
        elif temperature == 20:
            check(abs(found - temperature), 0.2, THROUGH, within=0.2, unit="K")


@pytest.mark.parametrize(("temperature", "slope"), [(25, -4.4), (93, -3.0), (120, -2.7)])
def test_slope(temperature: float, slope: float, check: Check) -> None:
    curve = math.log(ntc_10k_resistance(temperature + 0.5) / ntc_10k_resistance(temperature - 0.5)) * 100
    check(curve, slope, independent("data sheet 29049, slope in %/K"), within=0.1, unit="%/K")


def test_slope_by_beta(check: Check) -> None:
    check(ntc_slope(3977.0, 93.0), -3.0, restated("derivative of the beta formula"), within=0.1, unit="%/K")


@pytest.mark.parametrize(("temperature", "kelvin"), [(93, 0.9), (120, 1.3)])
def test_part_tolerance(temperature: float, kelvin: float, check: Check) -> None:
    """One per cent on R25 and 0.75 % on B, both the same way."""
    nominal = ntc_beta_resistance(10000.0, 3977.0, temperature)
    worst = ntc_temperature(10100.0, 3977.0 * 1.0075, nominal)
    sheet = restated("R25 +-1 %, B +-0.75 % in the beta formula")
    away = ntc_temperature(10100.0, 3977.0 * 0.9925, nominal)
    check(max(abs(worst - temperature), abs(away - temperature)), kelvin, sheet, within=0.1, unit="K")


def test_a_sound_sensor_at_room_temperature(check: Check) -> None:
    """Between 15 and 30 degC a sound 10 k reads 15.7 to 8.1 kohm, a 50 k 77.6 to 40.3 kohm."""
    check(ntc_10k_resistance(15.0) / 1000, 15.7, SHEET, within=0.05, unit="kohm")
    check(ntc_10k_resistance(30.0) / 1000, 8.1, SHEET, within=0.05, unit="kohm")
    # The rows at 15 and 30 degC are not stored: the straight line between 0 and 20 degC is 0.2 K out.
    check(ntc_50k_resistance(15.0) / 1000, 77.6, OTHER_ROWS, relative=0.012, unit="kohm")
    check(ntc_50k_resistance(30.0) / 1000, 40.3, OTHER_ROWS, relative=0.005, unit="kohm")


def test_in_circuit_readings(check: Check) -> None:
    """A 10 k thermistor across a 10 k pull-up reads 5 k; across 100 k it seems to be 27.1 degC at 25 degC."""
    across_100k = 1 / (1 / 10000.0 + 1 / 100000.0)
    check(ntc_10k_temperature(across_100k), 27.1, SHEET, within=0.1, unit="K")


def test_four_term_forms_are_inverses_within_the_sheets_own_error(check: Check) -> None:
    chance = random.Random(29049)
    for _ in range(200):
        temperature = chance.uniform(-40.0, 125.0)
        back = ntc_10k_temperature(ntc_10k_resistance(temperature))
        check(back, temperature, SHEET_INVERSE, within=0.02 if temperature > 0 else 0.15, unit="K")


def test_beta_against_an_independent_solver(check: Check) -> None:
    chance = random.Random(3977)
    for _ in range(150):
        r25, beta = chance.uniform(1e3, 1e5), chance.uniform(2500.0, 5000.0)
        ohm = ntc_beta_resistance(r25, beta, chance.uniform(-39.0, 149.0))

        def off(t: float, r25: float = r25, beta: float = beta, ohm: float = ohm) -> float:
            return math.log(r25 / ohm) + beta * (1 / (t + 273.15) - 1 / 298.15)

        solved = brentq(off, -41.0, 151.0, xtol=1e-10)
        check(
            ntc_temperature(r25, beta, ohm),
            solved,
            SOLVED,
            within=1e-6,
            unit="K",
        )


def test_fifty_k_there_and_back(check: Check) -> None:
    for step in range(251):
        back = ntc_50k_temperature(ntc_50k_resistance(step / 2))
        check(back, step / 2, round_trip("inverse of the same interpolation"), within=1e-10, unit="K")


@pytest.mark.parametrize("curve", [ntc_10k_resistance, ntc_50k_resistance])
def test_hotter_means_fewer_ohms(curve: object) -> None:
    assert callable(curve)
    ohms = [curve(step / 2) for step in range(251)]
    assert ohms == sorted(ohms, reverse=True)
    assert len(set(ohms)) == len(ohms)
