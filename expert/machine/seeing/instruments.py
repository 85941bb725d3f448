"""How exact readings are. The instruments are an invented shop's; accuracies in the usual form of data sheets."""

from __future__ import annotations

import math
from dataclasses import dataclass

from expert.machine.build.parts import chance
from expert.machine.running.machine import Machine
from expert.machine.seeing.seen import Reading
from expert.trade.sensors.meters import meter_uncertainty


@dataclass(frozen=True, slots=True)
class Meter:
    """+-(percent of reading + digits x step); step: a fixed one, or None for four figures of an autoranging meter.
    over: above it the meter shows over range. steady: out by its rounding only."""

    name: str
    unit: str
    percent: float
    digits: float
    step: float | None = None
    over: float = math.inf
    steady: bool = False


METERS = {
    "multimeter": Meter("multimeter", "ohm", 0.9, 2.0, over=60e6),
    "low-ohm tester": Meter("low-ohm tester", "ohm", 2.0, 2.0, 0.01, over=2000.0),
    "diode range": Meter("multimeter, diode range", "V", 1.0, 2.0, 0.001, over=2.0),
    "insulation tester": Meter("insulation tester", "ohm", 5.0, 3.0, over=2e9),
    "volts": Meter("multimeter", "V", 1.0, 3.0, 0.1),
    "direct volts": Meter("multimeter", "V", 0.5, 2.0, 0.01),
    "clamp": Meter("current clamp", "A", 2.0, 5.0, 0.01),
    "leakage clamp": Meter("leakage clamp", "mA", 2.0, 5.0, 0.01),
    "thermometer": Meter("contact thermometer", "degC", 0.0, 15.0, 0.1),
    "scales": Meter("scales", "ml", 1.0, 1.0, 1.0),
    "conductivity meter": Meter("conductivity meter", "uS/cm", 5.0, 1.0, 0.1),
    "display": Meter("controller display", "degC", 0.0, 0.5, 1.0, steady=True),
    "test gauge": Meter("test gauge", "bar", 0.0, 1.0, 0.02),
    "boiler gauge": Meter("boiler gauge", "bar", 0.0, 1.5, 0.05),
    "pump gauge": Meter("pump gauge", "bar", 0.0, 2.0, 0.2),
    "bath": Meter("bath thermometer", "degC", 0.0, 10.0, 0.1),
}


def read(machine: Machine, meter_name: str, true: float, about: object) -> Reading:
    """A reading of a true value: out by less than the instrument's stated uncertainty, by the seed and what is read,
    and rounded to its step. Over range reads infinite."""
    meter = METERS[meter_name]
    if math.isinf(true) or abs(true) > meter.over:
        return Reading(math.inf, meter.unit, 0.0, meter.name, true)
    step = meter.step or _step(true)
    margin = meter_uncertainty(true, meter.percent, meter.digits, step)
    at = round(machine.state.clock)
    # The sum of two even chances: most readings lie near the middle; four fifths leaves room for the rounding.
    error = (chance(machine.seed, about, at) + chance(machine.seed, about, at, "again") - 1.0) * 0.8
    value = round((true + (0.0 if meter.steady else error * margin)) / step) * step
    if meter_name in ("boiler gauge", "pump gauge") or (true >= 0.0 and meter.unit not in ("degC", "bar")):
        value = max(value, 0.0)
    return Reading(round(value, 9), meter.unit, margin, meter.name, true)


def _step(value: float) -> float:
    """Last place of a meter of four figures (6000 counts): 0.1 ohm up to 600 ohm, and so on by decades."""
    step = 0.1
    while abs(value) > 6000 * step:
        step *= 10
    return step
