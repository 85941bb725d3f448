"""Saturated steam: pressure and boiling temperature of water, gauge readings at altitude, trapped air.

Pressures in bar; every function says whether gauge or absolute. Temperatures in degC. A gauge or a pressurestat is
referred to the local air, an absolute sensor is not.
"""

from __future__ import annotations

import math
from collections.abc import Callable

from expert.trade.errors import within
from expert.trade.physics.altitude import STANDARD_AIR, air_pressure

ZERO_CELSIUS = 273.15
LEAST_TEMPERATURE, MOST_TEMPERATURE = 0.0, 373.946
LEAST_PRESSURE, MOST_PRESSURE = 0.00611212, 220.64
_SOURCE_30 = "IAPWS R7-97(2012), equation 30,"
_SOURCE_31 = "IAPWS R7-97(2012), equation 31,"
_TRAPPED = "the sum of steam and trapped air"

# IAPWS R7-97(2012), table 34.
_N = (
    0.11670521452767e4,
    -0.72421316703206e6,
    -0.17073846940092e2,
    0.12020824702470e5,
    -0.32325550322333e7,
    0.14915108613530e2,
    -0.48232657361591e4,
    0.40511340542057e6,
    -0.23855557567849,
    0.65017534844798e3,
)


def saturation_pressure(temperature: float) -> float:
    """Pressure at which water boils at a temperature, in [bar absolute].

    temperature: of water and steam [degC], 0 to 373.946, else OutOfRange.
    Source: IAPWS R7-97(2012), region 4, equation 30.
    >>> round(saturation_pressure(300 - 273.15), 10)      # table 35: 0.353658941e-2 MPa
    0.0353658941
    """
    within("temperature", temperature, "degC", LEAST_TEMPERATURE, MOST_TEMPERATURE, _SOURCE_30)
    n1, n2, n3, n4, n5, n6, n7, n8, n9, n10 = _N
    kelvin = temperature + ZERO_CELSIUS
    theta = kelvin + n9 / (kelvin - n10)
    a = theta * theta + n1 * theta + n2
    b = n3 * theta * theta + n4 * theta + n5
    c = n6 * theta * theta + n7 * theta + n8
    root: float = 2 * c / (-b + math.sqrt(b * b - 4 * a * c))
    return 10.0 * float(root**4)


def saturation_temperature(pressure: float) -> float:
    """Temperature at which water boils under a pressure, in [degC].

    pressure: absolute [bar], 0.00611212 to 220.64, else OutOfRange. A gauge pressure is not an absolute one.
    Source: IAPWS R7-97(2012), region 4, equation 31.
    >>> round(saturation_temperature(1.0) + 273.15, 6)      # table 36: 372.755919 K at 0.1 MPa
    372.755919
    """
    within("absolute pressure", pressure, "bar", LEAST_PRESSURE, MOST_PRESSURE, _SOURCE_31)
    n1, n2, n3, n4, n5, n6, n7, n8, n9, n10 = _N
    beta: float = (pressure / 10.0) ** 0.25
    e = beta * beta + n3 * beta + n6
    f = n1 * beta * beta + n4 * beta + n7
    g = n2 * beta * beta + n5 * beta + n8
    d = 2 * g / (-f - math.sqrt(f * f - 4 * e * g))
    kelvin = (n10 + d - math.sqrt((n10 + d) ** 2 - 4 * (n9 + n10 * d))) / 2
    return kelvin - ZERO_CELSIUS


def boiler_temperature(gauge_pressure: float, altitude: float = 0.0) -> float:
    """Temperature in a boiler that holds water and steam only (no air), from its gauge, in [degC].

    gauge_pressure: shown by the gauge [bar]; altitude: of the place [m], -500 to 11000. OutOfRange if the absolute
    pressure leaves equation 31, or the altitude its formula.
    Source: IAPWS R7-97(2012), equation 31, with the standard atmosphere of `altitude.air_pressure`.
    >>> round(boiler_temperature(1.2), 1)      # printed steam table, TI-GCM-01: 123.5 within 0.1
    123.4
    """
    return saturation_temperature(gauge_pressure + air_pressure(altitude))


def boiler_pressure(temperature: float, altitude: float = 0.0) -> float:
    """Gauge pressure of a boiler at a temperature, no air in it, in [bar gauge]. Below boiling it is a vacuum.

    temperature: of water and steam [degC], 0 to 373.946; altitude: of the place [m], -500 to 11000; else OutOfRange.
    Source: IAPWS R7-97(2012), equation 30, with the standard atmosphere of `altitude.air_pressure`.
    >>> round(boiler_pressure(120.0), 3)      # IF97 with a reference library: +0.973
    0.973
    """
    return saturation_pressure(temperature) - air_pressure(altitude)


