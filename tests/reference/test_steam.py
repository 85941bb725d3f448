"""Saturated steam, against IF97 in two libraries, the release's own check values and a printed steam table."""

from __future__ import annotations

import random

import pytest
from CoolProp.CoolProp import PropsSI
from iapws import IAPWS97

from expert.trade.physics.steam import (
    boiler_pressure,
    boiler_temperature,
    saturation_pressure,
    saturation_temperature,
    temperature_shift,
    trapped_air_pressure,
    trapped_air_temperature,
)
from expert.trade.physics.steam_heat import flash_share, latent_heat, steam_in_an_hour, steam_in_an_hour_from_boiling
from expert.trade.physics.water_properties import liquid_density, liquid_heat, liquid_heat_capacity, steam_heat

from .conftest import Check
from .oracles import if97_boiling, if97_liquid, if97_pressure, if97_temperature
from .sources import independent, round_trip

KIND = "steam"
RELEASE = independent("check values of IAPWS R7-97(2012), tables 5, 15, 35, 36")
COOLPROP = independent("CoolProp, IF97")
OTHER = independent("CoolProp, IAPWS-95: another formulation")
DALTON = independent("CoolProp, IF97, with Dalton's law, air shut in at 20 degC")
IAPWS = independent("iapws, IF97")
PRINTED = independent("Dry saturated steam tables, TI-GCM-01, sixth edition (2013)")
VALUES = independent("CoolProp, IF97, computed values")
ATMOSPHERE = 1.01325


@pytest.mark.parametrize(("kelvin", "megapascals"), [(300, 0.353658941e-2), (500, 0.263889776e1), (600, 0.123443146e2)])
def test_boiling_pressure_of_the_release(kelvin: float, megapascals: float, check: Check) -> None:
    check(saturation_pressure(kelvin - 273.15) / 10, megapascals, RELEASE, relative=1e-8, unit="MPa")  # table 35


@pytest.mark.parametrize(("megapascals", "kelvin"), [(0.1, 372.755919), (1, 453.035632), (10, 584.149488)])
def test_boiling_temperature_of_the_release(megapascals: float, kelvin: float, check: Check) -> None:
    check(saturation_temperature(megapascals * 10) + 273.15, kelvin, RELEASE, within=1e-6, unit="K")  # table 36


LIQUID_OF_THE_RELEASE = [  # table 5: T [K], p [MPa], v [m3/kg], h [kJ/kg], cp [kJ/(kg K)]
    (300, 3, 0.100215168e-2, 0.115331273e3, 0.417301218e1),
    (300, 80, 0.971180894e-3, 0.184142828e3, 0.401008987e1),
]
STEAM_OF_THE_RELEASE = [(300, 0.0035, 0.254991145e4)]  # table 15: T [K], p [MPa], h [kJ/kg]


@pytest.mark.parametrize(("kelvin", "megapascals", "volume", "heat", "capacity"), LIQUID_OF_THE_RELEASE)
def test_liquid_of_the_release(
    kelvin: float, megapascals: float, volume: float, heat: float, capacity: float, check: Check
) -> None:
    at = (kelvin - 273.15, megapascals * 10)
    check(1 / liquid_density(*at), volume, RELEASE, relative=1e-8, unit="m3/kg")
    check(liquid_heat(*at), heat, RELEASE, relative=1e-8, unit="kJ/kg")
    check(liquid_heat_capacity(*at), capacity, RELEASE, relative=1e-8, unit="kJ/(kg K)")


@pytest.mark.parametrize(("kelvin", "megapascals", "heat"), STEAM_OF_THE_RELEASE)
def test_steam_of_the_release(kelvin: float, megapascals: float, heat: float, check: Check) -> None:
    check(steam_heat(kelvin - 273.15, megapascals * 10), heat, RELEASE, relative=1e-8, unit="kJ/kg")


