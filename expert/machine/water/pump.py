"""The vibration pump: pressure against flow, by voltage, frequency, temperature of the coil, wear and air."""

from __future__ import annotations

import math
from dataclasses import dataclass

from expert.machine.build.plate import Plate
from expert.machine.build.water_parts import Pump
from expert.trade.physics.copper import copper_resistance


@dataclass(frozen=True, slots=True)
class Drive:
    """What works the pump now: volts across its coil, frequency, temperature of the coil, primed, share of air."""

    volts: float
    hertz: float
    coil: float
    primed: bool = True
    air: float = 0.0


STILL = Drive(0.0, 50.0, 20.0, False)
_LEAST_SHARE = 0.55  # of the plate's voltage; below it the piston does not lift its spring (common practice, no source)


def curve(pump: Pump, plate: Plate, drive: Drive) -> tuple[float, float]:
    """Pressure against a shut outlet [bar] and free flow [ml/s] as it is driven; (0, 0) if it moves nothing.

    Force goes with the square of the current, so the pressure with (U/Un)^2 and, the resistance being part of the
    impedance, falls a little with the coil's heat; flow goes with strokes a second (frequency) and stroke (voltage).
    """
    share = drive.volts / plate.volts
    runs = pump.piston == "free" and pump.diode == "works" and not math.isinf(pump.coil)
    if share < _LEAST_SHARE or not drive.primed or not runs:
        return 0.0, 0.0
    warm = copper_resistance(1.0, drive.coil)
    # The resistance is two thirds of the impedance (3.1 to 3.5 in quadrature).
    weaker = math.hypot(3.1, 3.5) / math.hypot(3.1 * warm, 3.5)
    pressure = pump.shut_pressure * share**2 * weaker**2 * (1 - 0.7 * drive.air)
    flow = pump.free_flow * min(share, 1.1) * drive.hertz / plate.hertz * (1 - drive.air)
    return pressure, flow


def pressure_at(shut_pressure: float, free_flow: float, flow: float) -> float:
    """Pressure that the pump makes at a flow [bar]: the straight line between its two ends."""
    return shut_pressure * (1 - flow / free_flow) if free_flow > 0.0 else 0.0
