"""Heating and cooling against an ODE solver (scipy) that is given the same masses, and against worked figures."""

from __future__ import annotations

from dataclasses import replace

import pytest
from CoolProp.CoolProp import PropsSI
from scipy.integrate import solve_ivp

from expert.machine import PLATES, Build, Machine, Plug, Switch, Wait, do, fault, sound_machine, with_faults
from expert.machine.faults.change import with_path
from expert.machine.running.advance import advance

ZERO = 273.15


def _cp(temperature: float) -> float:
    return float(PropsSI("C", "T", temperature + ZERO, "Q", 0, "IF97::Water")) / 1000


def _ode(machine: Machine, watts: float, seconds: float) -> tuple[float, float]:
    """Boiler and exchanger temperature by scipy: two bodies, one heater, one loss. CoolProp's cp, copper 0.384."""
    water, metal = machine.state.boiler_water, machine.parts.water.boiler.metal
    loss, room = machine.parts.water.boiler.loss, machine.build.room

    def slope(_: float, y: list[float]) -> list[float]:
        between = 0.020 * (y[0] - y[1])
        boiler = (watts / 1000 - loss * (y[0] - room) / 1000 - between) / (water * _cp(y[0]) + metal * 0.384)
        return [boiler, between / (machine.parts.water.exchanger.litres * 4.19)]

    start = [machine.state.boiler, machine.state.exchanger]
    found = solve_ivp(slope, (0.0, seconds), start, rtol=1e-8, atol=1e-8)
    return float(found.y[0][-1]), float(found.y[1][-1])


def _wet(machine: Machine) -> Machine:
    """The board kept from filling, so that the masses stay."""
    return with_path(machine, "parts.mains.board.probe_input", "always wet")


@pytest.mark.parametrize("plate", PLATES)
@pytest.mark.parametrize("seconds", [60.0, 200.0, 380.0])
def test_heat_up_follows_the_ode(plate: str, seconds: float) -> None:
    machine = _wet(sound_machine(Build(PLATES[plate]), 2))
    mains = machine.build.mains_volts
    hot = 1 / (2 / (machine.parts.mains.element.winding_1 * machine.parts.mains.element.hot_factor))
    # In a row: supply 0.5, plug 0.002, cores 0.053, eight joints 0.08, fuse 0.02, switch 0.04, limits 0.06, relay 0.01.
    watts = (mains * hot / (hot + 0.765)) ** 2 / hot
    after = do(do(do(machine, Plug()), Switch()), Wait(seconds))
    boiler, exchanger = _ode(machine, watts, after.state.clock)
    rise = boiler - machine.state.boiler
    assert after.state.boiler - machine.state.boiler == pytest.approx(rise, rel=0.012)
    assert after.state.exchanger == pytest.approx(exchanger, abs=1.0)


def test_cooling_follows_the_ode() -> None:
    machine = with_faults(Build(), [fault("vacuum valve", "stuck closed")], 2)
    # Without air in it: with its air shut in, the boiler would stand above 2 bar and its safety valve would lift.
    hot = replace(machine.state, boiler=120.0, exchanger=120.0, sheath=120.0, sensed=120.0, boiler_air=0.0)
    machine = replace(machine, state=hot)
    boiler, exchanger = _ode(machine, 0.0, 3600.0)
    after = advance(machine, 3600.0)
    assert after.state.boiler == pytest.approx(boiler, abs=1.0)
    assert after.state.exchanger == pytest.approx(exchanger, abs=1.0)


def test_eleven_litres_take_the_time_worked_elsewhere() -> None:
    """11 L from 20 to 122 degC with 3500 W and no loss: 1343.6 s by IF97 enthalpies (reference library)."""
    machine = _wet(sound_machine(Build(), 1))
    water = replace(
        machine.parts.water,
        boiler=replace(machine.parts.water.boiler, litres=14.0, metal=0.0, loss=0.0),
        exchanger=replace(machine.parts.water.exchanger, litres=1e-9),
        vacuum_valve=replace(machine.parts.water.vacuum_valve, state="stuck closed"),
    )
    machine = replace(machine, parts=replace(machine.parts, water=water))
    # The program of the controller does not reach 122 degC; the water is heated by a controller stuck on.
    machine = with_path(machine, "parts.mains.controller.output", "stuck on")
    machine = replace(machine, state=replace(machine.state, boiler_water=11.0 * 0.9982, boiler_air=0.0))
    ohms = 230.0**2 / 3500.0
    machine = with_path(machine, "parts.mains.element.winding_1", 2 * ohms)
    machine = with_path(machine, "parts.mains.element.winding_2", 2 * ohms)
    reached = do(do(machine, Plug()), Switch())
    start = reached.state.clock
    reached = advance(reached, 3000.0, lambda now, _: now.state.boiler >= 122.0)
    heat = reached.state.ledger.heat_in
    assert heat / 3.5 == pytest.approx(1343.6, rel=0.01)
    assert reached.state.clock - start > 1343.6  # the supply's impedance takes its share


def test_half_a_heater_heats_half_as_fast() -> None:
    both = do(do(do(_wet(sound_machine(Build(), 2)), Plug()), Switch()), Wait(200.0))
    one = _wet(with_faults(Build(), [fault("element", "one of two windings open")], 2))
    one = do(do(do(one, Plug()), Switch()), Wait(200.0))
    assert (one.state.boiler - 20.0) / (both.state.boiler - 20.0) == pytest.approx(0.5, abs=0.02)


def test_the_group_follows_its_time_constant() -> None:
    """One time constant brings 63.2 % of the way (any textbook of control)."""
    machine = replace(sound_machine(Build(), 2))
    machine = replace(machine, state=replace(machine.state, boiler=120.0, exchanger=120.0, boiler_air=0.0))
    machine = with_path(machine, "parts.water.boiler.loss", 0.0)
    after = advance(machine, 650.0)
    target = 20.0 + 0.73 * (after.state.boiler - 20.0)
    assert (after.state.group - 20.0) / (target - 20.0) == pytest.approx(0.632, abs=0.02)
