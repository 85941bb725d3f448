"""Platinum resistance sensors (Pt100, Pt1000): resistance, temperature, tolerance class, lead error."""

from __future__ import annotations

import math

from expert.trade import sentences as say
from expert.trade.errors import WrongArguments, above, within

A, B, C = 3.9083e-3, -5.775e-7, -4.183e-12  # IEC 60751:2008
LEAST_TEMPERATURE, MOST_TEMPERATURE = -200.0, 850.0
_SOURCE = "IEC 60751:2008"
# Class: (fixed part, part per degree, least, most temperature of a film sensor).
_CLASSES = {
    "AA": (0.10, 0.0017, 0.0, 150.0),
    "A": (0.15, 0.002, -30.0, 300.0),
    "B": (0.30, 0.005, -50.0, 500.0),
}
CLASSES = tuple(_CLASSES)


def pt_resistance(ice_point_resistance: float, temperature: float) -> float:
    """Resistance of a platinum sensor, R = R0 (1 + A t + B t^2), below 0 degC with C (t - 100) t^3 added, in [ohm].

    ice_point_resistance: R0, 100 for a Pt100, 1000 for a Pt1000 [ohm], above 0; temperature [degC], -200 to 850; else
    OutOfRange.
    Source: IEC 60751:2008, Callendar-Van Dusen equation.
    >>> round(pt_resistance(100.0, 100.0), 2)      # table of IEC 60751: 138.51
    138.51
    """
    above("resistance at 0 degC", ice_point_resistance, "ohm", 0.0, _SOURCE)
    within("temperature", temperature, "degC", LEAST_TEMPERATURE, MOST_TEMPERATURE, _SOURCE)
    t = temperature
    cold = C * (t - 100) * t**3 if t < 0 else 0.0
    return ice_point_resistance * (1 + A * t + B * t * t + cold)


def pt_temperature(ice_point_resistance: float, resistance: float) -> float:
    """Temperature of a platinum sensor from its resistance, in [degC].

    ice_point_resistance: R0 [ohm], above 0; resistance: without the leads [ohm], between those at -200 and 850 degC;
    else OutOfRange. At and above 0 degC the closed form, below it Newton's method.
    Source: IEC 60751:2008, inverse of the Callendar-Van Dusen equation.
    >>> round(pt_temperature(100.0, 146.07), 1)      # 120.00 within 0.01
    120.0
    """
    above("resistance at 0 degC", ice_point_resistance, "ohm", 0.0, _SOURCE)
    least = pt_resistance(ice_point_resistance, LEAST_TEMPERATURE)
    most = pt_resistance(ice_point_resistance, MOST_TEMPERATURE)
    within("resistance", resistance, "ohm", least, most, _SOURCE)
    ratio = resistance / ice_point_resistance
    t = (-A + math.sqrt(A * A - 4 * B * (1 - ratio))) / (2 * B)
    if ratio >= 1:
        return t
    for _ in range(20):
        slope = A + 2 * B * t + C * (4 * t**3 - 300 * t * t)
        t -= (1 + A * t + B * t * t + C * (t - 100) * t**3 - ratio) / slope
    return t


def pt100_resistance(temperature: float) -> float:
    """Resistance of a Pt100 at a temperature, in [ohm].

    temperature [degC], -200 to 850, else OutOfRange.
    Source: IEC 60751:2008.
    >>> round(pt100_resistance(93.0), 2)      # 135.85 within 0.005
    135.85
    """
    return pt_resistance(100.0, temperature)


def pt1000_resistance(temperature: float) -> float:
    """Resistance of a Pt1000 at a temperature, in [ohm].

    temperature [degC], -200 to 850, else OutOfRange.
    Source: IEC 60751:2008.
    >>> round(pt1000_resistance(100.0), 1)      # ten times the Pt100: 1385.1
    1385.1
    """
    return pt_resistance(1000.0, temperature)


def pt_tolerance(sensor_class: str, temperature: float) -> float:
    """How far a new platinum sensor of a class may be out, either way, in [K].

    sensor_class: AA, A or B, else WrongArguments; temperature [degC], within the class's range for film sensors (AA 0
    to 150, A -30 to 300, B -50 to 500), else OutOfRange.
    Source: IEC 60751:2008, tolerance classes.
    >>> round(pt_tolerance("B", 100.0), 2)      # 0.30 + 0.005 t
    0.8
    """
    if sensor_class not in _CLASSES:
        raise WrongArguments(say.no_platinum_class(sensor_class[:40], ", ".join(CLASSES)))
    fixed, per_degree, least, most = _CLASSES[sensor_class]
    within("temperature", temperature, "degC", least, most, say.standard_of_platinum_class(sensor_class))
    return fixed + per_degree * abs(temperature)


def pt_lead_error(ice_point_resistance: float, temperature: float, lead_resistance: float) -> float:
    """By how much a platinum sensor reads too high because its leads are measured with it, in [K].

    ice_point_resistance: R0 [ohm], above 0; temperature: the true one [degC], -200 to 800; lead_resistance: of both
    leads together [ohm]; OutOfRange where the sum leaves the curve.
    Source: IEC 60751:2008, resistance and inverse.
    >>> round(pt_lead_error(100.0, 93.0, 0.5), 1)      # half an ohm adds 1.3 K to a Pt100
    1.3
    """
    with_leads = pt_resistance(ice_point_resistance, temperature) + lead_resistance
    return pt_temperature(ice_point_resistance, with_leads) - temperature
