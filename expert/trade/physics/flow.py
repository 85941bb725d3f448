"""Brew flow, pump output, restrictors, duty, and the swelling of water on heating."""

from __future__ import annotations

import math

from expert.trade.errors import above, within
from expert.trade.physics.water_properties import liquid_density

DISCHARGE = 0.62  # sharp-edged orifice; real restrictors are up to 30 % off (common practice, no source)
_FLOW = "a flow taken with cup and clock"
_PUMP = "hydraulic power"
_ORIFICE = "the orifice equation"
_DUTY = "duty over whole cycles"


def flow_rate(volume: float, time: float) -> float:
    """Mean flow, q = V / t, in [ml/s].

    volume: caught [ml], 0 or more; time: it took [s], above 0; else OutOfRange.
    Source: definition.
    >>> flow_rate(30.0, 25.0)
    1.2
    """
    within("volume", volume, "ml", 0.0, 1e9, _FLOW)
    above("time", time, "s", 0.0, _FLOW)
    return volume / time


def hydraulic_power(pressure: float, flow: float) -> float:
    """Power that a pump puts into the water, dp q, in [W]. It is a few per cent of what a small pump draws.

    pressure: rise over the pump [bar], 0 or more; flow [ml/s], 0 or more; else OutOfRange.
    Source: definition; 1 bar times 1 ml/s is 0.1 W.
    >>> round(hydraulic_power(9.0, 2.0), 6)      # 1.8 W
    1.8
    """
    within("pressure", pressure, "bar", 0.0, 1e4, _PUMP)
    within("flow", flow, "ml/s", 0.0, 1e6, _PUMP)
    return pressure * flow / 10


def orifice_flow(pressure_drop: float, diameter: float, discharge: float = DISCHARGE) -> float:
    """Cold water through a small hole, q = Cd A sqrt(2 dp / rho), in [ml/s].

    pressure_drop [bar], 0 or more; diameter: of the hole [mm], above 0, at most 10; discharge: coefficient, 0.3 to 1;
    else OutOfRange. Real restrictors are up to 30 % off (common practice, no source).
    Source: Bernoulli's equation with a discharge coefficient; rho 998.2 kg/m3.
    >>> round(orifice_flow(9.0, 0.7), 1)      # 10.1 ml/s within 0.1
    10.1
    """
    within("pressure drop", pressure_drop, "bar", 0.0, 1e3, _ORIFICE)
    above("diameter", diameter, "mm", 0.0, _ORIFICE)
    within("diameter", diameter, "mm", 0.0, 10.0, _ORIFICE)
    within("discharge coefficient", discharge, "", 0.3, 1.0, _ORIFICE)
    speed = math.sqrt(2 * pressure_drop * 1e5 / 998.2)
    return discharge * math.pi / 4 * diameter**2 * speed  # mm2 times m/s is ml/s


def duty(on_time: float, off_time: float) -> float:
    """Share of time that something is on, on / (on + off), in [%].

    on_time, off_time: of one or more whole cycles [s], 0 or more and not both 0; else OutOfRange.
    Source: definition.
    >>> duty(60.0, 60.0), round(duty(120.0, 60.0), 1)
    (50.0, 66.7)
    """
    within("on time", on_time, "s", 0.0, 1e9, _DUTY)
    within("off time", off_time, "s", 0.0, 1e9, _DUTY)
    above("cycle time", on_time + off_time, "s", 0.0, _DUTY)
    return 100 * on_time / (on_time + off_time)


def expansion(start: float, end: float) -> float:
    """By how much water swells on heating, rho1 / rho2 - 1, in [%] of its volume. Negative: it shrinks.

    start, end: of the water [degC], 0 to 200, else OutOfRange. At 1.01325 bar, or the boiling pressure if more.
    Source: IAPWS R7-97(2012), region 1.
    >>> round(expansion(20.0, 93.0), 1)      # +3.6 % within 0.1
    3.6
    """
    return 100 * (liquid_density(start) / liquid_density(end) - 1)


def pulses_volume(pulses: float, pulses_per_100_ml: float) -> float:
    """Volume that a flow meter has counted, in [ml].

    pulses: counted, 0 or more; pulses_per_100_ml: of this meter, found by weighing, above 0; else OutOfRange.
    Source: definition; calibrate by weighing.
    >>> pulses_volume(50.0, 200.0)
    25.0
    """
    within("pulses", pulses, "", 0.0, 1e9, "a calibrated flow meter")
    above("pulses per 100 ml", pulses_per_100_ml, "", 0.0, "a calibrated flow meter")
    return 100 * pulses / pulses_per_100_ml
