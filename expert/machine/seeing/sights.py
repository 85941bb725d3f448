"""Looks and sounds: what eyes, ears and a hand take in, each place with its words."""

from __future__ import annotations

import math
from collections.abc import Callable

from expert.machine.running.instant import Instant
from expert.machine.running.machine import Machine
from expert.machine.running.outflow import Outflow, outflow
from expert.machine.seeing import observations as o
from expert.machine.seeing.seen import Seen, Sight, Unseen

Saw = Callable[[Machine, Instant, Outflow], str]
_TRACE = 2e-6  # kg/s of steam that an eye notices
_WET = 0.01  # ml/s


def _under_boiler(machine: Machine, now: Instant, out: Outflow) -> str:
    if now.flows.spilled > _WET and machine.parts.water.hose_leak > 0.0:
        return "water runs"
    if out.gasket > _TRACE:
        return "steam and drops"
    return "dry"


def _safety(machine: Machine, now: Instant, out: Outflow) -> str:
    if out.lifted or (now.space.full and now.flows.fill > _WET and machine.state.vacuum_shut):
        return "blows"
    return "drips" if out.safety > _TRACE else "dry"


def _vacuum(machine: Machine, now: Instant, out: Outflow) -> str:
    if now.space.full and (now.flows.fill > _WET or now.flows.pinhole > _WET) and not machine.state.vacuum_shut:
        return "water runs out"
    if out.vacuum <= _TRACE:
        return "dry"
    return "blows steadily" if now.space.gauge > 0.25 else "hisses"


def _steam_tip(machine: Machine, now: Instant, out: Outflow) -> str:
    if machine.bench.steam_tap == 0.0:
        return "drips" if out.steam_tap > _TRACE else "dry"
    if out.steam_tap < _TRACE:
        return "nothing"
    if now.space.full or now.space.space < 0.15:
        return "water with the steam"
    strong = out.steam_tap > 0.9e-3 * machine.bench.steam_tap
    return "strong steam" if strong else "weak steam"


def _water_tip(machine: Machine, now: Instant, out: Outflow) -> str:
    if machine.bench.water_tap == 0.0:
        return "drips" if out.water_tap > 1e-5 else "dry"
    if out.water_tap > 0.01 * machine.bench.water_tap:
        return "runs"
    return "weak" if out.water_tap > 1e-5 else "nothing"


def _shower(machine: Machine, now: Instant, out: Outflow) -> str:
    flows = now.flows
    if not machine.bench.lever_up:
        return "drips" if flows.drip > _WET else "dry"
    if machine.bench.basket == "blind":
        return "basket in"
    if flows.cup <= _WET:
        return "nothing"
    if machine.state.hx_steam > 0.1:
        return "steam and spitting before water"
    if machine.state.group > 98.0:
        return "flashes and spits long"
    return "runs full" if flows.cup > 4.0 or machine.bench.basket == "coffee" else "runs thin"


def _return(machine: Machine, now: Instant, out: Outflow) -> str:
    if "return hose" in machine.bench.pinched:
        return "pinched"
    flow = now.flows.returned
    return "dry" if flow < 0.05 else "trickles" if flow < 1.0 else "runs"


def _suction(machine: Machine, now: Instant, out: Outflow) -> str:
    water = machine.parts.water
    if water.suction.hose < 1.0:
        return "kinked"
    if now.flows.pump > _WET and water.suction.air > 0.0 and "tank" not in machine.bench.bypassed:
        return "bubbles"
    return "full of water" if machine.state.primed else "empty"


def _opened(machine: Machine, now: Instant, out: Outflow) -> str:
    flow = now.flows.spilled
    return "dry" if flow < _WET else "drops" if flow < 0.5 else "runs"


def _tank(machine: Machine, now: Instant, out: Outflow) -> str:
    share = machine.state.tank / machine.parts.water.tank.litres
    return "empty" if machine.state.tank < 0.15 else "low" if share < 0.25 else "full enough"


def _wires(machine: Machine, now: Instant, out: Outflow) -> str:
    wiring = machine.parts.mains.wiring
    if any(math.isinf(ohms) for _, ohms in wiring.joints):
        return "a wire is off"
    if wiring.burnt:
        return "a joint is discoloured"
    if any(leak.point in ("limit 1.out", "switch.live out") and leak.cold < 1e6 for leak in wiring.leaks):
        return "a wire is rubbed against the body"
    return "sound"


def _limit(number: int) -> Saw:
    def saw(machine: Machine, now: Instant, out: Outflow) -> str:
        mains, state = machine.parts.mains, machine.state
        if (mains.limit_1 if number == 1 else mains.limit_2).bridged:
            return "a wire lies across it"
        return "popped" if (state.limit_1_open if number == 1 else state.limit_2_open) else "pressed in"

    return saw


def _exhaust_on_lowering(machine: Machine, now: Instant, out: Outflow) -> str:
    if machine.bench.basket == "none" or not machine.bench.lever_up:
        return "nothing to release"
    released = machine.parts.water.group.exhaust_releases
    return "gushes" if released and now.flows.chamber > 0.5 else "nothing"


def _knob(opened: str, leaking: Callable[[Machine], float], wet: str) -> Saw:
    def saw(machine: Machine, now: Instant, out: Outflow) -> str:
        share: float = getattr(machine.bench, opened)
        return wet if share > 0.0 and leaking(machine) > 0.0 and now.space.gauge > 0.05 else "dry"

    return saw


