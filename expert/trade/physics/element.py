"""Heating elements from the rating plate: resistance, its band cold and hot, other voltages, groups of elements.

The plate's power is that of the whole machine: take off pump, second boiler and cup warmer first, or work per element.
"""

from __future__ import annotations

from expert.trade.errors import OutOfRange, above, in_order, within

# Lower edge only: wire in water, alloy unknown, is 1 to 6 % lower cold than hot (common practice, no source).
COLD_FACTOR = 1.03
_SOURCE = "Joule's law"
_TOLERANCE = "the power tolerance (IEC 60335-1, clause 10, table 1)"


def element_resistance(voltage: float, power: float) -> float:
    """Resistance of an element when it gives its rated power, R = U^2 / P, in [ohm].

    voltage: rated, across the element [V], above 0; power: rated, of this element [W], above 0; else OutOfRange.
    Source: Joule's law.
    >>> round(element_resistance(230.0, 2000.0), 2)      # 26.45
    26.45
    """
    above("voltage", voltage, "V", 0.0, _SOURCE)
    above("power", power, "W", 0.0, _SOURCE)
    return voltage * voltage / power


def element_power(voltage: float, resistance: float) -> float:
    """Heat given off by an element, P = U^2 / R, in [W].

    voltage: across the element [V], 0 or more; resistance: when warm [ohm], above 0; else OutOfRange.
    Source: Joule's law.
    >>> round(element_power(230.0, 52.9), 6)      # the plate of 230 V 1000 W
    1000.0
    """
    within("voltage", voltage, "V", 0.0, 1e6, _SOURCE)
    above("resistance", resistance, "ohm", 0.0, _SOURCE)
    return voltage * voltage / resistance


def element_current(power: float, voltage: float) -> float:
    """Current of an element at its rated voltage, I = P / U, in [A].

    power: rated [W], above 0; voltage: rated [V], above 0; else OutOfRange.
    Source: Joule's law.
    >>> element_current(2300.0, 230.0)
    10.0
    """
    above("power", power, "W", 0.0, _SOURCE)
    above("voltage", voltage, "V", 0.0, _SOURCE)
    return power / voltage


def most_power(power: float) -> float:
    """Highest power input that a heating appliance of a rated power may draw when sound, in [W].

    power: rated [W], above 25, else OutOfRange. Above 200 W: +5 % or +20 W, the greater; 25 to 200 W: +10 %.
    Source: IEC 60335-1, clause 10, table 1 (from memory, to be confirmed).
    >>> most_power(2000.0), most_power(300.0)
    (2100.0, 320.0)
    """
    above("rated power", power, "W", 25.0, _TOLERANCE)
    return power + max(0.05 * power, 20.0) if power > 200 else 1.1 * power


def least_power(power: float) -> float:
    """Lowest power input that a heating appliance of a rated power may draw when sound, in [W].

    power: rated [W], above 25, else OutOfRange. Minus 10 %.
    Source: IEC 60335-1, clause 10, table 1 (from memory, to be confirmed).
    >>> least_power(2000.0)
    1800.0
    """
    above("rated power", power, "W", 25.0, _TOLERANCE)
    return 0.9 * power


def element_lowest(voltage: float, power: float) -> float:
    """Lowest resistance of a sound element, hot, in [ohm].

    voltage: rated [V], above 0; power: rated [W], above 25; else OutOfRange.
    Source: Joule's law with the tolerance of `most_power`.
    >>> round(element_lowest(230.0, 2000.0), 2)      # 25.19
    25.19
    """
    return element_resistance(voltage, most_power(power))


def element_lowest_cold(voltage: float, power: float) -> float:
    """Lowest resistance of a sound element, cold, alloy not known, in [ohm].

    voltage: rated [V], above 0; power: rated [W], above 25; else OutOfRange.
    Source: `element_lowest` divided by 1.03 (common practice, no source, for the size of the factor).
    >>> round(element_lowest_cold(230.0, 2000.0), 2)      # 25.19 / 1.03
    24.46
    """
    return element_lowest(voltage, power) / COLD_FACTOR


def element_highest(voltage: float, power: float) -> float:
    """Highest resistance of a sound element, hot or cold, in [ohm].

    voltage: rated [V], above 0; power: rated [W], above 25; else OutOfRange.
    Source: Joule's law with the tolerance of `least_power`.
    >>> round(element_highest(230.0, 2000.0), 2)      # 29.39
    29.39
    """
    return element_resistance(voltage, least_power(power))


def middle_voltage(lowest: float, highest: float) -> float:
    """The voltage that goes with the one power on a plate that gives a range such as 220-240 V, in [V].

    lowest, highest: of the range [V], above 0, and differing by at most 10 % of their mean, else OutOfRange: the
    tolerance then holds at both ends, so work each end by itself.
    Source: IEC 60335-1, clause 5.8.4 and clause 10 (as quoted in the national text).
    >>> middle_voltage(220.0, 240.0)
    230.0
    """
    above("lowest voltage", lowest, "V", 0.0, "a plate's range")
    mean = (lowest + highest) / 2
    in_order("lowest voltage", lowest, "highest voltage", highest, "V")
    within("highest voltage", highest, "V", lowest, lowest * 1.05 / 0.95, "one power for the whole range")
    return mean


def pair_resistance(lowest: float, highest: float, least_power: float, most_power: float) -> float:
    """Resistance of an element whose plate gives two voltages and two powers, each with each, in [ohm].

    lowest, highest [V]; least_power, most_power [W], all above 0. The pairs must agree within 5 %, as plates round to
    50 or 100 W (common practice, no source), else OutOfRange: the plate is misread, or not one element.
    Source: Joule's law; the pairing of limits from memory (IEC 60335-1), to be confirmed.
    >>> round(pair_resistance(220.0, 240.0, 1850.0, 2200.0), 2)      # 26.16 and 26.18
    26.17
    """
    first, second = element_resistance(lowest, least_power), element_resistance(highest, most_power)
    if abs(second - first) > 0.05 * first:
        source = "a plate with two pairs of voltage and power"
        raise OutOfRange("second resistance", second, "ohm", 0.95 * first, 1.05 * first, source)
    return (first + second) / 2


def power_at_voltage(power: float, rated_voltage: float, voltage: float) -> float:
    """Power of a heating element on another voltage than its own, P (U / Un)^2, in [W].

    power: rated [W], above 0; rated_voltage [V], above 0; voltage: actual [V], 0 or more; else OutOfRange.
    Source: Joule's law.
    >>> round(power_at_voltage(1000.0, 240.0, 208.0))      # 75.1 %
    751
    """
    return element_power(voltage, element_resistance(rated_voltage, power))


def half_wave_voltage(voltage: float) -> float:
    """Effective voltage behind one series diode, U / sqrt(2), in [V]; a heater then gives half its power.

    voltage: effective, of a sine wave [V], 0 or more, else OutOfRange.
    Source: effective value of a half-wave rectified sine.
    >>> round(half_wave_voltage(230.0), 1)      # 230 / 1.414
    162.6
    """
    within("voltage", voltage, "V", 0.0, 1e6, "the half-wave rule")
    return voltage / float(2**0.5)
