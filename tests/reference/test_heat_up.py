"""Heating times and flow heating, against enthalpies of IF97, reference values and numerical integration."""

from __future__ import annotations

import random

import numpy as np
import pytest
from scipy.integrate import quad, solve_ivp

from expert.trade.errors import OutOfRange
from expert.trade.physics.energy_use import energy_cost, heat_up_energy, idle_energy
from expert.trade.physics.heat_up import (
    METALS,
    flow_through_most_flow,
    flow_through_power,
    flow_through_temperature,
    heat_up_time,
    heat_up_time_losing,
    heat_up_time_of,
    heat_up_time_with_metal,
    standing_loss,
    time_at_voltage,
)

from .conftest import Check
from .oracles import if97_liquid, if97_pressure, if97_temperature
from .sources import independent, restated, transcription

KIND = "heat_up"
CONSTANT = restated("constant heat capacity, by hand")
JOULE = restated("definition, by hand")
IF97 = independent("CoolProp, IF97 enthalpy")
SOLVED = independent("scipy, the heating followed by an ODE solver")
RECORD = independent("numpy, the record of a heater that cycles summed up")
METAL = transcription("Mechanical Engineer's Data Handbook 3.4.4", ours="")

CASES = [  # ml, degC, degC, W: s by constant cp (and what it is printed to), s by IF97
    (300, 20, 93, 1000, 91.5, 0.05, 91.5),
    (1800, 20, 120, 1400, 537, 1.0, 538.7),
    (11000, 20, 122, 3500, 1340, 1.0, 1343.6),
]


@pytest.mark.parametrize(("volume", "start", "end", "power", "constant", "rounded", "if97"), CASES)
def test_cases(
    volume: float, start: float, end: float, power: float, constant: float, rounded: float, if97: float, check: Check
) -> None:
    found = heat_up_time(volume, power, start, end)
    check(found, constant, CONSTANT, within=rounded, unit="s")
    check(found, if97, IF97, relative=0.01, unit="s")


def test_water_and_brass(check: Check) -> None:
    found = heat_up_time_with_metal(300.0, 1000.0, 20.0, 93.0, 2000.0, "brass")
    check(found, 147, CONSTANT, within=0.5, unit="s")


@pytest.mark.parametrize(("metal", "heat"), [("copper", 384), ("brass", 377), ("aluminium", 897), ("stainless", 500)])
def test_metals(metal: str, heat: float, check: Check) -> None:
    """One kilogram by one kelvin at one watt takes as many seconds as its heat capacity says."""
    assert metal in METALS
    with_metal = heat_up_time_with_metal(1.0, 1.0, 20.0, 21.0, 1000.0, metal)
    check(with_metal - heat_up_time(1.0, 1.0, 20.0, 21.0), heat, METAL, within=0.001, unit="J/(kg K)")


def test_with_losses(check: Check) -> None:
    check(heat_up_time_of(8000.0, 2.0, 1000.0, 20.0, 120.0, 20.0), 892.6, CONSTANT, within=0.1, unit="s")
    check(heat_up_time_of(8000.0, 0.0, 1000.0, 20.0, 120.0, 20.0), 800, CONSTANT, within=1e-9, unit="s")
    water = 8000.0 / (0.9982 * 4.186)
    check(heat_up_time_losing(water, 1000.0, 20.0, 120.0, 200.0), 892.6, CONSTANT, within=0.1, unit="s")


def test_power_below_the_loss_never_gets_there() -> None:
    with pytest.raises(OutOfRange, match=r"^power 150 W; reaching that temperature holds above 200 W$"):
        heat_up_time_of(8000.0, 2.0, 150.0, 20.0, 120.0, 20.0)


@pytest.mark.parametrize(("power", "flow", "rise"), [(1200, 4, 71.8), (1000, 3, 79.8), (1400, 4, 83.8)])
def test_rise_in_a_flow_heater(power: float, flow: float, rise: float, check: Check) -> None:
    found = flow_through_temperature(10.0, power, flow, 9.0) - 10.0
    check(found, rise, CONSTANT, within=0.2, unit="K")


def test_flow_and_power_of_a_flow_heater(check: Check) -> None:
    check(flow_through_most_flow(1200.0, 73.0), 3.93, CONSTANT, within=0.01, unit="ml/s")
    check(flow_through_power(1.5, 73.0), 458, CONSTANT, within=1, unit="W")


def test_flow_heater_never_gets_hotter_than_boiling(check: Check) -> None:
    open_outlet = flow_through_temperature(20.0, 1400.0, 3.0)
    check(open_outlet, if97_temperature(1.01325), IF97, within=1e-6, unit="K")
    under_pressure = flow_through_temperature(20.0, 1400.0, 3.0, 9.0)
    check(under_pressure, 20 + 83.8 * 4 / 3, CONSTANT, within=0.2, unit="K")


def test_low_supply(check: Check) -> None:
    check(time_at_voltage(1.0, 230.0, 207.0), 1.235, JOULE, within=0.0005)


