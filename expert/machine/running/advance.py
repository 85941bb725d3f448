"""Running the clock: from event to event, with steps no longer than what changes meanwhile allows."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace

from expert.machine.control.board import remember
from expert.machine.mains.supply import FUSE_HOLDS, RCD_TRIPS
from expert.machine.running.heat_step import VACUUM_OPENS, heated, lag
from expert.machine.running.instant import TANK_DRY, Instant, instant, live, wall_at_limits
from expert.machine.running.machine import Machine
from expert.machine.running.outflow import Outflow, outflow
from expert.machine.running.state import State
from expert.machine.running.steps import longest_step

_PUMP_RISE, _PUMP_RISE_SHORTED, _PUMP_SECONDS = 130.0, 300.0, 300.0
_COIL_RISE, _COIL_SECONDS = 60.0, 400.0
_RELAY_RISE, _RELAY_RISE_DRY, _RELAY_SECONDS = 25.0, 80.0, 120.0
# At its 16 A a sound switch of 20 mohm a pole loses 10 W and may warm by 55 K (IEC 61058-1, from memory): 5.5 K a watt.
# Where its plastic chars it gets no hotter (common practice, no source).
_SWITCH_KELVIN_PER_WATT, _SWITCH_MOST, _SWITCH_SECONDS = 5.5, 160.0, 300.0
_LIMITER_BACK = 25.0
_DRYING_SECONDS = 700.0
_FLUSH_LITRE_SECONDS = 1000.0
_FLUSHES_AIR = 180.0  # ml in one go (common practice, no source)

Watcher = Callable[[Machine, Instant], bool]


def advance(machine: Machine, seconds: float, watcher: Watcher | None = None) -> Machine:
    """The machine after some seconds as it stands. Plug, lever and taps stay as they are.

    watcher: called at the start, after every step and at the end with the machine and its instant; returning True ends
    the run early. Raises ValueError for a negative time.
    """
    if seconds < 0.0:
        raise ValueError(f"time runs forwards only; {seconds:g} s were asked for")
    left = seconds
    while True:
        machine, now = settled(machine)
        if (watcher is not None and watcher(machine, now)) or left <= 1e-9:
            return machine
        out = outflow(machine, now)
        step = min(left, longest_step(machine, now, out))
        machine = _stepped(machine, now, out, step)
        left -= step


def settled(machine: Machine, coarse: bool = True) -> tuple[Machine, Instant]:
    """The machine with everything that acts at once done: fuses blown, residual-current device and limits tripped."""
    for _ in range(6):
        now = instant(machine, coarse)
        after = _tripped(machine, now)
        if after is machine.state:
            break
        machine = replace(machine, state=after)
    return machine, now


def _tripped(machine: Machine, now: Instant) -> State:
    """The state with whatever acts at once at this instant; the same object if nothing does."""
    state, mains, pump = machine.state, machine.parts.mains, machine.parts.water.pump
    wall = wall_at_limits(machine)
    board_blows = now.supply.board_amps > FUSE_HOLDS * mains.board_fuse.amps
    opens = state.pump_coil >= pump.limiter_opens_at
    falls = machine.parts.water.vacuum_valve.state == "works"
    stays = state.limiter_open and state.pump_coil > pump.limiter_opens_at - _LIMITER_BACK
    found = {
        "rcd_tripped": state.rcd_tripped or now.supply.residual_amps > RCD_TRIPS * machine.build.rcd_amps,
        "board_fuse_blown": state.board_fuse_blown or board_blows,
        # The smaller fuse is the faster one.
        "fuse_blown": state.fuse_blown or (not board_blows and now.supply.line_amps > FUSE_HOLDS * mains.fuse.amps),
        "limit_1_open": state.limit_1_open or wall >= mains.limit_1.opens_at,
        "limit_2_open": state.limit_2_open or wall >= mains.limit_2.opens_at,
        "element_burnt": state.element_burnt or state.sheath >= mains.element.sheath_limit,
        "limiter_open": opens or stays,
        "calls_heat": now.contacts.controller_out,
        # A pin that hangs free falls as soon as the air outside is stronger, whatever was shut by hand just now.
        "vacuum_shut": state.vacuum_shut and not (falls and now.space.gauge <= VACUUM_OPENS),
    }
    changed = {name: value for name, value in found.items() if getattr(state, name) != value}
    return replace(state, **changed) if changed else state  # type: ignore[arg-type]


def _stepped(machine: Machine, now: Instant, out: Outflow, seconds: float) -> Machine:
    state = heated(machine, now, out, seconds)
    state = _windings(machine, now, state, seconds)
    state = _waters(machine, now, state, seconds)
    board = remember(machine.parts.mains.board, now.inputs, machine.state.board, seconds)
    dries = math.exp(-seconds / _DRYING_SECONDS) if state.boiler > 80.0 else 1.0
    hot = state.hot_minutes + seconds / 60 if state.boiler > 100.0 and live(machine) else state.hot_minutes
    state = replace(
        state,
        clock=state.clock + seconds,
        board=board,
        moisture=machine.state.moisture * dries,
        hot_minutes=hot if live(machine) else 0.0,
    )
    return replace(machine, state=state)


def _windings(machine: Machine, now: Instant, state: State, seconds: float) -> State:
    room, plate = machine.build.room, machine.build.plate
    rise = _PUMP_RISE_SHORTED if machine.parts.water.pump.diode == "shorted" else _PUMP_RISE
    pump = room + rise * (now.supply.pump / plate.volts) ** 2
    coil = room + _COIL_RISE * (now.supply.fill / plate.volts) ** 2
    paste = _RELAY_RISE if machine.parts.mains.relay.paste else _RELAY_RISE_DRY
    nominal = plate.element_watts / plate.volts
    relay = room + paste * now.supply.element_amps / nominal
    poles = machine.parts.mains.switch
    lost = now.supply.line_amps**2 * sum(ohms for ohms in (poles.live, poles.neutral) if math.isfinite(ohms))
    switch = lag(state.switch_body, room + _SWITCH_KELVIN_PER_WATT * lost, seconds, _SWITCH_SECONDS)
    return replace(
        state,
        pump_coil=lag(state.pump_coil, pump, seconds, _PUMP_SECONDS),
        coil=lag(state.coil, coil, seconds, _COIL_SECONDS),
        relay_body=lag(state.relay_body, relay, seconds, _RELAY_SECONDS),
        switch_body=min(switch, _SWITCH_MOST),
    )


def _waters(machine: Machine, now: Instant, state: State, seconds: float) -> State:
    """Tank, the pump's priming, steam and air in the exchanger and its loop."""
    water, flow = machine.parts.water, now.flows
    from_tank = 0.0 if "tank" in machine.bench.bypassed else max(flow.pump, 0.0)
    leak = water.tank.leak**2 * 0.5
    tank = max(state.tank - (from_tank - flow.returned + leak) / 1000 * seconds, 0.0)
    primed = state.primed
    if now.supply.pump > 0.0:
        there = "tank" in machine.bench.bypassed or tank > TANK_DRY
        primed = there and (primed or water.pump.self_primes)
    steam = state.hx_steam
    if flow.brew > 0.0:
        steam = max(steam - flow.brew / _FLUSH_LITRE_SECONDS / water.exchanger.litres * seconds, 0.0)
    elif water.brew_one_way.back > 0.0 and state.boiler > 105.0:
        steam = lag(steam, 0.6, seconds, 600.0)
    through = state.run_through + flow.brew * seconds if flow.brew > 0.0 else 0.0
    # A long flush carries the loop's air away; running dry with the lever up lets air in.
    loop_air = state.loop_air and through < _FLUSHES_AIR
    loop_air = loop_air or (now.supply.pump > 0.0 and tank <= TANK_DRY and machine.bench.lever_up)
    return replace(state, tank=tank, primed=primed, hx_steam=steam, loop_air=loop_air, run_through=through)
