"""How long a step may be: to the next event that can be foreseen, and short where things change fast."""

from __future__ import annotations

import math

from expert.machine.control.board import seconds_to_change
from expert.machine.heat.properties import COPPER_HEAT
from expert.machine.running.instant import TANK_DRY, TANK_LOW, Instant, wall_at_limits
from expert.machine.running.machine import Machine
from expert.machine.running.outflow import Outflow

_COLD, _COOLING, _HEATING, _PUMPING, _STEAMING = 1800.0, 120.0, 20.0, 10.0, 2.0
_LEAST = 0.25
_ONWARD = 1.02  # a step goes a little past the event, so that it has happened at its end


def longest_step(machine: Machine, now: Instant, out: Outflow) -> float:
    """The longest step [s] that neither jumps over an event nor loses the shape of what happens."""
    times = [_general(machine, now, out)]
    times.append(seconds_to_change(machine.parts.mains.board, now.inputs, machine.state.board))
    times += _to_levels(machine, now)
    times += _to_temperatures(machine, now)
    return max(min(times), _LEAST)


def _general(machine: Machine, now: Instant, out: Outflow) -> float:
    state = machine.state
    if out.steam > 2e-4 or out.water_tap > 1e-3 or now.space.gauge > machine.parts.water.safety_valve.lifts_at - 0.05:
        return _STEAMING
    bare = now.space.water < machine.parts.water.boiler.element_top
    if bare and now.supply.element_watts > 0.0:
        return 4.0
    if now.supply.pump > 0.0:
        return 8.0 if not state.primed else _PUMPING
    if now.supply.element_watts > 0.0:
        return 5.0 if 95.0 < state.boiler < 106.0 else _HEATING
    if max(state.boiler, state.group, state.pump_coil) < machine.build.room + 4.0:
        return _COLD
    return _HEATING if abs(state.sheath - state.boiler) > 10.0 or abs(state.sensed - state.boiler) > 2.0 else _COOLING


def _to_levels(machine: Machine, now: Instant) -> list[float]:
    """Times until boiler water reaches probe or brim, and the tank its float or its bottom."""
    boiler, state = machine.parts.water.boiler, machine.state
    times = []
    rate = (now.flows.fill + max(now.flows.pinhole, 0.0)) / 1000
    if rate > 0.0:
        for mark in (boiler.probe_tip, boiler.litres - 0.02):
            if now.space.water < mark:
                times.append((mark - now.space.water) / rate * _ONWARD + 0.05)
    drawn = (now.flows.pump - now.flows.returned) / 1000
    if drawn > 0.0 and "tank" not in machine.bench.bypassed:
        for mark in (TANK_LOW, TANK_DRY):
            if state.tank > mark:
                times.append((state.tank - mark) / drawn * _ONWARD + 0.05)
    return times


def _to_temperatures(machine: Machine, now: Instant) -> list[float]:
    """Times until the controller switches, a limit or the pump's limiter opens, at the present rates."""
    state, mains, boiler = machine.state, machine.parts.mains, machine.parts.water.boiler
    kelvins = max(state.boiler_water * 4.2 + boiler.metal * COPPER_HEAT, 0.5)
    loss = boiler.loss * (state.boiler - machine.build.room) / 1000
    rate = (now.supply.element_watts / 1000 - loss) / kelvins
    times = []
    shown = now.display.temperature
    if shown is not None and abs(rate) > 1e-6 and mains.controller.output == "works":
        target = mains.controller.set_point - (0.0 if state.calls_heat else 1.0)
        ahead = (target - shown) / rate
        if ahead > 0.0:
            times.append(max(ahead, 1.0) * _ONWARD)
    if rate > 0.0:
        for limit in (mains.limit_1, mains.limit_2):
            gap = limit.opens_at - wall_at_limits(machine)
            if gap > 0.0:
                times.append(max(gap / rate, 1.0) * _ONWARD)
    if now.supply.pump > 0.0:
        gap = machine.parts.water.pump.limiter_opens_at - state.pump_coil
        times.append(max(gap / 0.45, 1.0) if gap > 0.0 else math.inf)
    return times
