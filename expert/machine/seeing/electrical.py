"""Electrical observations: dead ohms, diode range, 500 V insulation, live volts, currents."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace

from expert.machine.heat.sensing import sensor_ohms
from expert.machine.mains.control_volts import CONTROL_POINTS, control_volts
from expert.machine.mains.insulation import leak_edges
from expert.machine.mains.network import Edge, resistance_between, voltages
from expert.machine.mains.wiring import POINTS, edges, pump_diode_ohms
from expert.machine.running.instant import Instant, live, supply_of
from expert.machine.running.machine import Machine
from expert.machine.seeing import observations as o
from expert.machine.seeing.instruments import read
from expert.machine.seeing.seen import Seen, Unseen
from expert.trade.physics.copper import copper_resistance

_DIODE_DROP, _DIODE_AMPS = 0.55, 1e-3
_BOARD_VOLTS = 12.0
_METER_OHMS, _LAMP_OHMS_230 = 10e6, 2.6e3
_ALONE = {
    "element": ("element.a", "element.b"),
    "pump": ("pump.a", "pump.b"),
    "fill solenoid": ("fill coil.a", "fill coil.b"),
    "board": ("board.live", "board.neutral"),
    "controller": ("controller.live", "controller.neutral"),
    "wiring": ("inlet.live", "switch.live out", "limit 1.out"),
}


def _dead(machine: Machine, *points: str) -> Unseen | None:
    """Why a dead test between these points cannot be made."""
    if machine.bench.plugged:
        return Unseen("plugged in: never on a live circuit")
    return _reach(machine, *points)


def _reach(machine: Machine, *points: str) -> Unseen | None:
    for point in points:
        if point not in POINTS and point != "earth":
            raise ValueError(f"{point!r} is not a point of this machine's wiring")
    outside = ("plug.", "earth", "chassis")
    if not machine.bench.covers_off and any(not point.startswith(outside) for point in points):
        return Unseen("covers are on")
    return None


def _ohm_edges(machine: Machine, now: Instant, test_volts: float) -> list[Edge]:
    found = edges(machine.parts, now.contacts, machine.bench.lifted, machine.build.plate.volts, "ohm")
    found += [(one, other, 1 / max(ohms, 1e-3)) for one, other, ohms in machine.bench.links]
    leaks = machine.parts.mains.wiring.leaks
    return found + leak_edges(leaks, now.contacts.boiler, now.contacts.moisture, test_volts)


def resistance(machine: Machine, now: Instant, asked: o.ResistanceBetween) -> Seen:
    """Ohms between two points."""
    if (why := _dead(machine, asked.one, asked.other)) is not None:
        return why
    ohms = resistance_between(_ohm_edges(machine, now, 1.0), asked.one, asked.other)
    return read(machine, asked.tester, ohms, asked)


def part_resistance(machine: Machine, now: Instant, asked: o.PartResistance) -> Seen:
    """Ohms of a part alone."""
    outside = asked.part.endswith(" core")
    if machine.bench.plugged:
        return Unseen("plugged in: never on a live circuit")
    if not (machine.bench.covers_off or outside):
        return Unseen("covers are on")
    found = PART_OHMS.get(asked.part)
    if found is None:
        raise ValueError(f"{asked.part!r} is not a part with a resistance; {', '.join(PART_OHMS)} would do")
    small = asked.part.endswith(("core", "fuse")) or asked.part.startswith(("main switch", "high limit"))
    ohms = found(machine, now)
    meter = "low-ohm tester" if small and ohms < 100.0 else "multimeter"
    return read(machine, meter, ohms, asked)


def _element(machine: Machine, now: Instant) -> float:
    element = machine.parts.mains.element
    if machine.state.element_burnt:
        return math.inf
    y = sum(1 / ohms for ohms in (element.winding_1, element.winding_2) if not math.isinf(ohms))
    return 1 / y if y else math.inf


def _pump_coil(machine: Machine, now: Instant) -> float:
    pump = machine.parts.water.pump
    if pump.diode != "shorted" or math.isinf(pump.coil):
        return math.inf  # a sound diode blocks an ohmmeter's small voltage either way
    return copper_resistance(pump.coil, machine.state.pump_coil)


def _fill_coil(machine: Machine, now: Instant) -> float:
    coil = machine.parts.water.fill_solenoid.coil
    return math.inf if math.isinf(coil) else copper_resistance(coil, machine.state.coil)


def _sensor(machine: Machine, now: Instant) -> float:
    sensor = machine.parts.mains.sensor
    lead = dict(machine.parts.mains.wiring.joints).get("sensor.b", 0.0)
    own = sensor_ohms(sensor.kind, machine.state.sensed + sensor.drift)
    parallel = 1 / (1 / own + (0.0 if math.isinf(sensor.parallel) else 1 / sensor.parallel))
    return sensor.series + parallel + lead


def _contact(open_: bool, ohms: float) -> float:
    return math.inf if open_ else ohms


PART_OHMS: dict[str, Callable[[Machine, Instant], float]] = {
    "element": _element,
    "pump coil": _pump_coil,
    "fill solenoid coil": _fill_coil,
    "sensor": _sensor,
    "high limit 1": lambda m, n: _contact(m.state.limit_1_open, m.parts.mains.limit_1.ohms),
    "high limit 2": lambda m, n: _contact(m.state.limit_2_open, m.parts.mains.limit_2.ohms),
    "mains fuse": lambda m, n: _contact(m.state.fuse_blown, m.parts.mains.fuse.ohms),
    "board fuse": lambda m, n: _contact(m.state.board_fuse_blown, m.parts.mains.board_fuse.ohms),
    "main switch live": lambda m, n: m.parts.mains.switch.live,
    "main switch neutral": lambda m, n: m.parts.mains.switch.neutral,
    "brew switch lever up": lambda m, n: _contact(
        m.parts.mains.brew_switch.stuck == "open", m.parts.mains.brew_switch.ohms
    ),
    "brew switch lever down": lambda m, n: _contact(
        m.parts.mains.brew_switch.stuck != "closed", m.parts.mains.brew_switch.ohms
    ),
    "tank float full": lambda m, n: _contact(
        m.parts.mains.float_contact.stuck == "open", m.parts.mains.float_contact.ohms
    ),
    "tank float empty": lambda m, n: _contact(
        m.parts.mains.float_contact.stuck != "closed", m.parts.mains.float_contact.ohms
    ),
    "pump limiter": lambda m, n: _contact(m.state.limiter_open or m.parts.water.pump.limiter_broken, 0.3),
    "level probe to body": lambda m, n: _parallel(n.contacts.rod_to_body, m.parts.water.probe.bridge),
    "relay output": lambda m, n: 0.02 if m.parts.mains.relay.shorted else math.inf,
    "live core": lambda m, n: m.parts.mains.lead.live,
    "neutral core": lambda m, n: m.parts.mains.lead.neutral,
    "earth core": lambda m, n: m.parts.mains.lead.earth,
}


def _parallel(one: float, other: float) -> float:
    y = sum(1 / max(ohms, 1e-6) for ohms in (one, other) if not math.isinf(ohms))
    return 1 / y if y else math.inf


def diode(machine: Machine, now: Instant, asked: o.DiodeTest) -> Seen:
    """The diode range: ohms where ohms conduct, and the pump's diode in its forward direction."""
    if (why := _dead(machine, asked.plus, asked.minus)) is not None:
        return why
    found = _ohm_edges(machine, now, 1.0)
    ohms = resistance_between(found, asked.plus, asked.minus)
    behind = pump_diode_ohms(machine.parts, now.contacts)
    drop = 0.0
    if ohms > 2e3 and not math.isinf(behind) and machine.parts.water.pump.diode == "works":
        through = [*found, ("pump.a", "pump.b", 1 / behind)]
        with_pump = resistance_between(through, asked.plus, asked.minus)
        if with_pump < 2e3:
            volts = voltages([e for e in through if e[0] in POINTS], {asked.plus: 1.0}, asked.minus)
            forward = volts.get("pump.a", 0j).real > volts.get("pump.b", 0j).real
            ohms, drop = (with_pump, _DIODE_DROP) if forward else (ohms, 0.0)
    return read(machine, "diode range", ohms * _DIODE_AMPS + drop, asked)


