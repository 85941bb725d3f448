"""The temperature sensor: from a temperature to ohms, and as the controller reads ohms back."""

from __future__ import annotations

import math

from expert.trade.sensors.platinum import pt1000_resistance, pt_temperature
from expert.trade.sensors.thermistor import (
    ntc_10k_resistance,
    ntc_10k_temperature,
    ntc_50k_resistance,
    ntc_50k_temperature,
)

_NTC_TOP = 125.0  # the tables end here; beyond it the curve goes on with its last slope in ln R over 1/T
_ZERO = 273.15
_BETA_TOP = {"ntc 10k": 3980.0, "ntc 50k": 4230.0}
SHORT_BELOW, OPEN_ABOVE = (
    {"ntc 10k": 40.0, "ntc 50k": 150.0, "pt1000": 700.0},
    {
        "ntc 10k": 200e3,
        "ntc 50k": 1e6,
        "pt1000": 2500.0,
    },
)


def sensor_ohms(kind: str, temperature: float) -> float:
    """Resistance of a sensor ("ntc 10k", "ntc 50k", "pt1000") at 0 to 400 degC [ohm]."""
    temperature = min(max(temperature, 0.0), 400.0)
    if kind == "pt1000":
        return pt1000_resistance(temperature)
    curve = ntc_10k_resistance if kind == "ntc 10k" else ntc_50k_resistance
    if temperature <= _NTC_TOP:
        return curve(temperature)
    return curve(_NTC_TOP) * math.exp(_BETA_TOP[kind] * (1 / (temperature + _ZERO) - 1 / (_NTC_TOP + _ZERO)))


def shown_temperature(kind: str, ohms: float) -> float | None:
    """Temperature that a controller set to a kind of sensor makes of a resistance [degC]; None: its error message."""
    if not SHORT_BELOW[kind] <= ohms <= OPEN_ABOVE[kind]:
        return None
    if kind == "pt1000":
        return pt_temperature(1000.0, max(ohms, 1000.0)) if ohms >= 1000.0 else (ohms - 1000.0) / 3.9083
    top = sensor_ohms(kind, _NTC_TOP)
    if ohms < top * 1.0001:
        return 1 / (math.log(ohms / top) / _BETA_TOP[kind] + 1 / (_NTC_TOP + _ZERO)) - _ZERO
    if ohms > sensor_ohms(kind, 0.0) * 0.9999:
        beta = 3800.0
        return max(1 / (math.log(ohms / sensor_ohms(kind, 0.0)) / beta + 1 / _ZERO) - _ZERO, -40.0)
    return ntc_10k_temperature(ohms) if kind == "ntc 10k" else ntc_50k_temperature(ohms)
