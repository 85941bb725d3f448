"""The standard atmosphere and what it does to boiling, against two libraries and reference values."""

from __future__ import annotations

import random

import pytest
from fluids.atmosphere import ATMOSPHERE_1976

from expert.trade.physics.altitude import air_pressure, altitude_of_air_pressure
from expert.trade.physics.steam import (
    boiler_pressure,
    boiler_temperature,
    boiling_point,
    flash_altitude,
    saturation_temperature,
)

from .conftest import Check
from .oracles import if97_pressure, if97_temperature
from .sources import independent, round_trip

KIND = "altitude"
VALUES = independent("ambiance and PsychroLib (air pressure) with CoolProp (IF97), computed values")
THUMB = independent("CoolProp, IF97, and the bench rule of 1 K per 300 m")
INVERSE = round_trip("inverse of the same formula")
FLUIDS = independent("fluids, ATMOSPHERE_1976")
FLUIDS_IF97 = independent("fluids, ATMOSPHERE_1976; CoolProp, IF97")

ROWS = [  # m: Pa, boiling degC, degC at 1.0 bar g, bar g for 120 degC
    (0, 101325, 99.97, 120.42, 0.973),
    (500, 95461, 98.31, 119.49, 1.032),
    (1000, 89876, 96.65, 118.58, 1.088),
    (1500, 84560, 94.98, 117.69, 1.141),
    (2000, 79501, 93.32, 116.83, 1.192),
    (2500, 74692, 91.65, 115.99, 1.240),
    (3000, 70121, 89.98, 115.17, 1.285),
]


@pytest.mark.parametrize(("altitude", "pascals", "boiling", "at_one_bar", "for_120"), ROWS)
def test_altitude_rows(
    altitude: float, pascals: float, boiling: float, at_one_bar: float, for_120: float, check: Check
) -> None:
    check(air_pressure(altitude) * 1e5, pascals, VALUES, within=25, unit="Pa")
    check(boiling_point(altitude), boiling, VALUES, within=0.02, unit="K")
    check(boiler_temperature(1.0, altitude), at_one_bar, VALUES, within=0.02, unit="K")
    check(boiler_pressure(120.0, altitude), for_120, VALUES, within=0.001, unit="bar")


@pytest.mark.parametrize(("temperature", "altitude"), [(96, 1195), (95, 1495), (93, 2094), (90, 2992)])
def test_water_flashes_at_an_open_outlet_above(temperature: float, altitude: float, check: Check) -> None:
    check(flash_altitude(temperature), altitude, VALUES, within=5, unit="m")


@pytest.mark.parametrize("weather", [-0.03, 0.03])
def test_weather(weather: float, check: Check) -> None:
    sign = 1 if weather > 0 else -1
    one_bar_gauge = saturation_temperature(2.01325 + weather) - saturation_temperature(2.01325)
    boiling = saturation_temperature(1.01325 + weather) - saturation_temperature(1.01325)
    check(one_bar_gauge, sign * 0.47, VALUES, within=0.006, unit="K")
    check(boiling, sign * 0.8, VALUES, within=0.05, unit="K")


@pytest.mark.parametrize("altitude", range(0, 3001, 500))
def test_one_kelvin_per_300_metres(altitude: float, check: Check) -> None:
    """The bench rule of thumb, from the boiling point that the library gives at sea level; right to 0.1 K."""
    check(boiling_point(altitude), if97_temperature(1.01325) - altitude / 300, THUMB, within=0.1, unit="K")


def test_the_linear_rule_seen_in_print_is_out_at_3000_metres(check: Check) -> None:
    check(abs(100 - 0.00321 * 3000 - boiling_point(3000.0)), 0.4, VALUES, within=0.05, unit="K")


def test_up_to_the_top_against_fluids(check: Check) -> None:
    chance = random.Random(2533)
    for _ in range(150):
        altitude = chance.uniform(-500.0, 11000.0)
        # Geometric against geopotential height: the difference grows to 0.3 % at 11 km.
        check(air_pressure(altitude) * 1e5, float(ATMOSPHERE_1976(altitude).P), FLUIDS, relative=0.004, unit="Pa")


def test_bench_altitudes_against_fluids(check: Check) -> None:
    for altitude in range(0, 3001, 100):
        library = float(ATMOSPHERE_1976(altitude).P) / 1e5
        check(air_pressure(altitude) * 1e5, library * 1e5, FLUIDS, within=25, unit="Pa")
        check(boiling_point(altitude), if97_temperature(library), FLUIDS_IF97, within=0.02, unit="K")
        check(
            boiler_pressure(120.0, altitude),
            if97_pressure(120.0) - library,
            FLUIDS_IF97,
            within=3e-4,
            unit="bar",
        )


def test_there_and_back(check: Check) -> None:
    for altitude in range(-500, 11001, 250):
        back = altitude_of_air_pressure(air_pressure(altitude))
        check(back, altitude, INVERSE, within=4e-10, unit="m")
    for altitude in range(-500, 11001, 500):
        check(
            flash_altitude(boiling_point(altitude)),
            altitude,
            INVERSE,
            within=1e-6,
            unit="m",
        )


def test_higher_means_less_air_and_earlier_boiling() -> None:
    heights = [float(height) for height in range(-500, 11001, 50)]
    assert [air_pressure(height) for height in heights] == sorted(map(air_pressure, heights), reverse=True)
    assert [boiling_point(height) for height in heights] == sorted(map(boiling_point, heights), reverse=True)
