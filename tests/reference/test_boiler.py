"""A boiler as a store of steam, its safety valve, its leaks: CoolProp with numerical solvers, and API 520 in fluids."""

from __future__ import annotations

import math
import random

import pytest
from CoolProp.CoolProp import PropsSI
from fluids.safety_valve import API520_A_steam
from scipy.integrate import solve_ivp
from scipy.optimize import brentq, minimize_scalar

from expert.trade.physics.leak_test import air_leak, cooled_pressure
from expert.trade.physics.relief import relief_capacity, relief_power
from expert.trade.physics.steam_store import (
    pressure_after,
    pressurestat_off_time,
    pressurestat_swing,
    steam_drawn,
    steam_loss,
    steam_recovery_time,
)
from expert.trade.physics.water_properties import steam_density

from .conftest import Check
from .sources import independent

KIND = "boiler"
COOLPROP = independent("CoolProp, IAPWS-95")
SOLVED = independent("CoolProp, IAPWS-95, the heat balance integrated by scipy")
CHOKED = independent("CoolProp, IAPWS-95, isentropic flow at its greatest")
API_520 = independent("fluids, API 520: Napier's equation for steam")
GAS = independent("CoolProp, real air")
AIR = 101325.0


def boils_at(gauge: float) -> float:
    return float(PropsSI("T", "P", gauge * 1e5 + AIR, "Q", 0, "Water"))


def of_water(what: str, kelvin: float, quality: int = 0) -> float:
    return float(PropsSI(what, "T", kelvin, "Q", quality, "Water"))


def kilograms(millilitres: float, kelvin: float) -> float:
    return millilitres * 1e-6 * of_water("D", kelvin)


# ---------------------------------------------------------------- safety valve


def choked(relieving: float, bore: float, discharge: float) -> float:
    """Steam [kg/h] from dry saturated steam of a pressure [Pa]: the greatest flow that any pressure behind gives."""
    heat, entropy = (PropsSI(what, "P", relieving, "Q", 1, "Water") for what in ("H", "S"))

    def flux(behind: float) -> float:
        density, left = (PropsSI(what, "P", behind, "S", entropy, "Water") for what in ("D", "H"))
        return float(-density * math.sqrt(max(0.0, 2 * (heat - left))))

    best = minimize_scalar(flux, bounds=(0.3 * relieving, 0.99 * relieving), method="bounded")
    return float(-best.fun) * discharge * math.pi / 4 * (bore / 1000) ** 2 * 3600


VALVES = [(0.9, 10.0), (1.5, 8.0), (1.8, 6.0), (2.0, 8.0), (2.5, 12.0), (3.0, 6.0), (6.0, 10.0), (12.0, 12.0)]


@pytest.mark.parametrize(("set_pressure", "bore"), VALVES)
def test_safety_valves(set_pressure: float, bore: float, check: Check) -> None:
    relieving = 1.1 * set_pressure * 1e5 + AIR
    found = relief_capacity(set_pressure, bore, 0.7)
    check(found, choked(relieving, bore, 0.7), CHOKED, relative=0.01, unit="kg/h")
    area, kelvin = math.pi / 4 * (bore / 1000) ** 2, float(PropsSI("T", "P", relieving, "Q", 1, "Water"))
    napier = brentq(lambda kg_s: API520_A_steam(kg_s, kelvin, relieving, Kd=0.7) - area, 1e-5, 10) * 3600
    check(found, napier, API_520, relative=0.05, unit="kg/h")
    heat = of_water("H", kelvin, 1) - of_water("H", kelvin)
    carried = choked(relieving, bore, 0.7) * heat / 3600
    check(relief_power(set_pressure, bore, 0.7), carried, CHOKED, relative=0.01, unit="W")


def test_density_of_steam(check: Check) -> None:
    for celsius in range(100, 200, 5):
        library = float(PropsSI("D", "T", celsius + 273.15, "Q", 1, "IF97::Water"))
        check(steam_density(celsius), library, independent("CoolProp, IF97"), relative=1e-14, unit="kg/m3")


# ---------------------------------------------------------------- draws and recovery


