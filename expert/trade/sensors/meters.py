"""Accuracy of meters, gauges and thermocouples as plain numbers; `instruments.py` puts them to use on readings."""

from __future__ import annotations

from expert.trade import sentences as say
from expert.trade.errors import WrongArguments, above, within

_DIGITAL = "a digital meter's data sheet"
_GAUGE = "EN 837-1"
_THERMOCOUPLE = "IEC 60584"
_FIXED = {"class_1": 1.5, "class_2": 2.5}
THERMOCOUPLE_CLASSES = tuple(_FIXED)


def meter_uncertainty(reading: float, percent: float, digits: float, step: float) -> float:
    """How far a digital meter's reading may be out, percent x reading / 100 + digits x step, in the reading's unit.

    reading: either sign; percent [%], 0 to 100; digits: of the last place, 0 to 1000; step: of the last place, above
    0; else OutOfRange. Add the resistance of leads that were not zeroed.
    Source: the usual form of makers' data sheets.
    >>> round(meter_uncertainty(100.0, 2.0, 2.0, 0.1), 6)      # +-(2 % + 2): 2.2 V
    2.2
    """
    within("reading", reading, "", -1e15, 1e15, _DIGITAL)
    within("percent", percent, "%", 0.0, 100.0, _DIGITAL)
    within("digits", digits, "", 0.0, 1000.0, _DIGITAL)
    above("step", step, "", 0.0, _DIGITAL)
    return abs(reading) * percent / 100 + digits * step


def gauge_uncertainty(accuracy_class: float, full_scale: float) -> float:
    """How far a dial gauge may be out anywhere on its scale, class / 100 x full scale, in [bar].

    accuracy_class: printed on the dial, 0.1 to 4; full_scale [bar], above 0; else OutOfRange.
    Source: EN 837-1.
    >>> round(gauge_uncertainty(1.6, 10.0), 6)      # 0.16 bar
    0.16
    """
    within("accuracy class", accuracy_class, "", 0.1, 4.0, _GAUGE)
    above("full scale", full_scale, "bar", 0.0, _GAUGE)
    return accuracy_class / 100 * full_scale


def thermocouple_uncertainty(tolerance_class: str, temperature: float) -> float:
    """How far a type K thermocouple may be out, the meter not counted, in [K].

    tolerance_class: class_1 or class_2, else WrongArguments; temperature [degC], -40 to 333, else OutOfRange.
    Source: IEC 60584 (fixed part, up to 333 degC).
    >>> thermocouple_uncertainty("class_1", 93.0), thermocouple_uncertainty("class_2", 93.0)
    (1.5, 2.5)
    """
    if tolerance_class not in _FIXED:
        would_do = " or ".join(THERMOCOUPLE_CLASSES)
        raise WrongArguments(say.no_thermocouple_class(tolerance_class[:40], would_do))
    within("temperature", temperature, "degC", -40.0, 333.0, _THERMOCOUPLE)
    return _FIXED[tolerance_class]
