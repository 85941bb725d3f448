"""One step of heat and water in boiler, sheath, sensor, group: energy and mass are booked, temperatures follow."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import Any

from expert.machine.heat.properties import (
    COPPER_HEAT,
    ZERO_CELSIUS,
    air_pressure,
    saturation_pressure,
    stored_heat,
    temperature_of,
    vapour_heat,
    water_heat,
)
from expert.machine.heat.steam import air_shut_in, boiler_space
from expert.machine.running.instant import Instant, vented
from expert.machine.running.machine import Machine
from expert.machine.running.outflow import Outflow
from expert.machine.running.state import State

_EXCHANGE = 0.020  # kW/K from boiler water to the exchanger's (common practice, no source)
_SHEATH_SECONDS, _SENSOR_SECONDS, _GROUP_SECONDS = 25.0, 8.0, 650.0
_WATER_HEAT = 4.19  # kJ/(kg K) at 20 degC
_LEAST_WATER = 0.005
_WATER_MOLE, _AIR_MOLE = 18.015, 28.96  # g/mol
VACUUM_OPENS = -0.02  # bar gauge: the pin of the vacuum valve falls (common practice, no source)
_CREEPS_IN = 8 * 3600.0  # s: air through seals into a boiler under vacuum (common practice, no source)


@dataclass(frozen=True, slots=True)
class Booking:
    """What crossed the border in one step: heat [kJ], water [kg]; the exchanger's temperature after it [degC]; and
    salts that came in [uS/cm kg]."""

    heat_in: float
    lost: float
    fed: float
    fed_heat: float
    steam: float
    steam_heat: float
    drawn: float
    drawn_heat: float
    exchanger: float
    salts: float


def boiler_capacity(machine: Machine) -> float:
    """Heat capacity of boiler water and wall [kJ/K]."""
    return machine.state.boiler_water * _WATER_HEAT + machine.parts.water.boiler.metal * COPPER_HEAT


def exchanged(machine: Machine, flow: float, gain: float, seconds: float) -> tuple[float, float]:
    """Heat from the boiler to the exchanger's water in a step [kJ], and that water's temperature after it [degC].

    gain: what else heats the boiler, less what cools it [kW]. One stirred volume in a bath, UA (T_boiler - T) against
    m c (T - T_room) of fresh water at a flow [ml/s] (textbooks of heat transfer). Standing, the difference of the two
    bodies follows dD/dt = gain / C - D / tau, solved exactly; running, the boiler stays at its temperature meanwhile.
    """
    room, state = machine.build.room, machine.state
    own = machine.parts.water.exchanger.litres * _WATER_HEAT
    if flow <= 0.0:
        boiler = boiler_capacity(machine)
        constant = boiler * own / (boiler + own) / _EXCHANGE
        lasting = gain / boiler * constant
        passing = (state.boiler - state.exchanger - lasting) * constant * (1 - math.exp(-seconds / constant))
        heat = _EXCHANGE * (lasting * seconds + passing)
        return heat, state.exchanger + heat / own
    stream = flow / 1000 * _WATER_HEAT
    settles = (_EXCHANGE * state.boiler + stream * room) / (_EXCHANGE + stream)
    after = lag(state.exchanger, settles, seconds, own / (_EXCHANGE + stream))
    # The mean over the step follows from the volume's balance: what it gained and what the stream carried off.
    mean = settles + (state.exchanger - after) * own / ((_EXCHANGE + stream) * seconds)
    return _EXCHANGE * (state.boiler - mean) * seconds, after


def brew_flow(now: Instant) -> float:
    """Fresh water through the exchanger now [ml/s]."""
    return max(now.flows.brew, now.flows.drip)


def book(machine: Machine, now: Instant, out: Outflow, seconds: float) -> Booking:
    """Heat and water that cross the boiler's border in a step, at the rates of its start."""
    state, room = machine.state, machine.build.room
    heat_in, conductance = now.supply.element_watts / 1000 * seconds, machine.parts.water.boiler.loss / 1000
    to_room = conductance * (state.boiler - room) * seconds
    to_exchanger, exchanger = exchanged(machine, brew_flow(now), (heat_in - to_room) / seconds, seconds)
    # Loss at the step's mean temperature, not its first.
    risen = (heat_in - to_room - to_exchanger) / boiler_capacity(machine)
    to_room += conductance * risen / 2 * seconds
    lost = to_room + to_exchanger
    cold, warm = now.flows.fill / 1000 * seconds, max(now.flows.pinhole, 0.0) / 1000 * seconds
    fed_heat = cold * water_heat(room) + warm * water_heat((room + state.boiler) / 2)
    drawn = out.water_tap * seconds
    if now.space.full:
        drawn += cold + warm  # what is pumped into a full boiler pushes as much out
    steam = min(out.steam * vapour_share(machine, now) * seconds, max(state.boiler_water - _LEAST_WATER, 0.0) / 2)
    return Booking(
        heat_in=heat_in,
        lost=lost,
        fed=cold + warm,
        fed_heat=fed_heat,
        steam=steam,
        steam_heat=steam * vapour_heat(state.boiler),
        drawn=drawn,
        drawn_heat=drawn * water_heat(state.boiler),
        exchanger=exchanger,
        salts=(cold + warm) * machine.build.conductivity,
    )


