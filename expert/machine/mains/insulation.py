"""Paths from live parts to the body: dry or damp, cold or hot, and shy of low test voltages."""

from __future__ import annotations

import math

from expert.machine.build.mains_parts import Leak
from expert.machine.mains.network import Edge

_COLD, _HOT = 20.0, 120.0
UNSEEN = 500e6  # what a path that has not broken down shows [ohm]
# Capacity of heating element, pump and wiring to the body (common practice, no source): the small current every sound
# machine has, which no direct voltage shows [F].
CAPACITIES = (("element.a", 1.5e-9), ("pump.a", 0.3e-9), ("switch.live out", 0.5e-9), ("board.live", 0.5e-9))


def leak_resistance(leak: Leak, temperature: float, moisture: float, test_volts: float) -> float:
    """Resistance of one path to the body [ohm]; its logarithm goes straight from cold to hot.

    temperature [degC]; moisture 0 to 1; test_volts: peak voltage applied. A damp path and a dry one stand in parallel.
    """
    if test_volts < leak.from_volts:
        return UNSEEN
    share = min(max((temperature - _COLD) / (_HOT - _COLD), 0.0), 1.2)
    dry = math.exp((1 - share) * math.log(leak.cold) + share * math.log(leak.hot))
    if moisture <= 0.0 or math.isinf(leak.damp):
        return dry
    return 1 / (1 / dry + moisture / leak.damp)


def leak_edges(leaks: tuple[Leak, ...], temperature: float, moisture: float, test_volts: float) -> list[Edge]:
    """All paths to the body as admittances."""
    return [(leak.point, "chassis", 1 / leak_resistance(leak, temperature, moisture, test_volts)) for leak in leaks]


def capacity_edges(hertz: float) -> list[Edge]:
    """What alternating current finds besides: capacities to the body."""
    return [(point, "chassis", 2j * math.pi * hertz * farad) for point, farad in CAPACITIES]
