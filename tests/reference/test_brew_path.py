"""Thermosyphon, coffee bed, viscosity of water, against fluids and CoolProp; the pump's model against its own law."""

from __future__ import annotations

import math
import random

import pytest
from CoolProp.CoolProp import PropsSI
from fluids.friction import friction_factor
from fluids.packed_bed import Carman
from scipy.optimize import brentq

from expert.trade.physics.brew_path import puck_flow, vibration_pump_flow, water_viscosity
from expert.trade.physics.flow import orifice_flow
from expert.trade.physics.thermosyphon import thermosyphon_flow

from .conftest import Check
from .sources import independent, restated

KIND = "brew path"
COOLPROP = independent("CoolProp, viscosity of water (IAPWS 2008)")
RELEASE = independent("check value of IAPWS SR6-08(2011), table 3")
LOOP = independent("fluids (pipe friction) and CoolProp (density, viscosity), solved by scipy")
BED = independent("fluids, Carman's correlation for packed beds, and CoolProp")
MODEL = restated("the straight line's ends, by hand; common practice, no source")


def of_water(what: str, celsius: float) -> float:
    pressure = 101325.0 if celsius < 99 else 2.5e5
    return float(PropsSI(what, "T", celsius + 273.15, "P", pressure, "Water"))


def test_viscosity(check: Check) -> None:
    check(water_viscosity(298.15 - 273.15), 0.889996773679, RELEASE, within=1e-12, unit="mPa s")
    for celsius in range(5, 111, 5):
        check(water_viscosity(celsius), of_water("V", celsius) * 1000, COOLPROP, relative=3e-4, unit="mPa s")


def loop_by_library(hot: float, cold: float, height: float, bore: float, length: float, fittings: float) -> float:
    drive = (of_water("D", cold) - of_water("D", hot)) * 9.80665 * height
    density, viscosity, width = of_water("D", (hot + cold) / 2), of_water("V", (hot + cold) / 2), bore / 1000

    def unbalanced(speed: float) -> float:
        factor = friction_factor(density * speed * width / viscosity)
        return float((factor * length / width + fittings) * density * speed**2 / 2 - drive)

    return float(brentq(unbalanced, 1e-7, 5.0)) * math.pi / 4 * bore**2


def test_thermosyphon(check: Check) -> None:
    chance = random.Random(1823)
    for _ in range(60):
        cold = chance.uniform(50.0, 90.0)
        at = (cold + chance.uniform(2.0, 8.0), cold, chance.uniform(0.1, 0.5))
        pipe = (chance.uniform(4.0, 10.0), chance.uniform(0.6, 2.5), chance.uniform(5.0, 60.0))
        check(thermosyphon_flow(*at, *pipe), loop_by_library(*at, *pipe), LOOP, relative=0.001, unit="ml/s")


def test_thermosyphon_in_wide_pipes(check: Check) -> None:
    """Well beyond Re 2300: Blasius is within a few per cent of the library's friction factor for smooth pipes."""
    chance = random.Random(1913)
    for _ in range(25):
        cold = chance.uniform(50.0, 70.0)
        at = (cold + chance.uniform(15.0, 25.0), cold, chance.uniform(0.5, 1.5))
        pipe = (chance.uniform(18.0, 40.0), chance.uniform(3.0, 8.0), chance.uniform(0.5, 3.0))
        flow = loop_by_library(*at, *pipe)
        middle = (at[0] + at[1]) / 2
        assert 4 * flow * 1e-6 * of_water("D", middle) / (math.pi * pipe[0] / 1000 * of_water("V", middle)) > 4000
        check(thermosyphon_flow(*at, *pipe), flow, LOOP, relative=0.03, unit="ml/s, turbulent")


def test_halving_the_bore_leaves_a_sixteenth_where_friction_rules() -> None:
    wide, narrow = (thermosyphon_flow(92.0, 88.0, 0.3, bore, 2.0, 0.0) for bore in (4.0, 2.0))
    assert narrow / wide == pytest.approx(1 / 16, rel=1e-6)


def test_coffee_bed(check: Check) -> None:
    chance = random.Random(1937)
    for _ in range(60):
        bar, basket, depth = chance.uniform(1.0, 10.0), chance.uniform(49.0, 60.0), chance.uniform(8.0, 20.0)
        grain, voids, celsius = chance.uniform(0.01, 0.025), chance.uniform(8.0, 16.0), chance.uniform(80.0, 96.0)
        viscosity, density = of_water("V", celsius), of_water("D", celsius)

        def short(
            speed: float,
            at: tuple[float, ...] = (bar, depth, grain, voids, viscosity, density),
        ) -> float:
            pressure, long, width, share, thick, heavy = at
            return float(Carman(width / 1000, share / 100, speed, heavy, thick, long / 1000)) - pressure * 1e5

        flow = float(brentq(short, 1e-9, 1.0)) * math.pi / 4 * basket**2
        # Carman's own fit keeps a small turbulent term, which the bench's equation leaves out.
        check(puck_flow(bar, basket, depth, grain, voids, celsius), flow, BED, relative=0.01, unit="ml/s")


def test_orifice_as_a_loss_of_pressure(check: Check) -> None:
    """A hole of discharge coefficient Cd loses what fittings with K = 1 / Cd^2 lose, by fluids."""
    from fluids.core import dP_from_K

    for step in range(2, 30):
        bore = step / 10
        flow = orifice_flow(9.0, bore)
        lost = dP_from_K(1 / 0.62**2, 998.2, flow / (math.pi / 4 * bore**2)) / 1e5
        check(lost, 9.0, restated("fluids on the same equation"), within=1e-9, unit=f"bar, {bore} mm")


PUMP = [  # bar, V, Hz: ml/s of a pump of 10 ml/s free and 15 bar shut, 230 V 50 Hz
    (0.0, 230.0, 50.0, 10.0),
    (15.0, 230.0, 50.0, 0.0),
    (9.0, 230.0, 50.0, 4.0),
    (9.0, 207.0, 50.0, 2.592592592592593),
    (0.0, 230.0, 60.0, 12.0),
    (12.0, 230.0, 60.0, 0.0),
]


@pytest.mark.parametrize(("bar", "volts", "hertz", "flow"), PUMP)
def test_vibration_pump(bar: float, volts: float, hertz: float, flow: float, check: Check) -> None:
    check(vibration_pump_flow(bar, 10.0, 15.0, volts, 230.0, hertz), flow, MODEL, within=1e-9, unit="ml/s")
