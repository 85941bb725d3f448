"""Water and steam as the stepping needs them: the trade's IF97 functions, tabulated once by the kelvin."""

from __future__ import annotations

from functools import cache

from expert.trade.physics.altitude import air_pressure
from expert.trade.physics.steam import saturation_pressure, saturation_temperature
from expert.trade.physics.water_properties import liquid_density, liquid_heat, steam_heat

ZERO_CELSIUS = 273.15
COPPER_HEAT = 0.384  # kJ/(kg K); Mechanical Engineer's Data Handbook 3.4.4
HOTTEST = 199.0

__all__ = ["air_pressure", "saturation_pressure", "saturation_temperature"]


@cache
def _row(degree: int) -> tuple[float, float, float]:
    return liquid_heat(float(degree)), steam_heat(float(degree)), liquid_density(float(degree))


def _between(temperature: float, column: int) -> float:
    temperature = min(max(temperature, 0.0), HOTTEST)
    degree = int(temperature)
    share = temperature - degree
    return _row(degree)[column] * (1 - share) + _row(degree + 1)[column] * share


def water_heat(temperature: float) -> float:
    """Enthalpy of liquid water [kJ/kg], 0 to 199 degC (outside: of the nearer end)."""
    return _between(temperature, 0)


def vapour_heat(temperature: float) -> float:
    """Enthalpy of dry saturated steam [kJ/kg], 0 to 199 degC (outside: of the nearer end)."""
    return _between(temperature, 1)


def water_density(temperature: float) -> float:
    """Density of liquid water [kg/l], 0 to 199 degC (outside: of the nearer end)."""
    return _between(temperature, 2) / 1000


def temperature_of(heat: float, water: float, metal: float, guess: float) -> float:
    """Temperature at which water [kg] and copper [kg] hold a heat [kJ], counted from 0 degC. Newton's method."""
    temperature = guess
    for _ in range(4):
        held = water * water_heat(temperature) + metal * COPPER_HEAT * temperature
        slope = water * 4.22 + metal * COPPER_HEAT
        step = (heat - held) / slope
        temperature += step
        if abs(step) < 1e-7:
            break
    return temperature


def stored_heat(temperature: float, water: float, metal: float) -> float:
    """Heat that water [kg] and copper [kg] hold at a temperature, counted from 0 degC [kJ]."""
    return water * water_heat(temperature) + metal * COPPER_HEAT * temperature
