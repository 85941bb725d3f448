"""Currents to earth: through insulation, through filter capacitors, and what an RCD makes of them."""

from __future__ import annotations

import math

from expert.trade.errors import above, within

_RCD = "the residual current device standard"


def insulation_current(voltage: float, resistance: float) -> float:
    """Current through an insulation resistance, U / R, in [mA].

    voltage: of the tester [V DC], 0 or more; resistance [ohm], above 0; else OutOfRange.
    Source: Ohm's law.
    >>> insulation_current(500.0, 1e6)
    0.5
    """
    within("voltage", voltage, "V", 0.0, 1e5, "Ohm's law")
    above("resistance", resistance, "ohm", 0.0, "Ohm's law")
    return 1000 * voltage / resistance


def filter_leakage(capacitance: float, voltage: float, frequency: float = 50.0) -> float:
    """Leakage that a sound filter capacitor to earth causes, 2 pi f C U, in [mA]. No insulation test shows it.

    capacitance: of one capacitor to earth [uF], above 0; voltage: across it [V AC], 0 or more; frequency [Hz], above
    0; else OutOfRange.
    Source: reactance of a capacitor.
    >>> round(filter_leakage(0.0047, 230.0), 3)      # 4.7 nF: 0.340 mA
    0.34
    """
    above("capacitance", capacitance, "uF", 0.0, "a capacitor's reactance")
    within("voltage", voltage, "V", 0.0, 1e5, "a capacitor's reactance")
    above("frequency", frequency, "Hz", 0.0, "a capacitor's reactance")
    return 2 * math.pi * frequency * capacitance * 1e-6 * voltage * 1000


def rcd_must_hold(rated: float) -> float:
    """Residual current that a residual current device must not trip at, in [mA]. From here to rated is undefined.

    rated: residual current of the device [mA], 6 to 500, else OutOfRange.
    Source: half the rated current (30 mA device: holds at 15 mA).
    >>> rcd_must_hold(30.0)
    15.0
    """
    within("rated residual current", rated, "mA", 6.0, 500.0, _RCD)
    return rated / 2


def rcd_must_trip(rated: float) -> float:
    """Residual current at which a residual current device must trip, in [mA].

    rated: residual current of the device [mA], 6 to 500, else OutOfRange.
    Source: the rated current itself.
    >>> rcd_must_trip(30.0)
    30.0
    """
    within("rated residual current", rated, "mA", 6.0, 500.0, _RCD)
    return rated


def rcd_verdict(current: float, rated: float = 30.0) -> str:
    """What a residual current device does at a current: holds, trips, or undefined.

    current [mA], 0 or more; rated [mA], 6 to 500; else OutOfRange.
    Source: must hold at half the rated current, must trip at the rated current, between is undefined.
    >>> rcd_verdict(15.0), rcd_verdict(20.0), rcd_verdict(30.0)
    ('holds', 'undefined', 'trips')
    """
    within("residual current", current, "mA", 0.0, 1e6, _RCD)
    if current <= rcd_must_hold(rated):
        return "holds"
    return "trips" if current >= rcd_must_trip(rated) else "undefined"
