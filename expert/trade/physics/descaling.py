"""Taking lime off: how much acid a mass of lime wants, and how long a layer takes."""

from __future__ import annotations

from expert.trade import sentences as say
from expert.trade.errors import WrongArguments, above, within

LIME_MASS = 100.087  # g/mol, CaCO3
LIME_DENSITY = 2.71  # g/cm3, calcite
# Acid: g/mol, and how many of its hydrogens lime takes in practice. Each mole of lime takes two.
_ACIDS = {
    "citric": (192.124, 3),
    "citric_monohydrate": (210.138, 3),
    "lactic": (90.078, 1),
    "sulfamic": (97.094, 1),
    "acetic": (60.052, 1),
    "hydrochloric": (36.461, 1),
}
ACIDS = tuple(_ACIDS)
_DOSE = "the dose of acid for lime"
_TIME = "the rate at which acid dissolves calcite"


def acid_for_lime(lime: float, acid: str) -> float:
    """Least mass of pure acid that dissolves a mass of lime, CaCO3 + 2 H+ -> Ca2+ + CO2 + H2O, in [g].

    lime [g], 0 to 100000, else OutOfRange; acid: citric (dry), citric_monohydrate, lactic, sulfamic, acetic or
    hydrochloric, else WrongArguments. In practice take half as much again (common practice, no source). Only a
    descaler that the maker of the machine allows; never with bleach, never hot under pressure, rinse until neutral.
    Source: molar masses, stoichiometry.
    >>> round(acid_for_lime(100.0, "citric"))      # 2 x 192.12 / (3 x 100.09)
    128
    """
    within("lime", lime, "g", 0.0, 1e5, _DOSE)
    if acid not in _ACIDS:
        raise WrongArguments(say.no_acid_of_the_table(acid[:40], ", ".join(ACIDS)))
    molar_mass, hydrogens = _ACIDS[acid]
    return lime / LIME_MASS * 2 / hydrogens * molar_mass


def descaling_time(thickness: float, ph: float, temperature: float = 25.0) -> float:
    """Least time in which moving acid takes a flat layer of lime off, in [s].

    thickness: of the layer [mm], above 0, at most 20; ph: of the solution, kept there by enough acid, 0.5 to 5;
    temperature [degC], 5 to 60; else OutOfRange. Standing solution and dirty scale take several times as long: the
    end of the bubbles decides, and this only says that a quarter of an hour cannot be enough.
    Source: Plummer, Wigley and Parkhurst, American Journal of Science 278 (1978) 179: rate k1 [H+], log k1 = 0.198 -
    444/T in mmol/(cm2 s) (from memory; compared with the kinetics of PHREEQC).
    >>> round(descaling_time(1.0, 2.0) / 60)      # minutes; PHREEQC's kinetics
    88
    """
    above("thickness", thickness, "mm", 0.0, _TIME)
    within("thickness", thickness, "mm", 0.0, 20.0, _TIME)
    within("pH", ph, "", 0.5, 5.0, _TIME)
    within("temperature", temperature, "degC", 5.0, 60.0, _TIME)
    rate = 10 ** (0.198 - 444 / (temperature + 273.15) - ph)  # mmol/(cm2 s)
    layer = thickness / 10 * LIME_DENSITY / LIME_MASS * 1000  # mmol/cm2
    return float(layer / rate)