def drawn_by_solver(volume: float, high: float, low: float) -> float:
    """Steam [g] while boiling water falls from one gauge pressure [bar] to another."""

    def slope(kelvin: float, mass: list[float]) -> list[float]:
        liquid = of_water("H", kelvin)
        by_kelvin = (of_water("H", kelvin + 0.01) - of_water("H", kelvin - 0.01)) / 0.02
        return [mass[0] * by_kelvin / (of_water("H", kelvin, 1) - liquid)]

    full = kilograms(volume, boils_at(high))
    solved = solve_ivp(slope, (boils_at(high), boils_at(low)), [full], rtol=1e-9)
    return float(full - solved.y[0, -1]) * 1000


SPANS = [(1500.0, 1.2, 0.8), (1500.0, 1.2, 1.1), (6000.0, 1.5, 0.5), (11000.0, 1.3, 0.9), (800.0, 2.0, 0.2)]


@pytest.mark.parametrize(("volume", "high", "low"), SPANS)
def test_draws_and_recovery(volume: float, high: float, low: float, check: Check) -> None:
    check(steam_drawn(volume, high, low), drawn_by_solver(volume, high, low), SOLVED, relative=0.002, unit="g")
    heat = kilograms(volume, boils_at(high)) * (of_water("H", boils_at(high)) - of_water("H", boils_at(low)))
    check(steam_recovery_time(volume, 1400.0, low, high), heat / 1400, COOLPROP, relative=0.002, unit="s")
    check(pressurestat_off_time(volume, 250.0, low, high), heat / 250, COOLPROP, relative=0.002, unit="s")
    check(pressurestat_swing(low, high), boils_at(high) - boils_at(low), COOLPROP, within=0.005, unit="K")


# ---------------------------------------------------------------- falls of pressure


def after_by_solver(volume: float, gauge: float, holding: float, seconds: float) -> float:
    hot = boils_at(gauge)
    mass, loss = kilograms(volume, hot), holding / (hot - 293.15)

    def slope(_: float, kelvin: list[float]) -> list[float]:
        return [-loss * (kelvin[0] - 293.15) / (mass * of_water("C", kelvin[0]))]

    solved = solve_ivp(slope, (0, seconds), [hot], rtol=1e-8)
    return (of_water("P", float(solved.y[0, -1])) - AIR) / 1e5


@pytest.mark.parametrize("seconds", [60.0, 300.0, 600.0, 900.0])
@pytest.mark.parametrize(("volume", "gauge", "holding"), [(1500.0, 1.2, 150.0), (6000.0, 1.0, 300.0)])
def test_shut_boiler(volume: float, gauge: float, holding: float, seconds: float, check: Check) -> None:
    left = after_by_solver(volume, gauge, holding, seconds)
    check(pressure_after(volume, gauge, holding, seconds), left, SOLVED, within=0.004, unit="bar")
    if left > 0:
        # What only cooled has lost nothing.
        check(steam_loss(volume, gauge, left, seconds, holding), 0.0, SOLVED, within=1.0, unit="g/h")
        half = seconds / 2
        heat = kilograms(volume, boils_at(gauge)) * (of_water("H", boils_at(gauge)) - of_water("H", boils_at(left)))
        middle = (boils_at(gauge) + boils_at(left)) / 2
        cooling = holding * (middle - 293.15) / (boils_at(gauge) - 293.15)
        lost = (heat - cooling * half) / (of_water("H", middle, 1) - of_water("H", middle)) * 3600 / half * 1000
        check(steam_loss(volume, gauge, left, half, holding), lost, COOLPROP, relative=0.01, unit="g/h")


def test_vessels_of_air(check: Check) -> None:
    chance = random.Random(1662)
    for _ in range(40):
        gauge, fall = chance.uniform(0.5, 8.0), chance.uniform(0.0, 0.4)
        warm, cool = chance.uniform(20.0, 60.0), chance.uniform(5.0, 20.0)
        volume, seconds = chance.uniform(200.0, 12000.0), chance.uniform(60.0, 1800.0)
        density = PropsSI("D", "P", gauge * 1e5 + AIR, "T", warm + 273.15, "Air")
        tight = (PropsSI("P", "D", density, "T", cool + 273.15, "Air") - AIR) / 1e5
        check(cooled_pressure(gauge, warm, cool), tight, GAS, within=0.02, unit="bar")
        left = PropsSI("D", "P", (tight - fall) * 1e5 + AIR, "T", cool + 273.15, "Air")
        free = PropsSI("D", "P", AIR, "T", cool + 273.15, "Air")
        found = air_leak(volume, gauge, tight - fall, seconds, warm, cool)
        lost = (density - left) / free * volume / seconds
        check(found, lost, GAS, within=0.02 * volume / seconds, unit="ml/s")
