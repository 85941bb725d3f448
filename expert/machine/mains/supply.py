"""What the mains does in the machine at one instant: all voltages; currents in lead, fuses, element, to earth."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache

from expert.machine.build.parts import Parts
from expert.machine.build.plate import Build
from expert.machine.mains.contacts import Contacts
from expert.machine.mains.insulation import capacity_edges, leak_edges
from expert.machine.mains.network import Edge, voltages
from expert.machine.mains.wiring import edges

# Impedance of the supply [ohm], and of plug in socket (common practice, no source).
_LIVE, _NEUTRAL, _EARTH, _PLUG = 0.35, 0.15, 0.30, 1e-3
FUSE_HOLDS = 1.6  # times its rating: what a fuse carries for good (non-fusing to fusing current, IEC 60127-2)
RCD_TRIPS = 0.75  # of its rating: between half and the whole (IEC 61008), the middle is taken
_STRAY = 5.0  # V: below it a consumer counts as off; capacities and leakage reach this
_SOCKET = {"live": _LIVE, "neutral": _NEUTRAL, "earth": _EARTH}
_FEED_POINTS = {
    "pump": ("limiter.in", "pump.b"),
    "fill solenoid": ("fill coil.a", "fill coil.b"),
    "element": ("element.a", "element.b"),
}


@dataclass(frozen=True, slots=True)
class Supply:
    """Voltages [V] against true earth as complex numbers, by point; alternating currents [A, RMS].

    element_watts: heat made in the element now. pump, fill: volts across coil of the pump and of the fill solenoid.
    """

    volts: dict[str, complex]
    element_watts: float = 0.0
    element_amps: float = 0.0
    pump: float = 0.0
    pump_amps: float = 0.0
    fill: float = 0.0
    controller: float = 0.0
    board: float = 0.0
    lamp: float = 0.0
    line_amps: float = 0.0
    board_amps: float = 0.0
    residual_amps: float = 0.0

    def between(self, one: str, other: str) -> float:
        """Voltage between two points, as a true-RMS meter without load shows it [V]."""
        return abs(self.volts.get(one, 0j) - self.volts.get(other, 0j))


NO_SUPPLY = Supply({})


@dataclass(frozen=True, slots=True)
class Hands:
    """What hands have altered of the wiring: joints lifted, links laid across, parts fed directly."""

    lifted: frozenset[str] = frozenset()
    links: tuple[tuple[str, str, float], ...] = ()
    fed: frozenset[str] = frozenset()


def mains_edges(build: Build, parts: Parts, contacts: Contacts, hands: Hands) -> list[Edge]:
    """The wiring with supply, leakage, what hands have laid across, and the test lead of what is fed directly."""
    lifted = hands.lifted | {point for part in hands.fed for point in _FEED_POINTS[part]}
    found = edges(parts, contacts, lifted, build.plate.volts, "mains")
    found += leak_edges(
        parts.mains.wiring.leaks, contacts.boiler, contacts.moisture, build.mains_volts * math.sqrt(2.0)
    )
    found += capacity_edges(build.mains_hertz)
    found += [(one, other, 1 / max(ohms, 1e-3)) for one, other, ohms in hands.links]
    for pole, ohms in _SOCKET.items():
        found.append((f"socket.{pole}", "true earth", 1 / ohms))
        found.append((f"socket.{pole}", f"plug.{pole}", 1 / _PLUG))
    for part in hands.fed:
        live, neutral = _FEED_POINTS[part]
        found += [("socket.live", live, 10.0), ("socket.neutral", neutral, 10.0)]
    return found


@lru_cache(maxsize=2048)
def supply(build: Build, parts: Parts, contacts: Contacts, hands: Hands) -> Supply:
    """Solve the mains for contacts that stand as they stand; the plug is in and nothing upstream has tripped."""
    found = mains_edges(build, parts, contacts, hands)
    volts = voltages(found, {"socket.live": build.mains_volts / _LIVE}, "true earth")

    def across(one: str, other: str) -> float:
        found_volts = abs(volts.get(one, 0j) - volts.get(other, 0j))
        return found_volts if found_volts > _STRAY else 0.0

    element = across("element.a", "element.b")
    y = sum(e[2].real for e in found if e[:2] == ("element.a", "element.b"))
    y_pump = sum(abs(e[2]) for e in found if e[:2] == ("pump.a", "pump.b"))
    into_live = (volts["socket.live"] - volts["plug.live"]) / _PLUG
    into_neutral = (volts["socket.neutral"] - volts["plug.neutral"]) / _PLUG
    return Supply(
        volts=volts,
        element_watts=element**2 * y,
        element_amps=element * y,
        pump=across("pump.a", "pump.b") if y_pump else 0.0,
        pump_amps=across("pump.a", "pump.b") * y_pump,
        fill=across("fill coil.a", "fill coil.b"),
        controller=across("controller.live", "controller.neutral"),
        board=across("board.live", "board.neutral"),
        lamp=across("switch.live out", "switch.neutral out"),
        line_amps=abs(into_live),
        board_amps=_board_amps(parts, contacts, volts),
        residual_amps=abs(into_live + into_neutral),
    )


def _board_amps(parts: Parts, contacts: Contacts, volts: dict[str, complex]) -> float:
    ohms = parts.mains.board_fuse.ohms
    if not contacts.board_fuse or math.isinf(ohms):
        return 0.0
    return abs(volts.get("board fuse.in", 0j) - volts.get("board fuse.out", 0j)) / max(ohms, 1e-4)
