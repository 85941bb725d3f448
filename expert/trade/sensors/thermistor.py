"""NTC thermistors: the beta formula, Steinhart-Hart, the four-term form, and two common curves from their tables.

A beta value means nothing without its two temperatures, and far from them it is kelvins out; where the part is known,
its own curve is the better judge.
"""

from __future__ import annotations

import math
from bisect import bisect_right

from expert.trade import sentences as say
from expert.trade.errors import above, within

ZERO_CELSIUS = 273.15
LEAST, MOST = -40.0, 160.0  # degC: overheating is when a curve matters, so it goes past what sheets print
_BETA = "the beta formula"
_FOUR_TERM = "the 10 k curve (B25/85 = 3977 K, data sheet 29049)"
_TABLE = "the 50 k table (B25/50 = 3950 K, type 503F3950)"
_STEINHART_HART = "the Steinhart-Hart equation"

_TO_RESISTANCE = (-14.6337, 4791.842, -115334.0, -3.730535e6)
_TO_TEMPERATURE = (3.354016e-3, 2.569850e-4, 2.620131e-6, 6.383091e-8)
# Temperature [degC] and resistance [ohm] as printed; between the rows 1/T runs straight over ln R.
_TABLE_50K = (
    (0.0, 163126.0),
    (20.0, 61918.0),
    (25.0, 50000.0),
    (40.0, 26591.0),
    (50.0, 17941.0),
    (60.0, 12355.0),
    (80.0, 6194.0),
    (90.0, 4498.0),
    (95.0, 3855.0),
    (100.0, 3316.0),
    (110.0, 2479.0),
    (120.0, 1877.0),
    (125.0, 1641.0),
)


def ntc_beta_resistance(resistance_25: float, beta: float, temperature: float) -> float:
    """Resistance of a thermistor by its beta value, R = R25 exp(B (1/T - 1/298.15)), in [ohm].

    resistance_25: at 25 degC [ohm], above 0; beta [K], 1000 to 6000; temperature [degC], -40 to 160; else OutOfRange.
    Exact only at the two temperatures that the beta value is named after.
    Source: definition of beta; compared with the library thermistor-utils.
    >>> round(ntc_beta_resistance(10000.0, 3977.0, 93.0), 1)      # library: 839.7
    839.7
    """
    _check_beta(resistance_25, beta)
    within("temperature", temperature, "degC", LEAST, MOST, _BETA)
    return resistance_25 * math.exp(beta * (1 / (temperature + ZERO_CELSIUS) - 1 / (25 + ZERO_CELSIUS)))


def ntc_temperature(resistance_25: float, beta: float, resistance: float) -> float:
    """Temperature of a thermistor by its beta value, in [degC].

    resistance_25: at 25 degC [ohm], above 0; beta [K], 1000 to 6000; resistance: read [ohm], between those of 160 and
    -40 degC; else OutOfRange.
    Source: inverse of `ntc_beta_resistance`; compared with the library thermistor-utils.
    >>> round(ntc_temperature(10000.0, 3977.0, 5000.0), 3)      # library: 41.342
    41.342
    """
    _check_beta(resistance_25, beta)
    least = ntc_beta_resistance(resistance_25, beta, MOST)
    most = ntc_beta_resistance(resistance_25, beta, LEAST)
    within("resistance", resistance, "ohm", least * (1 - 1e-12), most * (1 + 1e-12), _BETA)
    return 1 / (math.log(resistance / resistance_25) / beta + 1 / (25 + ZERO_CELSIUS)) - ZERO_CELSIUS


