"""Boiler pressure, trapped air and steam through holes against CoolProp and textbook formulas."""

from __future__ import annotations

import math

import pytest
from CoolProp.CoolProp import PropsSI

from expert.machine import (
    Build,
    HeatUp,
    Plug,
    PressureOn,
    TemperatureOf,
    do,
    fault,
    observe,
    sound_machine,
    with_faults,
)
from expert.machine.bench.actions import Covers, Settings
from expert.machine.heat.properties import stored_heat, temperature_of, vapour_heat, water_density, water_heat
from expert.machine.heat.steam import boiler_space, steam_flow
from expert.machine.running.instant import space_of

ZERO = 273.15


@pytest.mark.parametrize("temperature", [20.0, 60.5, 99.97, 110.0, 121.3, 133.7, 150.0])
def test_properties_are_those_of_the_steam_tables(temperature: float) -> None:
    kelvin = temperature + ZERO
    assert water_heat(temperature) == pytest.approx(
        PropsSI("H", "T", kelvin, "Q", 0, "IF97::Water") / 1000, rel=2e-3, abs=0.2
    )
    assert vapour_heat(temperature) == pytest.approx(PropsSI("H", "T", kelvin, "Q", 1, "IF97::Water") / 1000, rel=1e-4)
    assert water_density(temperature) == pytest.approx(
        PropsSI("D", "T", kelvin, "Q", 0, "IF97::Water") / 1000, rel=1e-4
    )


@pytest.mark.parametrize("altitude", [0.0, 1000.0, 2200.0])
@pytest.mark.parametrize("temperature", [105.0, 121.0, 130.0])
def test_a_boiler_without_air_stands_on_the_steam_curve(temperature: float, altitude: float) -> None:
    """Steam tables, and the standard atmosphere p = 101325 (1 - 2.25577e-5 h)^5.25588 (ISO 2533)."""
    air = 1.01325 * (1 - 2.25577e-5 * altitude) ** 5.25588
    expected = PropsSI("P", "T", temperature + ZERO, "Q", 0, "IF97::Water") / 1e5 - air
    assert boiler_space(temperature, 1.1, 0.0, 1.9, air).gauge == pytest.approx(expected, abs=1e-4)


@pytest.mark.parametrize(("gauge", "temperature"), [(0.8, 84.9), (1.0, 91.8), (1.2, 97.6)])
def test_air_shut_in_at_20_degrees(gauge: float, temperature: float) -> None:
    """Dalton with a fixed headspace shut at 20 degC: 0.8 / 1.0 / 1.2 bar gauge at only 84.9 / 91.8 / 97.6 degC, within
    0.5 K (steam tables and Charles's law, worked outside this program; moisture of the air left out)."""
    space = 0.7
    air_inside = 1.01325 * space / 293.15
    dry = boiler_space(temperature, 1.2 * water_density(temperature), air_inside, 1.2 + space, 1.01325)
    assert dry.gauge == pytest.approx(gauge, abs=0.02)


def test_the_sealed_boiler_stands_under_vacuum_when_cold() -> None:
    """Cooled to 20 degC without air: -0.99 bar gauge (steam tables)."""
    assert boiler_space(20.0, 1.1, 0.0, 1.9, 1.01325).gauge == pytest.approx(-0.99, abs=0.005)


@pytest.mark.parametrize("gauge", [1.0, 1.5, 2.0])
def test_choked_steam_through_a_hole_by_napier(gauge: float) -> None:
    """Napier's formula for choked saturated steam, W [lb/s] = p A / 70 in psia and square inches (R. D. Napier, 1866;
    Marks' Standard Handbook), within 5 %, times the hole's coefficient 0.8."""
    diameter = 2.0
    temperature = PropsSI("T", "P", (gauge + 1.01325) * 1e5, "Q", 1, "IF97::Water") - ZERO
    psia, square_inches = (gauge + 1.01325) * 14.5038, math.pi / 4 * (diameter / 25.4) ** 2
    expected = 0.8 * psia * square_inches / 70 * 0.45359
    assert steam_flow(gauge, 1.01325, temperature, diameter) == pytest.approx(expected, rel=0.05)


def test_no_steam_without_pressure() -> None:
    assert steam_flow(0.0, 1.01325, 100.0, 2.0) == 0.0
    assert steam_flow(-0.2, 1.01325, 90.0, 2.0) == 0.0


@pytest.mark.parametrize("temperature", [20.0, 88.8, 131.0])
def test_temperature_and_heat_are_inverse(temperature: float) -> None:
    held = stored_heat(temperature, 1.1, 3.2)
    assert temperature_of(held, 1.1, 3.2, 60.0) == pytest.approx(temperature, abs=1e-4)


@pytest.mark.parametrize("altitude", [0.0, 2200.0])
def test_a_hot_sound_machine_agrees_with_the_steam_table(altitude: float) -> None:
    """Gauge and wall together, through the whole machine."""
    machine = do(do(do(sound_machine(Build(altitude=altitude), 4), Covers()), Plug()), HeatUp(25.0))
    air = 1.01325 * (1 - 2.25577e-5 * altitude) ** 5.25588
    expected = PropsSI("P", "T", machine.state.boiler + ZERO, "Q", 0, "IF97::Water") / 1e5 - air
    assert space_of(machine).gauge == pytest.approx(expected, abs=2e-3)
    _, gauge = observe(machine, PressureOn("second gauge on boiler"))
    _, wall = observe(machine, TemperatureOf("boiler wall"))
    assert abs(gauge.value - expected) <= gauge.uncertainty + 0.003  # type: ignore[union-attr]
    assert abs(wall.value - machine.state.boiler) <= wall.uncertainty  # type: ignore[union-attr]


def test_a_vacuum_valve_stuck_closed_gives_pressure_too_high_for_the_temperature() -> None:
    machine = with_faults(Build(), [fault("vacuum valve", "stuck closed")], 4)
    machine = do(do(do(machine, Settings(set_point=100.0)), Plug()), HeatUp(25.0))
    steam_alone = PropsSI("P", "T", machine.state.boiler + ZERO, "Q", 0, "IF97::Water") / 1e5 - 1.01325
    assert space_of(machine).gauge > steam_alone + 0.8
