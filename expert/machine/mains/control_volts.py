"""The controller's direct voltage on its way through the board's release contact to the relay's input."""

from __future__ import annotations

import math

from expert.machine.bench.bench import Bench
from expert.machine.build.parts import Parts
from expert.machine.mains.contacts import Contacts
from expert.machine.mains.network import voltages
from expert.machine.mains.wiring import edges

_BATTERY_OHMS = 2.0
CONTROL_POINTS = (
    "controller.out +",
    "controller.out -",
    "board.heat in",
    "board.heat out",
    "relay.control +",
    "relay.control -",
)


def control_volts(parts: Parts, contacts: Contacts, bench: Bench, plate_volts: float) -> dict[str, float]:
    """Direct voltage of each control point against the controller's minus terminal [V]; nothing where nothing leads."""
    controller = parts.mains.controller
    found = [edge for edge in edges(parts, contacts, bench.lifted, plate_volts, "control") if edge[0] in CONTROL_POINTS]
    found += [
        (one, other, 1 / max(ohms, 1e-3))
        for one, other, ohms in bench.links
        if one in CONTROL_POINTS and other in CONTROL_POINTS
    ]
    injected: dict[str, complex] = {}
    found.append(("controller.out +", "controller.out -", 1 / controller.output_ohms))
    if contacts.controller_out:
        injected["controller.out +"] = controller.output_volts / controller.output_ohms
    ground = "controller.out -"
    if bench.battery is not None:
        plus, minus, volts = bench.battery
        found.append((plus, minus, 1 / _BATTERY_OHMS))
        injected[plus] = injected.get(plus, 0.0) + volts / _BATTERY_OHMS
        injected[minus] = injected.get(minus, 0.0) - volts / _BATTERY_OHMS
        found.append((minus, ground, 1e-9))
    return {point: value.real for point, value in voltages(found, injected, ground).items()}


def relay_is_driven(parts: Parts, contacts: Contacts, bench: Bench, plate_volts: float) -> bool:
    """Whether the relay's input gets enough, right way round, and works. Raises nothing; a dead input blocks."""
    volts = control_volts(parts, contacts, bench, plate_volts)
    got = volts.get("relay.control +", 0.0) - volts.get("relay.control -", 0.0)
    relay = parts.mains.relay
    return relay.input_works and math.isfinite(got) and got >= relay.least_input
