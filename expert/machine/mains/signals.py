"""Resistance of the small signal loops as board and controller see them: sensor, lever switch, float, level probe."""

from __future__ import annotations

import math

from expert.machine.bench.bench import Bench
from expert.machine.build.mains_parts import JOINT_OHMS
from expert.machine.build.parts import Parts
from expert.machine.mains.contacts import Contacts
from expert.machine.mains.network import resistance_between
from expert.machine.mains.wiring import edges

# Each loop: its two ends, and the joints in it.
LOOPS = {
    "sensor": ("controller.sensor a", "controller.sensor b", ("sensor plug.a", "sensor.b")),
    "brew": ("board.brew a", "board.brew b", ("brew switch.a", "brew switch.b")),
    "float": ("board.float a", "board.float b", ("float.a", "float.b")),
    "probe": ("board.probe", "board.0V", ("probe", "board.0V")),
}


def loop_ohms(parts: Parts, contacts: Contacts, bench: Bench, loop: str) -> float:
    """Resistance of a loop with whatever hands have laid across or pulled off [ohm]; open is infinite."""
    one, other, joints = LOOPS[loop]
    if bench.links:
        found = [
            edge
            for edge in edges(parts, contacts, bench.lifted, 230.0, "control")
            if "relay.mains in" not in edge[:2] and "pump.a" not in edge[:2] and "fill coil.a" not in edge[:2]
        ]
        found += [(a, b, 1 / max(ohms, 1e-3)) for a, b, ohms in bench.links]
        return resistance_between(found, one, other)
    if bench.lifted.intersection(joints):
        return math.inf
    worn = dict(parts.mains.wiring.joints)
    return sum(JOINT_OHMS + worn.get(joint, 0.0) for joint in joints) + _inner(parts, contacts, loop)


def _inner(parts: Parts, contacts: Contacts, loop: str) -> float:
    mains, probe = parts.mains, parts.water.probe
    if loop == "sensor":
        return mains.sensor.series + _parallel(contacts.sensor, mains.sensor.parallel)
    if loop == "brew":
        return mains.brew_switch.ohms if contacts.brew else math.inf
    if loop == "float":
        return mains.float_contact.ohms if contacts.float_ else math.inf
    return _parallel(contacts.rod_to_body, probe.bridge)


def _parallel(one: float, other: float) -> float:
    total = 1 / max(one, 1e-4) + 1 / max(other, 1e-4)
    return 1 / total if total else math.inf