def ntc_10k_resistance(temperature: float) -> float:
    """Resistance of the common 10 k thermistor (B25/85 = 3977 K), in [ohm].

    temperature [degC], -40 to 160 (above 125 the sheet's curve is carried on), else OutOfRange.
    Source: four-term form R = R25 exp(A + B/T + C/T^2 + D/T^3) of manufacturer's data sheet 29049.
    >>> round(ntc_10k_resistance(100.0), 1)      # data sheet: 677.3 within 0.1 %
    677.3
    """
    within("temperature", temperature, "degC", LEAST, MOST, _FOUR_TERM)
    a, b, c, d = _TO_RESISTANCE
    kelvin = temperature + ZERO_CELSIUS
    return 10000.0 * math.exp(a + b / kelvin + c / kelvin**2 + d / kelvin**3)


def ntc_10k_temperature(resistance: float) -> float:
    """Temperature of the common 10 k thermistor (B25/85 = 3977 K), in [degC].

    resistance: read [ohm], 145.3 to 332100 (160 down to -40 degC), else OutOfRange.
    Source: four-term form 1/T = A1 + B1 L + C1 L^2 + D1 L^3, L = ln(R/R25), of manufacturer's data sheet 29049.
    >>> round(ntc_10k_temperature(10000.0), 2)      # by definition 25 degC
    25.0
    """
    within("resistance", resistance, "ohm", 145.2, 332200.0, _FOUR_TERM)
    a, b, c, d = _TO_TEMPERATURE
    logarithm = math.log(resistance / 10000.0)
    return 1 / (a + b * logarithm + c * logarithm**2 + d * logarithm**3) - ZERO_CELSIUS


def ntc_50k_resistance(temperature: float) -> float:
    """Resistance of the common 50 k thermistor (B25/50 = 3950 K), in [ohm].

    temperature [degC], -40 to 160, else OutOfRange. Between the table's rows ln R runs straight over 1/T; below 0 and
    above 125 degC Steinhart-Hart through 25, 80 and 125 degC goes on, which is up to 2 K out at the ends.
    Source: thermistor maker's table, type 503F3950.
    >>> round(ntc_50k_resistance(90.0))      # table: 4.498 kohm
    4498
    """
    within("temperature", temperature, "degC", LEAST, MOST, _TABLE)
    if not 0.0 <= temperature <= 125.0:
        return _beyond_the_table(temperature)
    (cold, more), (warm, less) = _rows_around([row[0] for row in _TABLE_50K], temperature)
    cold, warm, kelvin = (value + ZERO_CELSIUS for value in (cold, warm, temperature))
    share = (1 / cold - 1 / kelvin) / (1 / cold - 1 / warm)
    return more * float((less / more) ** share)


def ntc_50k_temperature(resistance: float) -> float:
    """Temperature of the common 50 k thermistor (B25/50 = 3950 K), in [degC].

    resistance: read [ohm], 695 to 1619000 (160 down to -40 degC), else OutOfRange.
    Source: thermistor maker's table, type 503F3950, between rows as in `ntc_50k_resistance`.
    >>> round(ntc_50k_temperature(1877.0), 2)      # table: 120 degC
    120.0
    """
    most = _beyond_the_table(LEAST)
    within("resistance", resistance, "ohm", _beyond_the_table(MOST) * (1 - 1e-12), most * (1 + 1e-12), _TABLE)
    if not 1641.0 <= resistance <= 163126.0:
        return min(max(steinhart_hart_temperature(*_THROUGH_50K, resistance), LEAST), MOST)
    (cold, more), (warm, less) = _rows_around([-row[1] for row in _TABLE_50K], -resistance)
    share = math.log(resistance / more) / math.log(less / more)
    cold, warm = cold + ZERO_CELSIUS, warm + ZERO_CELSIUS
    return 1 / (1 / cold + share * (1 / warm - 1 / cold)) - ZERO_CELSIUS


