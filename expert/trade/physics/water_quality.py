"""Water: hardness, scaling tendency, conductivity, and what a level probe can see.

The index formulas are within 0.3 at best, so a tendency is reported in words; boiling off carbon dioxide and
concentrating in a steam boiler make the scaling worse than computed.
"""

from __future__ import annotations

import math

from expert.trade.errors import above, within

CALCIUM, MAGNESIUM, HYDROGEN_CARBONATE = 2.4973, 4.1180, 0.8202  # mg/L CaCO3 per mg/L, from molar masses
LEAST_FOR_PROBE, SURE_FOR_PROBE = 10.0, 50.0  # uS/cm; 10 from a level-switch maker, 50 common practice
_INDEX = "the short saturation index formula"
_SOLIDS = "dissolved solids from conductivity"


def hardness_of(calcium: float, magnesium: float) -> float:
    """Total hardness of water from its calcium and magnesium, as CaCO3, in [mg/L].

    calcium, magnesium: as the ion [mg/L], 0 to 2000, else OutOfRange.
    Source: molar masses (Ca 40.078, Mg 24.305, CaCO3 100.087 g/mol).
    >>> round(hardness_of(100.0, 10.0), 1)      # 249.73 + 41.18
    290.9
    """
    within("calcium", calcium, "mg/L", 0.0, 2000.0, "hardness from an analysis")
    within("magnesium", magnesium, "mg/L", 0.0, 2000.0, "hardness from an analysis")
    return CALCIUM * calcium + MAGNESIUM * magnesium


def alkalinity_of(hydrogen_carbonate: float) -> float:
    """Alkalinity of water from its hydrogen carbonate, as CaCO3, in [mg/L].

    hydrogen_carbonate: as the ion [mg/L], 0 to 5000, else OutOfRange.
    Source: molar masses (HCO3 61.017, CaCO3 100.087 g/mol).
    >>> round(alkalinity_of(100.0), 2)      # 0.8202 per mg/L
    82.02
    """
    within("hydrogen carbonate", hydrogen_carbonate, "mg/L", 0.0, 5000.0, "alkalinity from an analysis")
    return HYDROGEN_CARBONATE * hydrogen_carbonate


def hardness_class(hardness: float) -> str:
    """The word for a hardness; other bodies than this one cut elsewhere.

    hardness: as CaCO3 [mg/L], 0 or more, else OutOfRange.
    Source: USGS classes: to 60 soft, to 120 moderately hard, to 180 hard, above very hard.
    >>> hardness_class(124.9), hardness_class(60.0)
    ('hard', 'soft')
    """
    within("hardness", hardness, "mg/L", 0.0, 1e5, "the USGS table of classes")
    classes = ((60.0, "soft"), (120.0, "moderately hard"), (180.0, "hard"))
    return next((word for limit, word in classes if hardness <= limit), "very hard")


def saturation_ph(solids: float, temperature: float, calcium_hardness: float, alkalinity: float) -> float:
    """The pH at which water neither scales nor dissolves lime, pHs = 9.3 + A + B - C - D.

    solids: dissolved [mg/L], 1 to 10000; temperature [degC], 0 to 95, or to 125 as an extrapolation for boilers;
    calcium_hardness, alkalinity: as CaCO3 [mg/L], 1 to 5000; else OutOfRange. Within 0.3 at best.
    Source: short form of Langelier's index; worked example in Roberge, Corrosion Engineering, chapter 8.
    >>> round(saturation_ph(320.0, 25.0, 150.0, 34.0), 1)      # worked example: 8.2
    8.2
    """
    within("dissolved solids", solids, "mg/L", 1.0, 1e4, _INDEX)
    within("temperature", temperature, "degC", 0.0, 125.0, _INDEX)
    within("calcium hardness", calcium_hardness, "mg/L", 1.0, 5000.0, _INDEX)
    within("alkalinity", alkalinity, "mg/L", 1.0, 5000.0, _INDEX)
    a = (math.log10(solids) - 1) / 10
    b = -13.12 * math.log10(temperature + 273) + 34.55
    return 9.3 + a + b - (math.log10(calcium_hardness) - 0.4) - math.log10(alkalinity)


def langelier_index(ph: float, solids: float, temperature: float, calcium_hardness: float, alkalinity: float) -> float:
    """Langelier saturation index, pH - pHs, in [pH]; above 0 water tends to scale, below 0 to dissolve lime.

    ph: 4 to 12; the others as in `saturation_ph`; else OutOfRange. Within 0.3 at best: speak of a tendency.
    Source: Langelier 1936 in its short form; worked example in Roberge, Corrosion Engineering, chapter 8.
    >>> round(langelier_index(7.5, 320.0, 82.0, 150.0, 34.0), 1)      # worked example: +0.3
    0.3
    """
    within("pH", ph, "", 4.0, 12.0, _INDEX)
    return ph - saturation_ph(solids, temperature, calcium_hardness, alkalinity)


