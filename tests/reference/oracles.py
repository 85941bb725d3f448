"""The reference libraries, loaded once, behind names that say what they give."""

from __future__ import annotations

from CoolProp.CoolProp import PropsSI

ZERO_CELSIUS = 273.15


def if97_temperature(pressure: float) -> float:
    """Boiling temperature [degC] under an absolute pressure [bar]."""
    return float(PropsSI("T", "P", pressure * 1e5, "Q", 0, "IF97::Water")) - ZERO_CELSIUS


def if97_pressure(temperature: float) -> float:
    """Boiling pressure [bar absolute] at a temperature [degC]."""
    return float(PropsSI("P", "T", temperature + ZERO_CELSIUS, "Q", 0, "IF97::Water")) / 1e5


def if97_boiling(what: str, temperature: float, quality: int) -> float:
    """A property of boiling water (quality 0) or dry steam (1) at a temperature [degC], in SI units."""
    return float(PropsSI(what, "T", temperature + ZERO_CELSIUS, "Q", quality, "IF97::Water"))


def if97_liquid(what: str, temperature: float, pressure: float) -> float:
    """A property of liquid water at a temperature [degC] and an absolute pressure [bar], in SI units."""
    return float(PropsSI(what, "T", temperature + ZERO_CELSIUS, "P", pressure * 1e5, "IF97::Water"))
