"""Leak tests with air: the fall of pressure that cooling explains, and the leak that is left."""

from __future__ import annotations

from expert.trade.errors import above, within
from expert.trade.physics.altitude import air_pressure

ZERO_CELSIUS = 273.15
_AIR = "the gas law for a vessel of dry air"


def cooled_pressure(
    start_pressure: float, start_temperature: float, end_temperature: float, altitude: float = 0.0
) -> float:
    """Gauge pressure that cooling alone leaves in a tight vessel of air, p2 = p1 T2 / T1, in [bar].

    start_pressure [bar gauge], -0.9 to 10; start_temperature, end_temperature: of the air inside [degC], -20 to 200;
    altitude [m]; else OutOfRange.
    Source: gas law.
    >>> round(cooled_pressure(3.0, 30.0, 20.0), 2)      # 4.013 bar x 293.15 / 303.15 - 1.013
    2.87
    """
    within("pressure", start_pressure, "bar", -0.9, 10.0, _AIR)
    within("start temperature", start_temperature, "degC", -20.0, 200.0, _AIR)
    within("end temperature", end_temperature, "degC", -20.0, 200.0, _AIR)
    outside = air_pressure(altitude)
    cooled = (start_pressure + outside) * (end_temperature + ZERO_CELSIUS) / (start_temperature + ZERO_CELSIUS)
    return cooled - outside


def air_leak(
    volume: float,
    start_pressure: float,
    end_pressure: float,
    time: float,
    start_temperature: float = 20.0,
    end_temperature: float = 20.0,
    altitude: float = 0.0,
) -> float:
    """Free air that leaks from a vessel under test, its cooling taken off, in [ml/s].

    volume: of air in it [ml], above 0; start_pressure, end_pressure [bar gauge], -0.9 to 10; time [s], above 0;
    start_temperature, end_temperature: of the air inside [degC], -20 to 200; altitude [m]; else OutOfRange. Below 0:
    air came in, or it warmed more than was measured.
    Source: gas law.
    >>> round(air_leak(2000.0, 3.0, 2.9, 300.0), 2)      # 0.1 bar x 2 L / 1.013 bar in five minutes
    0.66
    """
    above("volume", volume, "ml", 0.0, _AIR)
    above("time", time, "s", 0.0, _AIR)
    within("end pressure", end_pressure, "bar", -0.9, 10.0, _AIR)
    tight = cooled_pressure(start_pressure, start_temperature, end_temperature, altitude)
    return (tight - end_pressure) * volume / (air_pressure(altitude) * time)