def steinhart_hart_temperature(a: float, b: float, c: float, resistance: float) -> float:
    """Temperature of a thermistor from its Steinhart-Hart coefficients, 1/T = a + b ln R + c (ln R)^3, in [degC].

    a, b, c: of the part; resistance: read [ohm], above 0; the result must lie from -60 to 200 degC; else OutOfRange.
    Source: Steinhart and Hart, Deep-Sea Research 15 (1968) 497.
    >>> round(steinhart_hart_temperature(1.1445238e-3, 2.3121150e-4, 1.0232851e-7, 10000.0), 2)      # 25 degC
    25.0
    """
    above("resistance", resistance, "ohm", 0.0, _STEINHART_HART)
    logarithm = math.log(resistance)
    inverse = a + b * logarithm + c * logarithm**3
    temperature = 1 / inverse - ZERO_CELSIUS if inverse > 0 else math.inf
    within("temperature", temperature, "degC", -60.0, 200.0, _STEINHART_HART)
    return temperature


def steinhart_hart_through(*points: tuple[float, float]) -> tuple[float, float, float]:
    """The Steinhart-Hart coefficients (a, b, c) of the curve through three points (temperature [degC], resistance
    [ohm]).

    The three resistances must be above 0 and differ, else OutOfRange; other than three points raise ValueError.
    Source: Steinhart and Hart, Deep-Sea Research 15 (1968) 497, solved by divided differences.
    >>> a, b, c = steinhart_hart_through((25.0, 10000.0), (85.0, 1070.3), (125.0, 338.7))
    >>> f"{a:.2e} {b:.2e} {c:.1e}"      # library, from unrounded points: 1.1445e-3 2.3121e-4 1.0233e-7
    '1.14e-03 2.31e-04 1.0e-07'
    """
    if len(points) != 3:
        raise ValueError(say.three_points_are_wanted(len(points)))
    for _, resistance in points:
        above("resistance", resistance, "ohm", 0.0, _STEINHART_HART)
    (y1, l1), (y2, l2), (y3, l3) = ((1 / (t + ZERO_CELSIUS), math.log(r)) for t, r in points)
    if len({l1, l2, l3}) < 3:
        raise ValueError(say.THREE_RESISTANCES)
    second, third = (y2 - y1) / (l2 - l1), (y3 - y1) / (l3 - l1)
    c = (third - second) / (l3 - l2) / (l1 + l2 + l3)
    b = second - c * (l1 * l1 + l1 * l2 + l2 * l2)
    return y1 - (b + l1 * l1 * c) * l1, b, c


def ntc_slope(beta: float, temperature: float) -> float:
    """By how many percent a thermistor's resistance changes per kelvin, -B/T^2, in [%].

    beta [K], 1000 to 6000; temperature [degC], -40 to 150; else OutOfRange.
    Source: derivative of the beta formula.
    >>> round(ntc_slope(3977.0, 93.0), 1)      # -3.0 % per kelvin
    -3.0
    """
    within("beta", beta, "K", 1000.0, 6000.0, _BETA)
    within("temperature", temperature, "degC", LEAST, MOST, _BETA)
    return -100 * beta / (temperature + ZERO_CELSIUS) ** 2


_THROUGH_50K = steinhart_hart_through((25.0, 50000.0), (80.0, 6194.0), (125.0, 1641.0))


def _beyond_the_table(temperature: float) -> float:
    """The 50 k thermistor outside its table: the cubic of Steinhart and Hart solved for ln R (Cardano)."""
    a, b, c = _THROUGH_50K
    x = (a - 1 / (temperature + ZERO_CELSIUS)) / c
    y = math.sqrt((b / (3 * c)) ** 3 + x * x / 4)
    return math.exp(math.cbrt(y - x / 2) - math.cbrt(y + x / 2))


def _check_beta(resistance_25: float, beta: float) -> None:
    above("resistance at 25 degC", resistance_25, "ohm", 0.0, _BETA)
    within("beta", beta, "K", 1000.0, 6000.0, _BETA)


def _rows_around(keys: list[float], key: float) -> tuple[tuple[float, float], tuple[float, float]]:
    place = min(max(bisect_right(keys, key), 1), len(keys) - 1)
    return _TABLE_50K[place - 1], _TABLE_50K[place]