def insulation(machine: Machine, now: Instant, asked: o.Insulation) -> Seen:
    """The 500 V test against the body, of what hangs together with the points or of one part alone."""
    if (why := _dead(machine, *asked.points)) is not None:
        return why
    if asked.alone:
        if not machine.bench.covers_off:
            return Unseen("covers are on")
        leaks = tuple(leak for leak in machine.parts.mains.wiring.leaks if leak.point in _ALONE[asked.alone])
        found = leak_edges(leaks, now.contacts.boiler, now.contacts.moisture, asked.volts)
        return read(machine, "insulation tester", 1 / sum(y.real for _, _, y in found), asked)
    found = _ohm_edges(machine, now, asked.volts)
    first = asked.points[0]
    found += [(first, other, 1e4) for other in asked.points[1:]]
    return read(machine, "insulation tester", resistance_between(found, first, "chassis"), asked)


def volts(machine: Machine, now: Instant, asked: o.Volts) -> Seen:
    """Alternating volts, with the meter's own load or a test lamp's."""
    if (why := _reach(machine, asked.one, asked.other)) is not None:
        return why
    one, other = ("true earth" if point == "earth" else point for point in (asked.one, asked.other))
    scale = (machine.build.plate.volts / 230.0) ** 2
    load = _LAMP_OHMS_230 * scale if asked.loaded else _METER_OHMS
    with_load = replace(machine, bench=replace(machine.bench, links=(*machine.bench.links, (one, other, load))))
    found = supply_of(with_load, now.contacts)
    return read(machine, "volts", found.between(one, other), asked)


