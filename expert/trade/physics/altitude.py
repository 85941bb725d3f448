"""Air pressure and altitude: the standard atmosphere up to 11 km."""

from __future__ import annotations

from expert.trade.errors import within

STANDARD_AIR = 1.01325  # bar; ISO 2533:1975
LEAST_ALTITUDE, MOST_ALTITUDE = -500.0, 11000.0
_SOURCE = "the standard atmosphere (ISO 2533:1975)"


def air_pressure(altitude: float = 0.0) -> float:
    """Mean air pressure at an altitude, p = 1.01325 (1 - 2.25577e-5 h)^5.25588, in [bar absolute].

    altitude: above sea level [m], -500 to 11000, else OutOfRange. Weather moves it by about 0.03 bar either way.
    Source: ISO 2533:1975 / ICAO Doc 7488, troposphere, in the form of ASHRAE Fundamentals, chapter 1, equation 3.
    >>> round(air_pressure(2000.0), 4)      # 79501 Pa within 25 Pa
    0.795
    """
    within("altitude", altitude, "m", LEAST_ALTITUDE, MOST_ALTITUDE, _SOURCE)
    return STANDARD_AIR * float((1 - 2.25577e-5 * altitude) ** 5.25588)


def altitude_of_air_pressure(pressure: float) -> float:
    """Altitude at which a pressure is the mean air pressure, in [m].

    pressure: absolute [bar], 0.2263 to 1.0751 (11000 m down to -500 m), else OutOfRange.
    Source: ISO 2533:1975, the inverse of `air_pressure`.
    >>> round(altitude_of_air_pressure(1.01325), 6)      # sea level
    0.0
    """
    within("air pressure", pressure, "bar", air_pressure(MOST_ALTITUDE), air_pressure(LEAST_ALTITUDE), _SOURCE)
    return (1 - float((pressure / STANDARD_AIR) ** (1 / 5.25588))) / 2.25577e-5