def boiling_point(altitude: float = 0.0) -> float:
    """Temperature at which water boils in the open, in [degC].

    altitude: of the place [m], -500 to 11000, else OutOfRange.
    Source: IAPWS R7-97(2012), equation 31, with the standard atmosphere of `altitude.air_pressure`.
    >>> round(boiling_point(2000.0), 1)      # IF97 with a reference library: 93.32
    93.3
    """
    return saturation_temperature(air_pressure(altitude))


def flash_altitude(temperature: float) -> float:
    """Altitude above which water of a temperature flashes at an open outlet, in [m].

    temperature: of the water [degC], about 68 to 101.7 (11000 m down to -500 m), else OutOfRange.
    Source: IAPWS R7-97(2012), equation 31, with the standard atmosphere; found by halving the interval.
    >>> round(flash_altitude(93.0) / 10)      # reference library: 2094 m within 5 m
    209
    """
    highest, lowest = boiling_point(-500.0), boiling_point(11000.0)
    within("temperature", temperature, "degC", lowest, highest, "the standard atmosphere")
    return _halve(boiling_point, temperature, 11000.0, -500.0)


def temperature_shift(gauge_pressure: float, pressure_error: float, altitude: float = 0.0) -> float:
    """By how much the boiler temperature judged from a gauge is out if the gauge is out, in [K].

    gauge_pressure: shown [bar gauge]; pressure_error: of the gauge [bar], -1 to 1; altitude [m]. The slope of the steam
    curve at the reading times the error, so for small errors. Else OutOfRange, as in `boiler_temperature`.
    Source: slope of IAPWS R7-97(2012), equation 31, by central difference of 1 mbar.
    >>> round(temperature_shift(1.0, 0.1), 1)      # slope 15.7 K per bar at 1.0 bar gauge
    1.6
    """
    within("pressure error", pressure_error, "bar", -1.0, 1.0, "the slope of the steam curve")
    step = 0.001
    upper = boiler_temperature(gauge_pressure + step, altitude)
    lower = boiler_temperature(gauge_pressure - step, altitude)
    return (upper - lower) / (2 * step) * pressure_error


def trapped_air_pressure(temperature: float, closed_at: float = 20.0) -> float:
    """What the gauge shows on a boiler heated with its air shut in, at sea level, in [bar gauge].

    temperature: of water, steam and air [degC], 0 to 200; closed_at: temperature at which the vent shut [degC], 0 to
    100. The air's own moisture when shut and the swelling of the water are left out. Outside: OutOfRange.
    Source: Dalton's law of partial pressures and Charles's law, with IAPWS R7-97(2012), equation 30.
    >>> round(trapped_air_pressure(91.8), 1)      # 1.0 bar gauge at only 91.8 degC instead of 120.4
    1.0
    """
    within("temperature", temperature, "degC", 0.0, 200.0, _TRAPPED)
    within("temperature when shut", closed_at, "degC", 0.0, 100.0, _TRAPPED)
    air = STANDARD_AIR * (temperature + ZERO_CELSIUS) / (closed_at + ZERO_CELSIUS)
    return saturation_pressure(temperature) + air - STANDARD_AIR


def trapped_air_temperature(gauge_pressure: float, closed_at: float = 20.0) -> float:
    """Temperature of a boiler heated with its air shut in, from its gauge, at sea level, in [degC].

    gauge_pressure: shown [bar gauge], about 0 to 16; closed_at [degC], 0 to 100. Outside: OutOfRange.
    Source: `trapped_air_pressure`, solved by halving the interval.
    >>> round(trapped_air_temperature(1.2), 1)      # reference: 97.6 within 0.5
    97.6
    """
    low, high = trapped_air_pressure(0.0, closed_at), trapped_air_pressure(200.0, closed_at)
    within("gauge pressure", gauge_pressure, "bar", low, high, _TRAPPED)
    return _halve(lambda temperature: trapped_air_pressure(temperature, closed_at), gauge_pressure, 0.0, 200.0)


def _halve(function: Callable[[float], float], wanted: float, below: float, above_it: float) -> float:
    """Where a monotonic function takes the wanted value; it is below it at the first point, above at the second."""
    for _ in range(80):
        middle = (below + above_it) / 2
        if function(middle) < wanted:
            below = middle
        else:
            above_it = middle
    return (below + above_it) / 2