@pytest.mark.parametrize(("rated", "actual"), [(230.0, 207.0), (230.0, 196.0), (240.0, 208.0), (120.0, 110.0)])
def test_low_supply_step_by_step(rated: float, actual: float, check: Check) -> None:
    """A resistor heats a litre; the temperature is followed by an ODE solver until it is 80 K up, on either voltage."""
    ohm, capacity = rated**2 / 1400.0, 4186.0

    def reached(volts: float) -> float:
        def arrived(_: float, rise: list[float]) -> float:
            return float(rise[0] - 80.0)

        arrived.terminal = True  # type: ignore[attr-defined]
        heated = solve_ivp(lambda t, rise: [volts**2 / ohm / capacity], (0, 5000), [0.0], events=arrived, rtol=1e-10)
        return float(heated.t_events[0][0])

    check(
        time_at_voltage(reached(rated), rated, actual),
        reached(actual),
        SOLVED,
        relative=1e-6,
        unit="s on another supply",
    )


@pytest.mark.parametrize(("watts", "on", "off"), [(1400.0, 12.0, 108.0), (1400.0, 30.0, 150.0), (3000.0, 60.0, 60.0)])
def test_energy_of_a_heater_that_cycles(watts: float, on: float, off: float, check: Check) -> None:
    """Power summed over a record of whole cycles, half a second at a time."""
    step = 0.5
    record = np.where(np.mod(np.arange(0.0, 60 * (on + off), step), on + off) < on, watts, 0.0)
    mean = float(np.mean(record))
    check(standing_loss(watts, on, off), mean, RECORD, relative=1e-9, unit="W, cycling")
    hours = 60 * (on + off)
    check(idle_energy(mean, hours), float(np.sum(record)) * step / 3.6e6, RECORD, relative=1e-9, unit="kWh, cycling")


def test_standing_loss_is_duty_times_power(check: Check) -> None:
    check(standing_loss(3000.0, 60.0, 60.0), 1500.0, JOULE, within=1e-9, unit="W")
    check(standing_loss(3000.0, 120.0, 60.0), 2000.0, JOULE, within=1e-9, unit="W")


def test_bench_range_against_if97(check: Check) -> None:
    """Any fill from 20 degC to any end up to 125 degC: constant cp stays within 1 % of the enthalpy."""
    chance = random.Random(74)
    for _ in range(150):
        volume, power, end = chance.uniform(100, 15000), chance.uniform(500, 6000), chance.uniform(40, 125)
        pressure = max(1.01325, if97_pressure(end) * 1.0001)
        heat = if97_liquid("H", end, pressure) - if97_liquid("H", 20.0, 1.01325)
        seconds = volume * 1e-6 * if97_liquid("D", 20.0, 1.01325) * heat / power
        check(heat_up_time(volume, power, 20.0, end), seconds, IF97, relative=0.01, unit="s")


def test_energy_against_if97(check: Check) -> None:
    chance = random.Random(76)
    for _ in range(40):
        volume, end = chance.uniform(100, 15000), chance.uniform(40, 125)
        heat = if97_liquid("H", end, max(1.01325, if97_pressure(end) * 1.0001)) - if97_liquid("H", 20.0, 1.01325)
        kilowatt_hours = volume * 1e-6 * if97_liquid("D", 20.0, 1.01325) * heat / 3.6e6
        check(heat_up_energy(volume, 20.0, end), kilowatt_hours, IF97, relative=0.01, unit="kWh")
    check(idle_energy(200.0, 36000.0), 2.0, JOULE, within=1e-9, unit="kWh")
    check(energy_cost(2.0, 0.35), 0.7, JOULE, within=1e-9)


def test_losses_against_integration(check: Check) -> None:
    chance = random.Random(75)
    for _ in range(60):
        capacity, loss, room = chance.uniform(1e3, 6e4), chance.uniform(0.1, 5.0), chance.uniform(10, 30)
        end = chance.uniform(80, 130)
        power = loss * (end - room) * chance.uniform(1.2, 10)
        area, _ = quad(lambda t, c=capacity, ua=loss, p=power, a=room: c / (p - ua * (t - a)), 20.0, end, epsabs=1e-9)
        found = heat_up_time_of(capacity, loss, power, 20.0, end, room)
        check(found, area, independent("scipy, numerical integration of the heat balance"), relative=1e-12, unit="s")


def test_more_of_what_slows_it_takes_longer() -> None:
    by_volume = [heat_up_time(volume, 1000.0, 20.0, 93.0) for volume in range(100, 5000, 100)]
    by_loss = [heat_up_time_losing(2000.0, 1500.0, 20.0, 120.0, float(loss)) for loss in range(0, 1400, 50)]
    by_power = [heat_up_time(1000.0, power, 20.0, 93.0) for power in range(500, 5000, 100)]
    assert by_volume == sorted(by_volume)
    assert by_loss == sorted(by_loss)
    assert by_power == sorted(by_power, reverse=True)
