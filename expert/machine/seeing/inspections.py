"""Parts opened, in the hand, or on a test rig: what is found. The machine is unplugged and cold for all of them."""

from __future__ import annotations

import math
from collections.abc import Callable

from expert.machine.build.water_parts import OneWay
from expert.machine.heat.sensing import sensor_ohms
from expert.machine.running.instant import Instant
from expert.machine.running.machine import Machine
from expert.machine.seeing import observations as o
from expert.machine.seeing.instruments import read
from expert.machine.seeing.seen import Seen, Sight, Unseen

Found = Callable[[Machine], str]
COOL = 60.0


def _probe(machine: Machine) -> str:
    probe = machine.parts.water.probe
    if probe.bridge < 1e3:
        return "touches the wall"
    if not math.isinf(probe.bridge):
        return "insulator cracked and wet"
    return "scaled over" if probe.lime > 50e3 else "clean"


def _solenoid(machine: Machine) -> str:
    solenoid = machine.parts.water.fill_solenoid
    if solenoid.plunger == "stuck shut":
        return "plunger stuck shut"
    return "dirt on the seat" if solenoid.shut_hole > 0.0 or solenoid.plunger == "held open" else "free and clean"


def _one_way(valve: Callable[[Machine], OneWay]) -> Found:
    def found(machine: Machine) -> str:
        one = valve(machine)
        if one.forward <= 0.0:
            return "passes neither way"
        return "passes both ways" if one.back > 0.0 else "passes one way"

    return found


def _relief(machine: Machine) -> str:
    relief = machine.parts.water.relief
    if relief.held > 0.0:
        return "dirt on the seat"
    return "stuck shut" if relief.opens_at > 30.0 else "clean and moves"


def _hole(size: Callable[[Machine], float], least: float, blocked: str = "blocked", clear: str = "clear") -> Found:
    return lambda machine: clear if size(machine) >= least else blocked


def _pump(machine: Machine) -> str:
    pump = machine.parts.water.pump
    if pump.piston == "stuck":
        return "piston stuck"
    return "piston and valves worn" if pump.shut_pressure < 10.0 else "piston moves, valves good"


def _element(machine: Machine) -> str:
    if machine.state.element_burnt:
        return "sheath burnt"
    return "thick with scale" if machine.parts.mains.element.lime_kelvin > 30.0 else "clean"


def _group_valves(machine: Machine) -> str:
    group = machine.parts.water.group
    if group.valve_leak > 0.0:
        return "brew valve seal worn"
    if group.exhaust_leak > 0.0:
        return "exhaust valve seal worn"
    return "seals good" if group.exhaust_releases else "exhaust valve stuck"


INSPECTIONS: dict[str, tuple[tuple[str, ...], Found]] = {
    "level probe": (("clean", "scaled over", "insulator cracked and wet", "touches the wall"), _probe),
    "fill solenoid": (("free and clean", "plunger stuck shut", "dirt on the seat"), _solenoid),
    "fill non-return valve": (
        ("passes one way", "passes both ways", "passes neither way"),
        _one_way(lambda m: m.parts.water.fill_one_way),
    ),
    "brew non-return valve": (
        ("passes one way", "passes both ways", "passes neither way"),
        _one_way(lambda m: m.parts.water.brew_one_way),
    ),
    "over-pressure valve": (("clean and moves", "dirt on the seat", "stuck shut"), _relief),
    "suction filter": (("clear", "blocked"), _hole(lambda m: m.parts.water.suction.filter, 1.5)),
    "group jet": (("clear", "blocked"), _hole(lambda m: m.parts.water.group.jet, 0.5)),
    "shower screen": (("clear", "blocked"), _hole(lambda m: m.parts.water.group.shower, 1.0)),
    "steam tip": (("clear", "blocked"), _hole(lambda m: m.parts.water.steam_tap.tip, 1.0)),
    "water tip": (("clear", "blocked"), _hole(lambda m: m.parts.water.water_tap.tip, 1.0)),
    "heat exchanger": (("clear", "scaled"), _hole(lambda m: m.parts.water.exchanger.way, 1.5, "scaled")),
    "heat exchanger under pressure": (
        ("holds", "falls, bubbles in the boiler"),
        lambda m: "falls, bubbles in the boiler" if m.parts.water.exchanger.pinhole > 0.0 else "holds",
    ),
    "thermosyphon pipes": (("clear", "scaled"), _hole(lambda m: m.parts.water.loop.circulation, 0.6, "scaled")),
    "vacuum valve": (
        ("moves freely", "stuck open", "stuck closed"),
        lambda m: {"works": "moves freely"}.get(m.parts.water.vacuum_valve.state, m.parts.water.vacuum_valve.state),
    ),
    "safety valve": (
        ("clean", "seat marked"),
        lambda m: "seat marked" if m.parts.water.safety_valve.weep > 0.0 else "clean",
    ),
    "boiler gauge line": (
        ("free", "blocked"),
        lambda m: "blocked" if m.parts.water.boiler_gauge.blocked else "free",
    ),
    "pump gauge tee": (("free", "blocked"), lambda m: "blocked" if m.parts.water.pump_gauge.blocked else "free"),
    "pump": (("piston moves, valves good", "piston stuck", "piston and valves worn"), _pump),
    "element": (("clean", "thick with scale", "sheath burnt"), _element),
    "group gasket": (
        ("soft", "hard"),
        lambda m: "hard" if m.parts.water.group.rim_leak > 0.0 else "soft",
    ),
    "group valves": (
        ("seals good", "brew valve seal worn", "exhaust valve seal worn", "exhaust valve stuck"),
        _group_valves,
    ),
    "tank outlet valve": (
        ("opens", "stuck shut"),
        lambda m: "opens" if m.parts.water.tank.valve_opens else "stuck shut",
    ),
    "relay mounting": (
        ("paste and flat", "dry"),
        lambda m: "paste and flat" if m.parts.mains.relay.paste else "dry",
    ),
    "tank": (("sound", "cracked"), lambda m: "cracked" if m.parts.water.tank.leak > 0.0 else "sound"),
}
_OUTSIDE = (
    "suction filter",
    "shower screen",
    "group jet",
    "steam tip",
    "water tip",
    "group gasket",
    "tank",
    "tank outlet valve",
)