def ryznar_index(ph: float, solids: float, temperature: float, calcium_hardness: float, alkalinity: float) -> float:
    """Ryznar stability index, 2 pHs - pH, in [pH]; below 6.2 water scales, above 6.8 it attacks.

    ph: 4 to 12; the others as in `saturation_ph`; else OutOfRange.
    Source: Ryznar 1942, with the short form of pHs.
    >>> round(ryznar_index(7.5, 320.0, 25.0, 150.0, 34.0), 2)      # 8.962
    8.96
    """
    within("pH", ph, "", 4.0, 12.0, _INDEX)
    return 2 * saturation_ph(solids, temperature, calcium_hardness, alkalinity) - ph


def scaling_tendency(langelier: float) -> str:
    """The Langelier index in words, as coarse as the formula is: within 0.3 of balance it says neither.

    langelier: index, -10 to 10, else OutOfRange.
    Source: sign of the index; the width of the middle is the error of the formula against PHREEQC.
    >>> scaling_tendency(1.5), scaling_tendency(0.2), scaling_tendency(-0.7)
    ('tends to scale', 'near balance', 'tends to dissolve lime')
    """
    within("Langelier index", langelier, "", -10.0, 10.0, _INDEX)
    if abs(langelier) <= 0.3:
        return "near balance"
    return "tends to scale" if langelier > 0 else "tends to dissolve lime"


def ryznar_tendency(ryznar: float) -> str:
    """The Ryznar index in words.

    ryznar: index, -10 to 30, else OutOfRange.
    Source: Ryznar 1942: below 5.5 heavy scale, to 6.2 scale, to 6.8 none, to 8.5 aggressive, above very aggressive.
    >>> ryznar_tendency(5.0), ryznar_tendency(8.96)
    ('heavy scale', 'very aggressive')
    """
    within("Ryznar index", ryznar, "", -10.0, 30.0, _INDEX)
    words = ((5.5, "heavy scale"), (6.2, "scale"), (6.8, "neither"))
    found = next((word for limit, word in words if ryznar < limit), None)
    return found or ("aggressive" if ryznar <= 8.5 else "very aggressive")


def dissolved_solids(conductivity: float, factor: float = 0.64) -> float:
    """Dissolved solids that a conductivity stands for, in [mg/L].

    conductivity: at 25 degC [uS/cm], 0 to 20000; factor: 0.45 to 0.85 (common salt 0.48, potassium
    chloride 0.50, tap water 0.6 to 0.8: the makers' scales differ); else OutOfRange.
    Source: usual factor 0.5 to 0.7, here 0.64, as conductivity makers give it.
    >>> round(dissolved_solids(500.0))      # 0.64 times 500
    320
    """
    within("conductivity", conductivity, "uS/cm", 0.0, 2e4, _SOLIDS)
    within("factor", factor, "", 0.45, 0.85, _SOLIDS)
    return factor * conductivity


def conductivity_at_25(conductivity: float, temperature: float) -> float:
    """Conductivity brought to 25 degC, 2 % per kelvin, in [uS/cm].

    conductivity: read [uS/cm], 0 or more; temperature: of the water [degC], 0 to 60; else OutOfRange.
    Source: +2 % per kelvin, usual; compared with PHREEQC: up to 5 % out from 5 to 40 degC, 12 % at 60 degC.
    >>> round(conductivity_at_25(110.0, 30.0), 6)
    100.0
    """
    within("conductivity", conductivity, "uS/cm", 0.0, 1e6, "2 % per kelvin")
    within("temperature", temperature, "degC", 0.0, 60.0, "2 % per kelvin")
    return conductivity / (1 + 0.02 * (temperature - 25))


def probe_verdict(conductivity: float) -> str:
    """What a conductive level probe makes of water: blind (the boiler overfills), doubtful, or sound.

    conductivity [uS/cm], 0 or more, else OutOfRange. Scale and dirt on the probe come on top.
    Source: more than 10 uS/cm, a level-switch maker; doubtful up to 50: common practice, no source.
    >>> probe_verdict(5.0), probe_verdict(20.0), probe_verdict(300.0)
    ('blind', 'doubtful', 'sound')
    """
    within("conductivity", conductivity, "uS/cm", 0.0, 1e6, "level probe practice")
    if conductivity < LEAST_FOR_PROBE:
        return "blind"
    return "doubtful" if conductivity <= SURE_FOR_PROBE else "sound"


def lime_left(volume: float, temporary_hardness: float) -> float:
    """Most lime that water can leave behind when heated, in [g].

    volume: of water put through [ml], above 0; temporary_hardness: as CaCO3 [mg/L], 0 to 5000; else OutOfRange.
    Source: definition: 100 mg/L leaves at most 100 g per cubic metre.
    >>> lime_left(1e6, 100.0)      # one cubic metre
    100.0
    """
    above("volume", volume, "ml", 0.0, "the lime balance")
    within("temporary hardness", temporary_hardness, "mg/L", 0.0, 5000.0, "the lime balance")
    return volume / 1000 * temporary_hardness / 1000