def vapour_share(machine: Machine, now: Instant) -> float:
    """Vapour's share of the mass that leaves the steam space, 0 to 1: shut-in air takes no heat along.

    By partial pressures and molar masses (Dalton): nearly nothing in a cold boiler whose air was pumped together.
    """
    vapour = saturation_pressure(machine.state.boiler)
    other = max(now.space.gauge + air_pressure(machine.build.altitude) - vapour, 0.0)
    return vapour * _WATER_MOLE / (vapour * _WATER_MOLE + other * _AIR_MOLE)


def heated(machine: Machine, now: Instant, out: Outflow, seconds: float) -> State:
    """State after a step: boiler, sheath, sensor, group, air and vacuum valve, ledger."""
    state, boiler = machine.state, machine.parts.water.boiler
    b = book(machine, now, out, seconds)
    water = max(state.boiler_water + b.fed - b.steam - b.drawn, _LEAST_WATER)
    held = stored_heat(state.boiler, state.boiler_water, boiler.metal)
    held += b.heat_in - b.lost + b.fed_heat - b.steam_heat - b.drawn_heat
    temperature = temperature_of(held, water, boiler.metal, state.boiler)
    ledger = replace(
        state.ledger,
        heat_in=state.ledger.heat_in + b.heat_in,
        heat_lost=state.ledger.heat_lost + b.lost,
        heat_fed=state.ledger.heat_fed + b.fed_heat,
        heat_out=state.ledger.heat_out + b.steam_heat + b.drawn_heat,
        water_in=state.ledger.water_in + b.fed,
        water_out=state.ledger.water_out + b.drawn,
        steam_out=state.ledger.steam_out + b.steam,
    )
    return replace(
        state,
        boiler=temperature,
        boiler_water=water,
        salts=max(state.salts * (1 - b.drawn / state.boiler_water), 0.0) + b.salts,
        sheath=_sheath(machine, now, temperature, seconds),
        sensed=lag(state.sensed, _sensor_target(machine, temperature), seconds, _SENSOR_SECONDS),
        group=lag(state.group, group_target(machine, temperature, now), seconds, _GROUP_SECONDS),
        exchanger=b.exchanger,
        ledger=ledger,
        **_air(machine, now, out, temperature, water, seconds),
    )


def group_target(machine: Machine, boiler: float, now: Instant) -> float:
    """Temperature the group settles at: 0.40 of the way from room to boiler by conduction, the rest by circulation
    (common practice, no source: 0.73 with the right restrictor gives 93 degC at 1.1 bar)."""
    loop, room = machine.parts.water.loop, machine.build.room
    circulates = 0.0 if machine.state.loop_air else loop.circulation
    share = 0.40 + 0.33 * float(circulates**0.6)
    return room + min(share, 0.9) * (boiler - room)


def _sheath(machine: Machine, now: Instant, boiler: float, seconds: float) -> float:
    """The element's sheath: 10 K above the water it stands in, hundreds above it where the water has gone."""
    element, top = machine.parts.mains.element, machine.parts.water.boiler.element_top
    bare = min(max(1 - now.space.water / top, 0.0), 1.0)
    load = now.supply.element_watts / machine.build.plate.element_watts
    target = boiler + load * (10.0 + element.lime_kelvin + 700.0 * bare)
    return lag(machine.state.sheath, target, seconds, _SHEATH_SECONDS)


def _sensor_target(machine: Machine, boiler: float) -> float:
    contact = machine.parts.mains.sensor.contact
    if "sensor" in machine.bench.removed:
        contact = 0.0
    return contact * boiler + (1 - contact) * machine.build.room


def _air(machine: Machine, now: Instant, out: Outflow, boiler: float, water: float, seconds: float) -> dict[str, Any]:
    """Air in the steam space, and whether the vacuum valve has shut."""
    state, valve = machine.state, machine.parts.water.vacuum_valve
    air = air_pressure(machine.build.altitude)
    space = boiler_space(boiler, water, 0.0, machine.parts.water.boiler.litres, air).space
    if vented(machine):
        # Open to the outside: as much air stays as stands at the outside pressure with the vapour.
        inside = air_shut_in(boiler, space, air)
        if now.space.gauge > 0.0:
            inside = min(inside, state.boiler_air)
    else:
        inside = state.boiler_air
        if out.steam > 0.0 and inside > 0.0:
            density = 0.6 * (now.space.gauge + air)  # g/l of steam and air, near enough for a share
            left = inside * math.exp(-out.steam * 1000 / density * seconds / space)
            # The safety valve shuts again 0.1 bar lower, long before a step ends: no more air leaves than that takes.
            reseats = machine.parts.water.safety_valve.lifts_at - 0.1 + air - saturation_pressure(boiler)
            kept = max(reseats, 0.0) * space / (boiler + ZERO_CELSIUS) if out.lifted else 0.0
            inside = max(left, min(inside, kept))
        elif now.space.gauge < 0.0:
            inside = lag(inside, air_shut_in(boiler, space, air), seconds, _CREEPS_IN)
    shut = state.vacuum_shut
    if valve.state == "works":
        shut = now.space.gauge >= valve.shuts_at if not shut else now.space.gauge > VACUUM_OPENS
    return {"boiler_air": max(inside, 0.0), "vacuum_shut": shut}


def lag(value: float, target: float, seconds: float, constant: float) -> float:
    """A value on its way to a target with a time constant: exact for a target that stands still."""
    return target + (value - target) * math.exp(-seconds / constant)
