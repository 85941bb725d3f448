"""Several resistances at once: parallel parts, groups of elements with some open, the alloy of the wire."""

from __future__ import annotations

from itertools import pairwise

from expert.trade import sentences as say
from expert.trade.errors import OutOfRange, WrongArguments, above, within
from expert.trade.physics.element import element_resistance

_PARALLEL = "resistances in parallel"
_ALLOY = "the alloy maker's table"
# Resistance over that at 20 degC; a resistance-alloy maker's table. NiCr 80/20 goes up and down again.
_TEMPERATURES = (20.0, 100.0, 200.0, 300.0, 400.0, 500.0, 600.0, 800.0)
_FACTORS = {
    "nicr_80_20": (1.0, 1.006, 1.012, 1.018, 1.025, 1.026, 1.018, 1.008),
    "nicr_60_15": (1.0, 1.011, 1.024, 1.038, 1.052, 1.064, 1.069, 1.078),
    "fecral_25_5": (1.0, 1.002, 1.005, 1.008, 1.013, 1.021, 1.030, 1.040),
}
ALLOYS = tuple(_FACTORS)


def parallel_resistance(first: float, second: float) -> float:
    """What a meter reads across two resistances in parallel, in [ohm].

    first, second [ohm], above 0, else OutOfRange. A reading taken in circuit is such a sum.
    Source: Kirchhoff's current law.
    >>> round(parallel_resistance(26.45, 1000.0), 2)      # an element with 1000 ohm across it
    25.77
    """
    above("resistance", first, "ohm", 0.0, _PARALLEL)
    above("resistance", second, "ohm", 0.0, _PARALLEL)
    return first * second / (first + second)


def group_resistance(voltage: float, power_each: float, count: float, open_ones: float = 0.0) -> float:
    """Resistance of equal elements in parallel of which some are open, in [ohm].

    voltage: rated [V], above 0; power_each: of one element [W], above 0; count: whole number, 1 to 12; open_ones:
    whole number, 0 to count - 1 (all open reads over range); else OutOfRange.
    Source: Joule's law and Kirchhoff's current law.
    >>> round(group_resistance(230.0, 1500.0, 3), 2), round(group_resistance(230.0, 1500.0, 3, 1), 2)
    (11.76, 17.63)
    """
    within("number of elements", count, "", 1.0, 12.0, _PARALLEL)
    within("open elements", open_ones, "", 0.0, count - 1, _PARALLEL)
    if count != int(count) or open_ones != int(open_ones):
        raise OutOfRange("number of elements", count - open_ones, "", 1.0, 12.0, "a whole number of elements")
    return element_resistance(voltage, power_each) / (count - open_ones)


def alloy_factor(alloy: str, temperature: float) -> float:
    """Resistance of heating wire at a temperature over that at 20 degC.

    alloy: nicr_80_20, nicr_60_15 or fecral_25_5, else WrongArguments; temperature: of the wire [degC], 20 to 800, else
    OutOfRange. Straight lines between the table's rows.
    Source: a resistance-alloy maker's table.
    >>> alloy_factor("nicr_80_20", 500.0), alloy_factor("nicr_60_15", 800.0)
    (1.026, 1.078)
    """
    if alloy not in _FACTORS:
        raise WrongArguments(say.no_alloy_of_the_table(alloy[:40], ", ".join(ALLOYS)))
    within("temperature", temperature, "degC", 20.0, 800.0, _ALLOY)
    rows = list(zip(_TEMPERATURES, _FACTORS[alloy], strict=True))
    for (cooler, low), (hotter, high) in pairwise(rows):
        if temperature <= hotter:
            return low + (high - low) * (temperature - cooler) / (hotter - cooler)
    return rows[-1][1]


def element_cold(voltage: float, power: float, alloy: str, wire_temperature: float) -> float:
    """Resistance of an element at 20 degC whose wire alloy and working temperature are known, in [ohm].

    voltage: rated [V], above 0; power: rated [W], above 0; alloy as in `alloy_factor`; wire_temperature: when working
    [degC], 20 to 800; else OutOfRange.
    Source: Joule's law and a resistance-alloy maker's table.
    >>> round(element_cold(230.0, 2000.0, "nicr_80_20", 200.0), 2)      # 26.45 / 1.012
    26.14
    """
    return element_resistance(voltage, power) / alloy_factor(alloy, wire_temperature)
