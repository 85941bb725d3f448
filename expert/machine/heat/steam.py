"""Pressure in the boiler, and steam through a hole."""

from __future__ import annotations

import math
from dataclasses import dataclass

from expert.machine.heat.properties import ZERO_CELSIUS, saturation_pressure, water_density

_GAMMA = 1.135  # isentropic exponent of saturated steam (Zeuner: 1.035 + 0.1 x dryness)
_STEAM_CONSTANT = 461.526  # J/(kg K); IAPWS R7-97, equation 1
_DISCHARGE = 0.8  # short hole with a rounded edge (common practice, no source)
LEAST_SPACE = 0.02  # l; below this the boiler counts as full of water


@dataclass(frozen=True, slots=True)
class Space:
    """The boiler's inside now: water surface's volume [l], steam space [l], pressure [bar gauge], full of water."""

    water: float
    space: float
    gauge: float
    full: bool


def air_shut_in(temperature: float, space: float, air: float) -> float:
    """Air that stands at the outside pressure `air` [bar] with vapour in a space [l], as p V / T [bar l/K]."""
    return max(air - saturation_pressure(temperature), 0.0) * space / (temperature + ZERO_CELSIUS)


def boiler_space(temperature: float, water: float, air_inside: float, litres: float, air: float) -> Space:
    """Pressure of steam and shut-in air (Dalton) over water [kg] in a boiler of so many litres. air: outside [bar]."""
    volume = water / water_density(temperature)
    space = max(litres - volume, LEAST_SPACE)
    pressure = saturation_pressure(max(temperature, 0.1)) + air_inside * (temperature + ZERO_CELSIUS) / space
    return Space(volume, space, pressure - air, volume >= litres - LEAST_SPACE)


def steam_flow(gauge: float, air: float, temperature: float, diameter: float) -> float:
    """Steam through a hole into the open [kg/s]: isentropic nozzle, choked above the critical ratio.

    gauge [bar], air [bar absolute], temperature [degC], diameter [mm]. Source: Saint-Venant and Wantzel's equation
    (textbooks of thermodynamics), exponent after Zeuner.
    """
    if gauge <= 0.0 or diameter <= 0.0:
        return 0.0
    inside = (gauge + air) * 1e5
    ratio = max(air / (gauge + air), (2 / (_GAMMA + 1)) ** (_GAMMA / (_GAMMA - 1)))
    density = inside / (_STEAM_CONSTANT * (temperature + ZERO_CELSIUS))
    bracket = ratio ** (2 / _GAMMA) - ratio ** ((_GAMMA + 1) / _GAMMA)
    area = math.pi / 4 * (diameter / 1000) ** 2
    return _DISCHARGE * area * math.sqrt(2 * _GAMMA / (_GAMMA - 1) * inside * density * bracket)
