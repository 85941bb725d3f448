"""Copper windings and coils cold and hot. Never for heating elements: their wire is not copper."""

from __future__ import annotations

from expert.trade.errors import above, within

TEMPERATURE_COEFFICIENT = 0.00393  # per kelvin, at 20 degC only; IEC 60028
_INFERRED_ZERO = 234.5  # degC below zero at which a straight line would give no resistance
_SOURCE = "annealed copper (IEC 60028)"
_LEAST, _MOST = -50.0, 200.0


def copper_resistance(resistance_20: float, temperature: float) -> float:
    """Resistance of a copper coil at a temperature, R20 (1 + 0.00393 (t - 20)), in [ohm].

    resistance_20: at 20 degC [ohm], above 0; temperature: of the winding [degC], -50 to 200; else OutOfRange.
    Source: IEC 60028, annealed copper.
    >>> round(copper_resistance(1000.0, 80.0), 1)      # 1235.8
    1235.8
    """
    above("resistance at 20 degC", resistance_20, "ohm", 0.0, _SOURCE)
    within("temperature", temperature, "degC", _LEAST, _MOST, _SOURCE)
    return resistance_20 * (1 + TEMPERATURE_COEFFICIENT * (temperature - 20))


def copper_at_20(resistance: float, temperature: float) -> float:
    """Resistance that a copper coil would have at 20 degC, from a reading at another temperature, in [ohm].

    resistance: read [ohm], above 0; temperature: of the winding then [degC], -50 to 200; else OutOfRange.
    Source: IEC 60028, annealed copper, the inverse of `copper_resistance`.
    >>> round(copper_at_20(1235.8, 80.0))
    1000
    """
    above("resistance", resistance, "ohm", 0.0, _SOURCE)
    within("temperature", temperature, "degC", _LEAST, _MOST, _SOURCE)
    return resistance / (1 + TEMPERATURE_COEFFICIENT * (temperature - 20))


def winding_temperature(cold_resistance: float, cold_temperature: float, resistance: float) -> float:
    """Temperature of a copper winding from two readings, (R2/R1) (234.5 + t1) - 234.5, in [degC].

    cold_resistance: first reading [ohm], above 0; cold_temperature: at it [degC], -50 to 200; resistance: second
    reading [ohm], above 0; the result must lie from -50 to 200 degC; else OutOfRange.
    Source: annealed copper, 234.5 degC form.
    >>> round(winding_temperature(100.0, 20.0, 130.0), 2)      # 96.35
    96.35
    """
    above("cold resistance", cold_resistance, "ohm", 0.0, _SOURCE)
    above("resistance", resistance, "ohm", 0.0, _SOURCE)
    within("cold temperature", cold_temperature, "degC", _LEAST, _MOST, _SOURCE)
    temperature = resistance / cold_resistance * (_INFERRED_ZERO + cold_temperature) - _INFERRED_ZERO
    within("winding temperature", temperature, "degC", _LEAST, _MOST, _SOURCE)
    return temperature
