"""Alternating current through capacitors: ghost voltages on a meter, sums of leakage, the run capacitor of a motor."""

from __future__ import annotations

import math

from expert.trade.errors import above, within

METER = 10e6  # ohm, input of a common digital meter (common practice, no source)
PORTION = 0.3  # of the rated residual current that standing leakage may take up; IEC 60364-5-53 531.3
_GHOST = "a capacitor in series with a meter"
_LEAKAGE = "the sum of leakage currents"
_MOTOR = "a capacitor-run motor"


def ghost_voltage(
    voltage: float, capacitance: float, frequency: float = 50.0, meter_resistance: float = METER
) -> float:
    """What a meter shows behind an open solid-state relay whose snubber bridges it, load disconnected or open, in [V].

    voltage: of the mains [V], 0 to 1000; capacitance: of the snubber [uF], above 0; frequency [Hz], 40 to 70;
    meter_resistance [ohm], 100 or more; else OutOfRange. A test lamp across the load takes it away.
    Source: impedance of a capacitor in series with a resistance; the snubber's own resistor, some 50 ohm, left out.
    >>> round(ghost_voltage(230.0, 0.00047))      # 470 pF is 6.8 Mohm at 50 Hz
    190
    """
    within("voltage", voltage, "V", 0.0, 1000.0, _GHOST)
    above("capacitance", capacitance, "uF", 0.0, _GHOST)
    within("frequency", frequency, "Hz", 40.0, 70.0, _GHOST)
    within("meter resistance", meter_resistance, "ohm", 100.0, 1e12, _GHOST)
    reactance = 1 / (2 * math.pi * frequency * capacitance * 1e-6)
    return voltage * meter_resistance / math.hypot(meter_resistance, reactance)


def leakage_sum(capacitance: float, insulation: float, voltage: float, frequency: float = 50.0) -> float:
    """Leakage of filters and damp insulation together, in [mA]. They add at right angles: damp shows late.

    capacitance: of all filter capacitors to earth together [uF], 0 or more; insulation: of all parts together [ohm],
    above 0; voltage [V], 0 to 1000; frequency [Hz], 40 to 70; else OutOfRange.
    Source: capacitor and resistance in parallel.
    >>> round(leakage_sum(0.0094, 100e3, 230.0), 2)      # 0.68 and 2.3 mA
    2.4
    """
    within("capacitance", capacitance, "uF", 0.0, 100.0, _LEAKAGE)
    above("insulation", insulation, "ohm", 0.0, _LEAKAGE)
    within("voltage", voltage, "V", 0.0, 1000.0, _LEAKAGE)
    within("frequency", frequency, "Hz", 40.0, 70.0, _LEAKAGE)
    through_filters = 2 * math.pi * frequency * capacitance * 1e-6 * voltage
    return 1000 * math.hypot(through_filters, voltage / insulation)


def machines_on_rcd(leakage: float, rated: float = 30.0) -> float:
    """How many machines of a leakage one residual current device carries without nuisance trips.

    leakage: of one machine [mA], above 0; rated: residual current of the device [mA], 6 to 500; else OutOfRange.
    Source: standing leakage at most 30 % of the rated current, IEC 60364-5-53 and BS 7671:2018, 531.3 (as quoted).
    >>> machines_on_rcd(2.4)
    3.0
    """
    above("leakage", leakage, "mA", 0.0, _LEAKAGE)
    within("rated residual current", rated, "mA", 6.0, 500.0, _LEAKAGE)
    return float(math.floor(PORTION * rated / leakage + 1e-9))


def run_capacitor_current(capacitance: float, voltage: float, frequency: float = 50.0) -> float:
    """Current that a sound run capacitor takes at the voltage across it, 2 pi f C U, in [A].

    capacitance [uF], above 0; voltage: across the capacitor itself [V], 0 to 1000; frequency [Hz], 40 to 70; else
    OutOfRange.
    Source: reactance of a capacitor.
    >>> round(run_capacitor_current(6.3, 230.0), 3)      # 505 ohm
    0.455
    """
    above("capacitance", capacitance, "uF", 0.0, _MOTOR)
    within("voltage", voltage, "V", 0.0, 1000.0, _MOTOR)
    within("frequency", frequency, "Hz", 40.0, 70.0, _MOTOR)
    return 2 * math.pi * frequency * capacitance * 1e-6 * voltage


def run_capacitance(current: float, voltage: float, frequency: float = 50.0) -> float:
    """Capacitance of a run capacitor from its current and the voltage across it, I / (2 pi f U), in [uF].

    current [A], 0 to 125; voltage: across the capacitor itself [V], above 0; frequency [Hz], 40 to 70; else
    OutOfRange. Sound within 10 % of what is printed on it, 5 % on better ones (common practice, no source).
    Source: reactance of a capacitor.
    >>> round(run_capacitance(0.455, 230.0), 1)
    6.3
    """
    within("current", current, "A", 0.0, 125.0, _MOTOR)
    above("voltage", voltage, "V", 0.0, _MOTOR)
    within("frequency", frequency, "Hz", 40.0, 70.0, _MOTOR)
    return current / (2 * math.pi * frequency * voltage) * 1e6


def motor_speed(poles: float, frequency: float = 50.0, slip: float = 4.0) -> float:
    """Turns a minute of an induction motor, 120 f / p (1 - slip).

    poles: 2, 4, 6 or 8; frequency [Hz], 40 to 70; slip [%], 0 to 30; else OutOfRange. A pump head turns with it.
    Source: synchronous speed of an induction machine.
    >>> round(motor_speed(4))
    1440
    """
    within("poles", poles, "", 2.0, 8.0, _MOTOR)
    within("odd poles", poles % 2, "", 0.0, 0.0, _MOTOR)
    within("frequency", frequency, "Hz", 40.0, 70.0, _MOTOR)
    within("slip", slip, "%", 0.0, 30.0, _MOTOR)
    return 120 * frequency / poles * (1 - slip / 100)
