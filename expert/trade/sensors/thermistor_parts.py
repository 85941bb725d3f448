"""The thermistor that a machine has, from resistance and beta on its papers: by its own curve where that is known.

Two parts are common enough to be known by these figures, 10 kohm with 3977 K and 50 kohm with 3950 K; any other goes by
the beta formula. Both carry a spread: what makers of the same type differ by, and what the formula is out by far from
the two temperatures of its beta.
"""

from __future__ import annotations

from expert.trade.errors import within
from expert.trade.sensors.thermistor import (
    LEAST,
    MOST,
    ntc_10k_resistance,
    ntc_10k_temperature,
    ntc_50k_resistance,
    ntc_50k_temperature,
    ntc_beta_resistance,
    ntc_temperature,
)

# R25 [ohm], beta [K] as papers give it, over which temperatures; each within a hundredth and a two-hundredth.
_KNOWN = (
    (10000.0, 3977.0, "10k"),  # 25/85
    (50000.0, 3950.0, "50k"),  # 25/50
    (50000.0, 4005.0, "50k"),  # the same part, 25/85
)
_CURVES = {"10k": (ntc_10k_resistance, ntc_10k_temperature), "50k": (ntc_50k_resistance, ntc_50k_temperature)}
_SPREAD = "the spread of thermistors"


def ntc_sensor_resistance(resistance_25: float, beta: float, temperature: float) -> float:
    """Resistance of a thermistor by its own curve where it is known, else by its beta, in [ohm].

    resistance_25: at 25 degC [ohm], above 0; beta [K], 1000 to 6000; temperature [degC], -40 to 160; else OutOfRange.
    Known: 10 kohm with 3977 K (25/85), 50 kohm with 3950 K (25/50) or 4005 K (25/85).
    Source: makers' tables (data sheet 29049, type 503F3950); else the definition of beta.
    >>> round(ntc_sensor_resistance(50000.0, 3950.0, 120.0))      # maker's table: 1.877 kohm; by beta 2035
    1877
    """
    known = _known(resistance_25, beta)
    if known is None:
        return ntc_beta_resistance(resistance_25, beta, temperature)
    return _CURVES[known][0](temperature) * resistance_25 / float(known.rstrip("k")) / 1000


def ntc_sensor_temperature(resistance_25: float, beta: float, resistance: float) -> float:
    """Temperature of a thermistor by its own curve where it is known, else by its beta, in [degC].

    resistance_25: at 25 degC [ohm], above 0; beta [K], 1000 to 6000; resistance: read [ohm], between those of 160 and
    -40 degC; else OutOfRange.
    Source: inverse of `ntc_sensor_resistance`.
    >>> round(ntc_sensor_temperature(50000.0, 3950.0, 1877.0), 1)      # maker's table: 120 degC; by beta 123.2
    120.0
    """
    known = _known(resistance_25, beta)
    if known is None:
        return ntc_temperature(resistance_25, beta, resistance)
    return _CURVES[known][1](resistance / resistance_25 * float(known.rstrip("k")) * 1000)


def ntc_sensor_spread(resistance_25: float, beta: float, temperature: float) -> float:
    """By how much a sound thermistor may differ from `ntc_sensor_resistance`, its own tolerance not counted, in [K].

    resistance_25: at 25 degC [ohm], above 0; beta [K], 1000 to 6000; temperature [degC], -40 to 160; else OutOfRange.
    Known parts: what two makers' tables of one type differ by, 0.55 K at 100 and 1.1 K at 120 degC. Others: what the
    beta formula is out by, whichever two temperatures its beta belongs to, up to 3.2 K at 120 degC.
    Source: maker's tables of type 503F3950, two makers; straight lines above all of these differences.
    >>> round(ntc_sensor_spread(50000.0, 3950.0, 120.0), 2), round(ntc_sensor_spread(47000.0, 3950.0, 120.0), 2)
    (1.37, 4.5)
    """
    known = _known(resistance_25, beta)
    within("temperature", temperature, "degC", LEAST, MOST, _SPREAD)
    if known is None:
        return 0.9 + 0.08 * max(0.0, temperature - 75.0) + 0.035 * max(0.0, 25.0 - temperature)
    return 0.16 + 0.022 * max(0.0, temperature - 65.0) + 0.015 * max(0.0, 25.0 - temperature)


def ntc_sensor_least(resistance_25: float, beta: float, temperature: float) -> float:
    """Lowest resistance of a sound thermistor, the spread of its curve taken off, in [ohm].

    All as in `ntc_sensor_resistance`; else OutOfRange. Beyond 160 degC the end of the curve is taken.
    Source: `ntc_sensor_resistance` and `ntc_sensor_spread`.
    >>> round(ntc_sensor_least(50000.0, 3950.0, 100.0))      # 0.93 K hotter than 3.316 kohm
    3225
    """
    spread = ntc_sensor_spread(resistance_25, beta, temperature)
    return ntc_sensor_resistance(resistance_25, beta, min(temperature + spread, MOST))


def ntc_sensor_most(resistance_25: float, beta: float, temperature: float) -> float:
    """Highest resistance of a sound thermistor, the spread of its curve added, in [ohm].

    All as in `ntc_sensor_resistance`; else OutOfRange. Below -40 degC the end of the curve is taken.
    Source: `ntc_sensor_resistance` and `ntc_sensor_spread`.
    >>> round(ntc_sensor_most(50000.0, 3950.0, 100.0))      # 0.93 K cooler than 3.316 kohm; another maker: 3.377
    3409
    """
    spread = ntc_sensor_spread(resistance_25, beta, temperature)
    return ntc_sensor_resistance(resistance_25, beta, max(temperature - spread, LEAST))


def _known(resistance_25: float, beta: float) -> str | None:
    """Which known part this is. Raises OutOfRange for what is no thermistor at all."""
    ntc_beta_resistance(resistance_25, beta, 25.0)
    for of_part, of_beta, name in _KNOWN:
        if abs(resistance_25 - of_part) <= 0.01 * of_part and abs(beta - of_beta) <= 0.005 * of_beta:
            return name
    return None
