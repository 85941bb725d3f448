"""Heat content and density of liquid water and of steam: IAPWS Industrial Formulation 1997, regions 1 and 2.

Kept to what a bench needs: 0 to 200 degC. Coefficients in `water_tables.py`.
"""

from __future__ import annotations

from expert.trade.errors import within
from expert.trade.physics.altitude import STANDARD_AIR
from expert.trade.physics.steam import ZERO_CELSIUS, saturation_pressure
from expert.trade.physics.water_tables import LIQUID, STEAM, STEAM_IDEAL

GAS_CONSTANT = 0.461526  # kJ/(kg K); IAPWS R7-97(2012), equation 1
MOST_TEMPERATURE = 200.0
_SOURCE = "the water and steam data here (IAPWS R7-97(2012), regions 1 and 2)"


def liquid_heat(temperature: float, pressure: float | None = None) -> float:
    """Specific enthalpy of liquid water, in [kJ/kg], counted from the liquid at the triple point.

    temperature [degC], 0 to 200; pressure: absolute [bar], default: boiling pressure, or 1.01325 if that is more.
    OutOfRange below the boiling pressure (it would be steam) and above 1000 bar.
    Source: IAPWS R7-97(2012), region 1, equation 7 and table 3.
    >>> round(liquid_heat(300 - 273.15, 30.0), 6)      # table 5: 0.115331273e3
    115.331273
    """
    megapascals = _liquid_pressure(temperature, pressure) / 10
    kelvin = temperature + ZERO_CELSIUS
    a, b = 7.1 - megapascals / 16.53, 1386.0 / kelvin - 1.222
    slope = sum(n * a**i * j * b ** (j - 1) for i, j, n in LIQUID)
    return 1386.0 * GAS_CONSTANT * slope


def liquid_density(temperature: float, pressure: float | None = None) -> float:
    """Density of liquid water, in [kg/m3].

    temperature [degC], 0 to 200; pressure: absolute [bar], default as in `liquid_heat`; else OutOfRange.
    Source: IAPWS R7-97(2012), region 1, equation 7 and table 3.
    >>> round(1 / liquid_density(300 - 273.15, 30.0), 11)      # table 5: 0.100215168e-2 m3/kg
    0.00100215168
    """
    megapascals = _liquid_pressure(temperature, pressure) / 10
    kelvin = temperature + ZERO_CELSIUS
    a, b = 7.1 - megapascals / 16.53, 1386.0 / kelvin - 1.222
    slope = -sum(n * i * a ** (i - 1) * b**j for i, j, n in LIQUID)
    return 16.53e3 / (GAS_CONSTANT * kelvin * slope)


def liquid_heat_capacity(temperature: float, pressure: float | None = None) -> float:
    """Specific heat capacity of liquid water at constant pressure, in [kJ/(kg K)].

    temperature [degC], 0 to 200; pressure: absolute [bar], default as in `liquid_heat`; else OutOfRange.
    Source: IAPWS R7-97(2012), region 1, equation 7 and table 3.
    >>> round(liquid_heat_capacity(300 - 273.15, 30.0), 8)      # table 5: 0.417301218e1
    4.17301218
    """
    megapascals = _liquid_pressure(temperature, pressure) / 10
    tau = 1386.0 / (temperature + ZERO_CELSIUS)
    a, b = 7.1 - megapascals / 16.53, tau - 1.222
    curvature = sum(n * a**i * j * (j - 1) * b ** (j - 2) for i, j, n in LIQUID)
    return -GAS_CONSTANT * tau * tau * curvature


def steam_heat(temperature: float, pressure: float | None = None) -> float:
    """Specific enthalpy of steam, in [kJ/kg], counted from the liquid at the triple point.

    temperature [degC], 0 to 200; pressure: absolute [bar], above 0 and at most the boiling pressure, which is the
    default (dry saturated steam); else OutOfRange.
    Source: IAPWS R7-97(2012), region 2, equations 15 to 17, tables 13 and 14.
    >>> round(steam_heat(300 - 273.15, 0.035), 5)      # table 15: 0.254991145e4
    2549.91145
    """
    within("temperature", temperature, "degC", 0.0, MOST_TEMPERATURE, _SOURCE)
    boiling = saturation_pressure(temperature)
    pressure = boiling if pressure is None else pressure
    within("absolute pressure of steam", pressure, "bar", 1e-6, boiling * (1 + 1e-9), _SOURCE)
    pi, tau = pressure / 10, 540.0 / (temperature + ZERO_CELSIUS)
    ideal = sum(n * j * tau ** (j - 1) for j, n in STEAM_IDEAL)
    real = sum(n * pi**i * j * (tau - 0.5) ** (j - 1) for i, j, n in STEAM if j)
    return 540.0 * GAS_CONSTANT * (ideal + real)


def steam_density(temperature: float, pressure: float | None = None) -> float:
    """Density of steam, in [kg/m3].

    temperature [degC], 0 to 200; pressure: absolute [bar] as in `steam_heat`; else OutOfRange.
    Source: IAPWS R7-97(2012), region 2, equations 15 to 17, tables 13 and 14.
    >>> round(1 / steam_density(300 - 273.15, 0.035), 7)      # table 15: 0.394913866e2 m3/kg
    39.4913866
    """
    within("temperature", temperature, "degC", 0.0, MOST_TEMPERATURE, _SOURCE)
    boiling = saturation_pressure(temperature)
    pressure = boiling if pressure is None else pressure
    within("absolute pressure of steam", pressure, "bar", 1e-6, boiling * (1 + 1e-9), _SOURCE)
    kelvin = temperature + ZERO_CELSIUS
    pi, tau = pressure / 10, 540.0 / kelvin
    residual = sum(n * i * pi**i * (tau - 0.5) ** j for i, j, n in STEAM)
    return pressure * 100 / (GAS_CONSTANT * kelvin * (1 + residual))


def _liquid_pressure(temperature: float, pressure: float | None) -> float:
    within("temperature", temperature, "degC", 0.0, MOST_TEMPERATURE, _SOURCE)
    boiling = saturation_pressure(temperature)
    if pressure is None:
        return max(boiling, STANDARD_AIR)
    # A hair below the boiling pressure is rounding of the caller's arithmetic, not steam.
    within("absolute pressure of liquid water", pressure, "bar", boiling * (1 - 1e-9), 1000.0, _SOURCE)
    return pressure
