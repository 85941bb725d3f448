"""The controller's direct voltage on its way through the board's release contact to the relay's input."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from types import MappingProxyType

from expert.machine.bench.bench import Bench
from expert.machine.build.mains_parts import JOINT_OHMS
from expert.machine.build.parts import Parts
from expert.machine.mains.contacts import Contacts
from expert.machine.mains.network import Edge, voltages
from expert.machine.mains.wiring import WIRES

_BATTERY_OHMS = 2.0
CONTROL_POINTS = (
    "controller.out +",
    "controller.out -",
    "board.heat in",
    "board.heat out",
    "relay.control +",
    "relay.control -",
)
_WIRES = tuple(wire for wire in WIRES if wire[1] in CONTROL_POINTS)


@dataclass(frozen=True, slots=True)
class _Loop:
    """All that the loop's voltages depend on."""

    on: bool
    released: bool
    output_volts: float
    output_ohms: float
    input_ohms: float
    joints: tuple[tuple[str, float], ...]
    lifted: frozenset[str]
    links: tuple[tuple[str, str, float], ...]
    battery: tuple[str, str, float] | None


def control_volts(parts: Parts, contacts: Contacts, bench: Bench) -> Mapping[str, float]:
    """Direct voltage of each control point against the controller's minus terminal [V]; nothing where nothing leads."""
    mains = parts.mains
    return _solved(
        _Loop(
            on=contacts.controller_out,
            released=contacts.release,
            output_volts=mains.controller.output_volts,
            output_ohms=mains.controller.output_ohms,
            input_ohms=mains.relay.input_ohms,
            joints=mains.wiring.joints,
            lifted=bench.lifted,
            links=bench.links,
            battery=bench.battery,
        )
    )


@lru_cache(maxsize=1024)
def _solved(loop: _Loop) -> Mapping[str, float]:
    found = _paths(loop)
    injected: dict[str, complex] = {}
    if loop.on:
        injected["controller.out +"] = loop.output_volts / loop.output_ohms
    ground = "controller.out -"
    if loop.battery is not None:
        plus, minus, volts = loop.battery
        found.append((plus, minus, 1 / _BATTERY_OHMS))
        injected[plus] = injected.get(plus, 0.0) + volts / _BATTERY_OHMS
        injected[minus] = injected.get(minus, 0.0) - volts / _BATTERY_OHMS
        found.append((minus, ground, 1e-9))
    return MappingProxyType({point: value.real for point, value in voltages(found, injected, ground).items()})


def _paths(loop: _Loop) -> list[Edge]:
    """Wires, release contact, the relay's input, the controller's output, and what hands have laid across."""
    worn = dict(loop.joints)
    found: list[Edge] = []
    for start, end in _WIRES:
        ohms = JOINT_OHMS + worn.get(end, 0.0)
        if end not in loop.lifted and not math.isinf(ohms):
            found.append((start, end, 1 / ohms))
    if loop.released:
        found.append(("board.heat in", "board.heat out", 10.0))
    found.append(("relay.control +", "relay.control -", 1 / loop.input_ohms))
    found.append(("controller.out +", "controller.out -", 1 / loop.output_ohms))
    for one, other, ohms in loop.links:
        if one in CONTROL_POINTS and other in CONTROL_POINTS:
            found.append((one, other, 1 / max(ohms, 1e-3)))
    return found


def relay_is_driven(parts: Parts, contacts: Contacts, bench: Bench) -> bool:
    """Whether the relay's input gets enough, right way round, and works. Raises nothing; a dead input blocks."""
    volts = control_volts(parts, contacts, bench)
    got = volts.get("relay.control +", 0.0) - volts.get("relay.control -", 0.0)
    relay = parts.mains.relay
    return relay.input_works and math.isfinite(got) and got >= relay.least_input