LOOKS: dict[str, tuple[tuple[str, ...], Saw]] = {
    "under boiler": (("dry", "steam and drops", "water runs"), _under_boiler),
    "boiler fittings cold": (
        ("clean", "white trail"),
        lambda m, n, o: "white trail" if m.parts.water.boiler.gasket > 0.0 else "clean",
    ),
    "under tank": (
        ("dry", "wet"),
        lambda m, n, o: "wet" if m.parts.water.tank.leak > 0.0 and m.state.tank > 0.03 else "dry",
    ),
    "safety valve outlet": (("dry", "drips", "blows"), _safety),
    "vacuum valve": (("dry", "hisses", "blows steadily", "water runs out"), _vacuum),
    "steam tip": (("dry", "drips", "nothing", "weak steam", "strong steam", "water with the steam"), _steam_tip),
    "water tip": (("dry", "drips", "nothing", "weak", "runs"), _water_tip),
    "steam knob": (("dry", "leaks"), _knob("steam_tap", lambda m: m.parts.water.steam_tap.spindle_leak, "leaks")),
    "water knob": (("dry", "leaks"), _knob("water_tap", lambda m: m.parts.water.water_tap.spindle_leak, "leaks")),
    "shower": (
        (
            "dry",
            "drips",
            "basket in",
            "nothing",
            "runs thin",
            "runs full",
            "flashes and spits long",
            "steam and spitting before water",
        ),
        _shower,
    ),
    "opened line": (("dry", "drops", "runs"), _opened),
    "exhaust": (("dry", "runs"), lambda m, n, o: "runs" if n.flows.exhaust > _WET else "dry"),
    "exhaust on lowering": (("nothing to release", "nothing", "gushes"), _exhaust_on_lowering),
    "group rim": (("dry", "leaks"), lambda m, n, o: "leaks" if n.flows.rim > _WET else "dry"),
    "return hose": (("dry", "trickles", "runs", "pinched"), _return),
    "suction hose": (("full of water", "bubbles", "empty", "kinked"), _suction),
    "tank": (("empty", "low", "full enough"), _tank),
    "tank seat": (("seated", "not seated"), lambda m, n, o: "seated" if m.parts.water.tank.seated else "not seated"),
    "wires and joints": (
        ("sound", "a joint is discoloured", "a wire is off", "a wire is rubbed against the body"),
        _wires,
    ),
    "high limit 1": (("pressed in", "popped", "a wire lies across it"), _limit(1)),
    "high limit 2": (("pressed in", "popped", "a wire lies across it"), _limit(2)),
    "sensor": (
        ("in its pocket", "out of its pocket"),
        lambda m, n, o: "in its pocket" if m.parts.mains.sensor.contact > 0.9 else "out of its pocket",
    ),
    "controller sensor setting": (
        ("as fitted", "another sensor"),
        lambda m, n, o: (
            "as fitted" if m.parts.mains.controller.expects == m.parts.mains.sensor.kind else "another sensor"
        ),
    ),
    "residual-current device": (
        ("on", "tripped"),
        lambda m, n, o: "tripped" if m.state.rcd_tripped else "on",
    ),
    "puck": (
        ("none", "firm", "wet and loose"),
        lambda m, n, o: (
            "none"
            if m.bench.basket != "coffee"
            else "firm"
            if m.parts.water.group.exhaust_releases
            else "wet and loose"
        ),
    ),
}
_INSIDE = (
    "under boiler",
    "boiler fittings cold",
    "suction hose",
    "wires and joints",
    "high limit 1",
    "high limit 2",
    "sensor",
)


def look(machine: Machine, now: Instant, asked: o.Look) -> Seen:
    """A look at a place. ValueError for a place that is not in LOOKS."""
    if asked.place not in LOOKS:
        raise ValueError(f"{asked.place!r} is not a place to look at; {', '.join(LOOKS)} would do")
    if asked.place in _INSIDE and not machine.bench.covers_off:
        return Unseen("covers are on")
    return Sight(LOOKS[asked.place][1](machine, now, outflow(machine, now)))


def _pump_sound(machine: Machine, now: Instant) -> str:
    pump, flows = machine.parts.water.pump, now.flows
    if now.supply.pump <= 0.0 or pump.diode == "open" or math.isinf(pump.coil):
        return "silent"
    if pump.diode == "shorted":
        return "very loud"
    if pump.piston == "stuck":
        return "faint hum"
    if flows.pump <= _WET and flows.tee < 5.0:
        return "loud, moves nothing"
    return "loud and uneven" if flows.starved or machine.parts.water.suction.air > 0.0 else "steady"


def _solenoid_sound(machine: Machine, now: Instant) -> str:
    if not now.solenoid_on or math.isinf(machine.parts.water.fill_solenoid.coil):
        return "silent"
    return "buzzes, no click" if machine.parts.water.fill_solenoid.plunger == "stuck shut" else "clicks and hums"


def _boiler_sound(machine: Machine, now: Instant) -> str:
    return "simmers" if now.supply.element_watts > 50.0 and machine.state.boiler > 60.0 else "silent"


SOUNDS: dict[str, tuple[tuple[str, ...], Callable[[Machine, Instant], str]]] = {
    "pump": (
        ("silent", "faint hum", "steady", "loud and uneven", "loud, moves nothing", "very loud"),
        _pump_sound,
    ),
    "fill solenoid": (("silent", "clicks and hums", "buzzes, no click"), _solenoid_sound),
    "boiler": (("silent", "simmers"), _boiler_sound),
}


def listen(machine: Machine, now: Instant, asked: o.Listen) -> Seen:
    """What is heard or felt. ValueError for what is not in SOUNDS."""
    if asked.to not in SOUNDS:
        raise ValueError(f"{asked.to!r} makes no sound of its own; {', '.join(SOUNDS)} would do")
    return Sight(SOUNDS[asked.to][1](machine, now))
