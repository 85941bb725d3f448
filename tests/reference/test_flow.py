"""Flow, pump output, restrictors, duty and expansion, against exact arithmetic, pint and IF97."""

from __future__ import annotations

import random

import numpy as np
import pint
import pytest
from fluids.flow_meter import flow_meter_discharge
from scipy.integrate import simpson

from expert.trade.physics.flow import duty, expansion, flow_rate, hydraulic_power, orifice_flow, pulses_volume

from .conftest import Check
from .oracles import if97_liquid, if97_pressure
from .sources import independent, restated

KIND = "flow"
EXACT = restated("definition, by hand")
PINT = restated("pint on the same equation")
COOLPROP = independent("CoolProp, IF97 densities")
METER = independent("fluids, discharge through an orifice plate, and CoolProp, density")
STROKES = independent("scipy, pressure over volume integrated stroke by stroke")
FORMULA = restated("orifice formula, by hand")


@pytest.mark.parametrize(
    ("volume", "time", "flow", "per_minute"), [(25, 25, 1.00, 60), (30, 25, 1.20, 72), (60, 27, 2.22, 133)]
)
def test_flow(volume: float, time: float, flow: float, per_minute: float, check: Check) -> None:
    check(flow_rate(volume, time), flow, EXACT, within=0.005, unit="ml/s")
    check(flow_rate(volume, time) * 60, per_minute, EXACT, within=0.5, unit="ml/min")


@pytest.mark.parametrize(("flow", "watts"), [(1.0, 0.90), (2.0, 1.80), (200 / 3.6, 50.0)], ids=["1", "2", "200 L/h"])
def test_hydraulic_power_at_nine_bar(flow: float, watts: float, check: Check) -> None:
    check(hydraulic_power(9.0, flow), watts, EXACT, within=1e-9, unit="W")


@pytest.mark.parametrize(("diameter", "flow"), [(0.5, 5.2), (0.6, 7.4), (0.7, 10.1), (0.8, 13.2)])
def test_orifice_at_nine_bar(diameter: float, flow: float, check: Check) -> None:
    check(orifice_flow(9.0, diameter), flow, FORMULA, within=0.1, unit="ml/s")


@pytest.mark.parametrize(("end", "percent"), [(93, 3.6), (120, 5.8)])
def test_expansion_from_20_degrees(end: float, percent: float, check: Check) -> None:
    check(expansion(20.0, end), percent, COOLPROP, within=0.1, unit="%")


@pytest.mark.parametrize(("on", "off", "percent"), [(60, 60, 50.0), (120, 60, 66.7)])
def test_duty(on: float, off: float, percent: float, check: Check) -> None:
    check(duty(on, off), percent, EXACT, within=0.05, unit="%")


def test_flow_meter(check: Check) -> None:
    check(pulses_volume(200.0, 200.0), 100.0, EXACT, within=1e-9, unit="ml")


def test_against_pint(check: Check) -> None:
    units = pint.UnitRegistry()
    chance = random.Random(9)
    for _ in range(100):
        bar, flow = chance.uniform(0.1, 16.0), chance.uniform(0.1, 60.0)
        watts = (bar * units.bar * flow * units.mL / units.s).to("W").magnitude
        check(hydraulic_power(bar, flow), watts, PINT, relative=1e-12, unit="W")
        diameter = chance.uniform(0.2, 3.0)
        speed = (2 * bar * units.bar / (998.2 * units.kg / units.m**3)) ** 0.5
        area = 3.141592653589793 / 4 * (diameter * units.mm) ** 2
        library = (0.62 * area * speed).to("mL/s").magnitude
        check(orifice_flow(bar, diameter), library, PINT, relative=1e-12, unit="ml/s")


def test_expansion_against_coolprop(check: Check) -> None:
    chance = random.Random(10)
    for _ in range(100):
        start, end = chance.uniform(5, 60), chance.uniform(60, 190)
        hot = max(1.01325, if97_pressure(end) * (1 + 1e-9))
        cold_density, hot_density = if97_liquid("D", start, 1.01325), if97_liquid("D", end, hot)
        library = (cold_density / hot_density - 1) * 100
        check(expansion(start, end), library, COOLPROP, within=1e-6, unit="%")


def test_wider_holes_and_more_pressure_pass_more() -> None:
    by_hole = [orifice_flow(9.0, step / 100) for step in range(10, 200)]
    by_pressure = [orifice_flow(step / 10, 0.6) for step in range(1, 160)]
    assert by_hole == sorted(by_hole)
    assert by_pressure == sorted(by_pressure)


def test_orifice_against_a_library(check: Check) -> None:
    """A plate in a pipe a hundred times as wide: the speed before the hole counts for nothing."""
    chance = random.Random(5167)
    density = if97_liquid("D", 20.0, 10.0)
    for _ in range(30):
        bar, bore, coefficient = chance.uniform(0.2, 15.0), chance.uniform(0.3, 3.0), chance.uniform(0.55, 0.95)
        mass = flow_meter_discharge(bore / 10, bore / 1000, bar * 1e5 + 1e5, 1e5, density, coefficient)
        check(orifice_flow(bar, bore, coefficient), mass / density * 1e6, METER, relative=1e-3, unit="ml/s")


@pytest.mark.parametrize(("bar", "strokes", "volume"), [(9.0, 50, 0.02), (3.0, 50, 0.15), (12.0, 60, 0.01)])
def test_work_of_a_piston_pump(bar: float, strokes: int, volume: float, check: Check) -> None:
    """Each stroke pushes its volume out against the pressure: the work of a second is the power in the water."""
    pushed = np.linspace(0.0, volume * 1e-6, 101)
    work = strokes * float(simpson(np.full_like(pushed, bar * 1e5), x=pushed))
    flow = strokes * volume
    check(hydraulic_power(bar, flow), work, STROKES, relative=1e-9, unit="W of a piston pump")
    check(flow_rate(60 * flow, 60.0), strokes * float(pushed[-1]) * 1e6, STROKES, relative=1e-9, unit="ml/s of strokes")


@pytest.mark.parametrize(("on", "off"), [(60.0, 60.0), (120.0, 60.0), (7.0, 45.0)])
def test_share_of_time_from_a_record(on: float, off: float, check: Check) -> None:
    """A record of ten cycles, a sample every hundredth of a second: how many samples are on."""
    samples = np.arange(0.0, 10 * (on + off), 0.01) + 0.005
    share = 100 * float(np.mean(np.mod(samples, on + off) < on))
    check(duty(on, off), share, independent("numpy, samples of a switched record counted"), within=1e-6, unit="%")