GAUGE_ROWS = [  # bar g at 1.01325 bar: t IF97 [degC], t printed [degC], h_fg IF97 [kJ/kg]
    (0.0, 99.974, 100.0, 2256.5),
    (0.5, 111.614, 111.6, 2225.3),
    (0.8, 117.140, 117.2, 2210.1),
    (0.9, 118.815, 118.8, 2205.5),
    (1.0, 120.420, 120.4, 2201.0),
    (1.1, 121.962, 122.0, 2196.6),
    (1.2, 123.445, 123.5, 2192.5),
    (1.3, 124.874, 124.9, 2188.4),
    (1.5, 127.588, 127.6, 2180.7),
    (1.8, 131.347, 131.4, 2169.8),
    (2.0, 133.676, 133.7, 2163.0),
]


@pytest.mark.parametrize(("gauge", "temperature", "printed", "latent"), GAUGE_ROWS, ids=lambda value: f"{value:g}")
def test_gauge_rows(gauge: float, temperature: float, printed: float, latent: float, check: Check) -> None:
    check(boiler_temperature(gauge), temperature, VALUES, within=0.001, unit="K")
    check(boiler_temperature(gauge), printed, PRINTED, within=0.1, unit="K")
    check(latent_heat(gauge), latent, VALUES, within=0.05 + 0.001, unit="kJ/kg")


TEMPERATURE_ROWS = [  # degC: bar absolute, bar g at 1.01325 bar
    (60, 0.19946, -0.814),
    (80, 0.47415, -0.539),
    (90, 0.70182, -0.311),
    (93, 0.78568, -0.228),
    (96, 0.87771, -0.136),
    (100, 1.01418, 0.001),
    (110, 1.43376, 0.421),
    (120, 1.98665, 0.973),
    (125, 2.32224, 1.309),
    (130, 2.70260, 1.689),
]


@pytest.mark.parametrize(("temperature", "absolute", "gauge"), TEMPERATURE_ROWS)
def test_temperature_rows(temperature: float, absolute: float, gauge: float, check: Check) -> None:
    check(saturation_pressure(temperature), absolute, VALUES, within=1e-5, unit="bar")
    check(boiler_pressure(temperature), gauge, VALUES, within=0.0006, unit="bar")


@pytest.mark.parametrize(("gauge", "slope"), [(0.8, 17.1), (1.0, 15.7), (1.2, 14.6), (1.5, 13.1)])
def test_slope(gauge: float, slope: float, check: Check) -> None:
    check(temperature_shift(gauge, 1.0), slope, VALUES, within=0.1, unit="K/bar")


def test_a_tenth_of_a_bar_is_about_one_and_a_half_kelvin(check: Check) -> None:
    check(temperature_shift(1.2, 0.1), 1.5, VALUES, within=0.1, unit="K")


@pytest.mark.parametrize(("gauge", "temperature"), [(0.8, 84.9), (1.0, 91.8), (1.2, 97.6)])
def test_trapped_air(gauge: float, temperature: float, check: Check) -> None:
    check(trapped_air_temperature(gauge), temperature, DALTON, within=0.06, unit="K")
    by_library = if97_pressure(temperature) + ATMOSPHERE * (temperature + 273.15) / 293.15 - ATMOSPHERE
    check(trapped_air_pressure(temperature), by_library, DALTON, within=1e-9, unit="bar")


def test_a_sealed_boiler_cooled_to_20_degrees_stands_at_a_vacuum(check: Check) -> None:
    check(boiler_pressure(20.0), -0.99, VALUES, within=0.005, unit="bar")


WATER_ROWS = [(20, 4.19, 998.2), (93, 4.21, 963.3), (120, 4.25, 943.1)]  # degC: cp [kJ/(kg K)], rho [kg/m3]


@pytest.mark.parametrize(("temperature", "capacity", "density"), WATER_ROWS)
def test_water_rows(temperature: float, capacity: float, density: float, check: Check) -> None:
    check(liquid_heat_capacity(temperature), capacity, VALUES, relative=0.003, unit="kJ/(kg K)")
    check(liquid_density(temperature), density, VALUES, relative=0.003, unit="kg/m3")


