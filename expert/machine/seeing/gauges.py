"""Pressures, temperatures, display, lamps, and what is caught in a jug."""

from __future__ import annotations

from collections.abc import Callable

from expert.machine.build.water_parts import Gauge
from expert.machine.heat.properties import air_pressure, saturation_temperature
from expert.machine.mains.control_volts import relay_is_driven
from expert.machine.running.instant import Instant
from expert.machine.running.machine import Machine
from expert.machine.running.outflow import outflow
from expert.machine.seeing import observations as o
from expert.machine.seeing.instruments import read
from expert.machine.seeing.seen import Seen, Sight, Unseen

GAUGES: dict[str, tuple[str, Callable[[Machine, Instant], float]]] = {
    "boiler gauge": ("boiler gauge", lambda m, n: _dial(m.parts.water.boiler_gauge, n.space.gauge)),
    "pump gauge": ("pump gauge", lambda m, n: _dial(m.parts.water.pump_gauge, n.flows.tee)),
    "second gauge on boiler": ("test gauge", lambda m, n: n.space.gauge),
    "second gauge at tee": ("test gauge", lambda m, n: n.flows.tee),
    "gauge on fill line": ("test gauge", lambda m, n: n.flows.fill_line),
    "gauge in basket": ("test gauge", lambda m, n: n.flows.chamber),
}


def pressure(machine: Machine, now: Instant, asked: o.PressureOn) -> Seen:
    """A gauge's reading. ValueError for a gauge that is not in GAUGES."""
    if asked.gauge not in GAUGES:
        raise ValueError(f"{asked.gauge!r} is not a gauge; {', '.join(GAUGES)} would do")
    if asked.gauge == "gauge in basket" and machine.bench.basket != "blind":
        return Unseen("the gauge's blind basket is not in the group")
    meter, true = GAUGES[asked.gauge]
    return read(machine, meter, true(machine, now), asked)


def _dial(gauge: Gauge, pressure: float) -> float:
    """What a dial shows: its needle rests on the pin at 0, and a blocked line leaves it there."""
    if gauge.stuck_at is not None:
        return gauge.stuck_at
    shown = (0.0 if gauge.blocked else pressure) + gauge.offset
    return min(max(shown, 0.0), gauge.full_scale)


def _brew_water(machine: Machine, now: Instant) -> float:
    """Water leaving the shower: the exchanger's, drawn three quarters of the way to the group's own temperature (common
    practice, no source), at most boiling."""
    boils = saturation_temperature(air_pressure(machine.build.altitude))
    return min(0.25 * machine.state.exchanger + 0.75 * machine.state.group, boils)


def _share(share: float) -> Callable[[Machine, Instant], float]:
    return lambda machine, now: machine.build.room + share * (machine.state.boiler - machine.build.room)


def _return_pipe(machine: Machine, now: Instant) -> float:
    air = machine.state.loop_air
    circulates = 0.0 if air else machine.parts.water.loop.circulation
    return _share(0.15 + 0.58 * min(circulates, 1.4) ** 0.5)(machine, now)


def _leak_warm(back: float, machine: Machine, now: Instant, share: float) -> float:
    return _share(share)(machine, now) if back > 0.0 else machine.build.room


PLACES: dict[str, Callable[[Machine, Instant], float]] = {
    "boiler wall": lambda m, n: m.state.boiler,
    "sensor pocket": lambda m, n: m.state.boiler,
    "group": lambda m, n: m.state.group,
    "thermosyphon feed": _share(0.92),
    "thermosyphon return": _return_pipe,
    "suction hose": lambda m, n: _leak_warm(m.parts.water.brew_one_way.back, m, n, 0.35),
    "fill line": lambda m, n: _leak_warm(m.parts.water.fill_one_way.back, m, n, 0.6),
    "pump body": lambda m, n: m.build.room + 0.8 * (m.state.pump_coil - m.build.room),
    "fill coil": lambda m, n: m.state.coil,
    "relay body": lambda m, n: m.state.relay_body,
    "main switch": lambda m, n: m.state.switch_body,
    "element end": lambda m, n: m.state.sheath,
}
_OUTSIDE = ("group", "main switch")


def temperature(machine: Machine, now: Instant, asked: o.TemperatureOf) -> Seen:
    """A temperature by contact thermometer, or in the stream of a flush."""
    if asked.place == "brew water":
        if now.flows.brew < 0.2 or not machine.bench.lever_up:
            return Unseen("no water runs at the group")
        return read(machine, "thermometer", _brew_water(machine, now), asked)
    if asked.place not in PLACES:
        raise ValueError(f"{asked.place!r} is not a place for a thermometer; {', '.join(PLACES)}, brew water would do")
    if asked.place not in _OUTSIDE and not machine.bench.covers_off:
        return Unseen("covers are on")
    return read(machine, "thermometer", PLACES[asked.place](machine, now), asked)


def display(machine: Machine, now: Instant, asked: o.Display) -> Seen:
    """The controller's display."""
    if now.display.temperature is None:
        return Sight(now.display.message)
    return read(machine, "display", now.display.temperature, asked)


def lamp(machine: Machine, now: Instant, asked: o.Lamp) -> Seen:
    """A lamp, on or off."""
    supplied = now.supply.lamp > 0.5 * machine.build.plate.volts
    lamps = {
        "mains": supplied,
        "heating": relay_is_driven(machine.parts, now.contacts, machine.bench),
        "fill call": now.board.call_lamp,
        "tank empty": now.board.empty_lamp,
        "alarm": now.board.alarm_lamp,
    }
    if asked.which not in lamps:
        raise ValueError(f"{asked.which!r} is not a lamp; {', '.join(lamps)} would do")
    return Sight("on" if lamps[asked.which] else "off")


def outlet_flow(machine: Machine, now: Instant, outlet: str) -> float:
    """Flow out of an outlet now [ml/s]; ValueError for a name that is none."""
    flows, out = now.flows, outflow(machine, now)
    there = machine.parts.water.tank.seated and machine.parts.water.tank.valve_opens and machine.state.tank > 0.03
    found = {
        "group": flows.cup + flows.drip,
        "return hose": flows.returned,
        "exhaust": flows.exhaust,
        "steam tip": out.steam_tap * 1000,
        "water tip": out.water_tap * 1000,
        "opened line": flows.spilled,
        "tank outlet": 25.0 if there else 0.0,
    }
    if outlet not in found:
        raise ValueError(f"{outlet!r} is not an outlet; {', '.join(found)} would do")
    return found[outlet]


def conductivity(machine: Machine, now: Instant, asked: o.Conductivity) -> Seen:
    """Conductivity of the tank's water."""
    return read(machine, "conductivity meter", machine.build.conductivity, asked)