def socket_volts(machine: Machine, now: Instant, asked: o.SocketVolts) -> Seen:
    """The socket's own voltage."""
    tripped = machine.state.rcd_tripped
    return read(machine, "volts", 0.0 if tripped else machine.build.mains_volts, asked)


def direct_volts(machine: Machine, now: Instant, asked: o.ControlVolts) -> Seen:
    """Direct volts in the relay's control loop."""
    for point in (asked.plus, asked.minus):
        if point not in CONTROL_POINTS:
            raise ValueError(f"{point!r} is not a point of the relay's control; {', '.join(CONTROL_POINTS)} would do")
    if not machine.bench.covers_off:
        return Unseen("covers are on")
    found = control_volts(machine.parts, now.contacts, machine.bench)
    return read(machine, "direct volts", found.get(asked.plus, 0.0) - found.get(asked.minus, 0.0), asked)


def board_volts(machine: Machine, now: Instant, asked: o.BoardVolts) -> Seen:
    """The board's own direct supply."""
    if not machine.bench.covers_off:
        return Unseen("covers are on")
    works = now.inputs.powered and machine.parts.mains.board.alive
    return read(machine, "direct volts", _BOARD_VOLTS if works else 0.0, asked)


def amps(machine: Machine, now: Instant, asked: o.Amps) -> Seen:
    """Current by a clamp."""
    supply = now.supply
    found = {
        "lead": supply.line_amps,
        "element": supply.element_amps,
        "pump": supply.pump_amps,
        "board": supply.board_amps,
    }
    if asked.where not in found:
        raise ValueError(f"{asked.where!r} is not where a clamp fits; {', '.join(found)} would do")
    if asked.where != "lead" and not machine.bench.covers_off:
        return Unseen("covers are on")
    return read(machine, "clamp", found[asked.where], asked)


def leakage(machine: Machine, now: Instant, asked: o.LeakageAmps) -> Seen:
    """Protective-conductor current [mA]."""
    if not live(machine):
        return Unseen("not switched on")
    return read(machine, "leakage clamp", now.supply.residual_amps * 1000, asked)
