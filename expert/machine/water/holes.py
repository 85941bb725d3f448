"""Sharp orifices, alone and in a row, and the root of a falling function."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable

from expert.trade.physics.flow import orifice_flow

_ONE_BAR_ONE_MM = orifice_flow(1.0, 1.0)


def capacity(diameter: float) -> float:
    """Flow through a hole at 1 bar [ml/s]; diameter [mm]; the orifice equation of `trade`. 0 is shut."""
    return _ONE_BAR_ONE_MM * diameter * diameter


def in_a_row(diameters: Iterable[float]) -> float:
    """One hole's flow at 1 bar for several in a row [ml/s]: their pressure drops add up at one flow."""
    total = 0.0
    for diameter in diameters:
        if diameter <= 0.0:
            return 0.0
        total += 1 / capacity(diameter) ** 2
    return 1 / math.sqrt(total) if total else math.inf


def through(capacity_at_1_bar: float, drop: float) -> float:
    """Flow at a pressure drop [ml/s], backwards if that is negative."""
    return math.copysign(capacity_at_1_bar * math.sqrt(abs(drop)), drop)


def root(falling: Callable[[float], float], low: float, high: float, exact: float = 1e-6) -> float:
    """Where a falling function is 0, by the Illinois variant of regula falsi; the nearer end if it is not between.

    >>> round(root(lambda x: 2 - x * x, 0.0, 3.0), 5)
    1.41421
    """
    at_low, at_high = falling(low), falling(high)
    if at_low <= 0.0:
        return low
    if at_high >= 0.0:
        return high
    side = 0
    for _ in range(100):
        middle = (low * at_high - high * at_low) / (at_high - at_low)
        value = falling(middle)
        if abs(value) < exact or high - low < 1e-9:
            return middle
        if value > 0.0:
            low, at_low = middle, value
            at_high = at_high / 2 if side == 1 else at_high
            side = 1
        else:
            high, at_high = middle, value
            at_low = at_low / 2 if side == -1 else at_low
            side = -1
    return (low + high) / 2