def inspect(machine: Machine, now: Instant, asked: o.Inspect) -> Seen:
    """A part opened or in the hand. ValueError for a part that is not in INSPECTIONS."""
    if asked.part not in INSPECTIONS:
        raise ValueError(f"{asked.part!r} is not a part to inspect; {', '.join(INSPECTIONS)} would do")
    outside = asked.part in _OUTSIDE
    if (why := _not_ready(machine, now, outside)) is not None:
        return why
    return Sight(INSPECTIONS[asked.part][1](machine))


def _not_ready(machine: Machine, now: Instant, outside: bool) -> Unseen | None:
    if outside:
        return None
    if machine.bench.plugged:
        return Unseen("plugged in")
    if machine.state.boiler > COOL or now.space.gauge > 0.05:
        return Unseen("hot or under pressure")
    return None if machine.bench.covers_off else Unseen("covers are on")


# What a rig shows: part, unit's meter, the value at which it acts.
RIGS: dict[str, tuple[str, Callable[[Machine], float]]] = {
    "high limit 1": ("bath", lambda m: m.parts.mains.limit_1.opens_at),
    "high limit 2": ("bath", lambda m: m.parts.mains.limit_2.opens_at),
    "pump limiter": ("bath", lambda m: m.parts.water.pump.limiter_opens_at),
    "safety valve": ("test gauge", lambda m: m.parts.water.safety_valve.lifts_at),
    "over-pressure valve": (
        "test gauge",
        lambda m: m.parts.water.relief.opens_at if not m.parts.water.relief.held else 0.0,
    ),
}


def acts_at(machine: Machine, now: Instant, asked: o.ActsAt) -> Seen:
    """At what a part acts when heated or pressed up on the bench."""
    if asked.part not in RIGS:
        raise ValueError(f"{asked.part!r} is not tried on a rig; {', '.join(RIGS)} would do")
    if (why := _not_ready(machine, now, False)) is not None:
        return why
    meter, value = RIGS[asked.part]
    return read(machine, meter, value(machine), asked)


def sensor_in_bath(machine: Machine, now: Instant, asked: o.SensorInBath) -> Seen:
    """The sensor's ohms with its tip in a bath of a known temperature."""
    if (why := _not_ready(machine, now, False)) is not None:
        return why
    sensor = machine.parts.mains.sensor
    own = sensor_ohms(sensor.kind, asked.temperature + sensor.drift)
    whole = 1 / (1 / own + (0.0 if math.isinf(sensor.parallel) else 1 / sensor.parallel))
    series = 0.0 if asked.behind_plug else sensor.series
    lead = dict(machine.parts.mains.wiring.joints).get("sensor.b", 0.0)
    return read(machine, "multimeter", whole + series + lead, asked)