def test_steam_per_kilowatt_at_1_2_bar(check: Check) -> None:
    check(steam_in_an_hour_from_boiling(1000.0, 1.2), 1.642, VALUES, within=0.005, unit="kg/h")
    check(steam_in_an_hour(1000.0, 1.2, 20.0), 1.370, VALUES, within=0.005, unit="kg/h")


@pytest.mark.parametrize(("gauge", "share"), [(0.8, 3.2), (1.0, 3.8), (1.2, 4.4), (1.5, 5.2)])
def test_flash_share(gauge: float, share: float, check: Check) -> None:
    check(flash_share(gauge), share, VALUES, within=0.1, unit="%")


def test_reading_gauge_as_absolute_is_twenty_kelvin_out(check: Check) -> None:
    """The commonest mistake with steam: 1.0 bar taken as absolute gives 99.6 instead of 120.4 degC."""
    check(saturation_temperature(1.0), 99.6, VALUES, within=0.05, unit="K")
    check(boiler_temperature(1.0), 120.4, VALUES, within=0.05, unit="K")


def test_whole_range_against_coolprop(check: Check) -> None:
    chance = random.Random(97)
    for _ in range(300):
        temperature = chance.uniform(0.02, 373.9)
        pressure = if97_pressure(temperature)
        check(saturation_pressure(temperature), pressure, COOLPROP, relative=1e-13, unit="bar")
        check(saturation_temperature(pressure), if97_temperature(pressure), COOLPROP, within=1e-10, unit="K")


def test_bench_range_against_another_formulation(check: Check) -> None:
    """IAPWS-95 shares nothing with IF97 but the measurements: the two differ by a few thousandths of a kelvin."""
    for step in range(5, 41):
        pressure = step / 10
        library = float(PropsSI("T", "P", pressure * 1e5, "Q", 0, "Water")) - 273.15
        check(saturation_temperature(pressure), library, OTHER, within=0.005, unit="K")


def test_whole_range_against_iapws(check: Check) -> None:
    chance = random.Random(98)
    for _ in range(40):
        pressure = chance.uniform(0.05, 20.0)
        library = IAPWS97(P=pressure / 10, x=0).T - 273.15
        check(saturation_temperature(pressure), library, IAPWS, within=2e-12, unit="K")


def test_heat_and_density_against_coolprop(check: Check) -> None:
    chance = random.Random(99)
    for _ in range(150):
        t = chance.uniform(0.02, 200.0)
        p = max(saturation_pressure(t) * 1.0001, ATMOSPHERE)
        check(steam_heat(t), if97_boiling("H", t, 1) / 1000, COOLPROP, within=1e-8, unit="kJ/kg")
        check(liquid_heat(t, p), if97_liquid("H", t, p) / 1000, COOLPROP, within=1e-8, unit="kJ/kg")
        check(liquid_density(t, p), if97_liquid("D", t, p), COOLPROP, within=1e-8, unit="kg/m3")
        check(liquid_heat_capacity(t, p), if97_liquid("C", t, p) / 1000, COOLPROP, within=1e-9, unit="kJ/(kg K)")


def test_latent_heat_against_coolprop_at_any_altitude(check: Check) -> None:
    chance = random.Random(100)
    for _ in range(60):
        gauge, altitude = chance.uniform(-0.5, 14.0), chance.uniform(0.0, 3000.0)
        t = boiler_temperature(gauge, altitude)
        library = (if97_boiling("H", t, 1) - if97_boiling("H", t, 0)) / 1000
        check(latent_heat(gauge, altitude), library, COOLPROP, within=1e-6, unit="kJ/kg")


def test_pressure_and_temperature_are_inverses(check: Check) -> None:
    for step in range(374):
        there_and_back = saturation_temperature(saturation_pressure(step))
        check(there_and_back, step, round_trip("equations 30 and 31"), within=5e-11, unit="K")


def test_more_pressure_means_hotter_and_less_latent_heat() -> None:
    gauges = [step / 20 for step in range(-19, 280)]
    temperatures = [boiler_temperature(gauge) for gauge in gauges]
    latents = [latent_heat(gauge) for gauge in gauges]
    assert temperatures == sorted(temperatures)
    assert latents == sorted(latents, reverse=True)
