"""The figures about water: hardness, scaling, conductivity."""

from __future__ import annotations

from expert.trade.figures.calculation import Figure, Input
from expert.trade.physics import water_quality

_PH = Input("ph", "number", "", "of the water")
_SOLIDS = Input("solids", "number", "", "dissolved, in mg/L", also=("mg/L", "mg/l", "ppm"))
_WATER = Input("temperature", "temperature", "degC", "of the water")
_CALCIUM = Input("calcium_hardness", "hardness", "mg/L", "as CaCO3")
_ALKALINITY = Input("alkalinity", "hardness", "mg/L", "as CaCO3")
_CONDUCTIVITY = Input("conductivity", "conductivity", "uS/cm", "of the water")

WATER_FIGURES: tuple[Figure, ...] = (
    Figure(
        "hardness_of",
        "Total hardness from calcium and magnesium",
        "2.4973 Ca + 4.1180 Mg",
        (
            Input("calcium", "number", "", "as the ion, in mg/L, as a plain number"),
            Input("magnesium", "number", "", "as the ion, in mg/L, as a plain number"),
        ),
        "hardness",
        "mg/L",
        "molar masses",
        "lib",
        "0 to 2000 mg/L",
        water_quality.hardness_of,
    ),
    Figure(
        "alkalinity_of",
        "Alkalinity from hydrogen carbonate",
        "0.8202 HCO3",
        (Input("hydrogen_carbonate", "number", "", "as the ion, in mg/L, as a plain number"),),
        "hardness",
        "mg/L",
        "molar masses",
        "lib",
        "0 to 5000 mg/L",
        water_quality.alkalinity_of,
    ),
    Figure(
        "saturation_ph",
        "The pH at which water neither scales nor dissolves lime",
        "9.3 + A + B - C - D",
        (_SOLIDS, _WATER, _CALCIUM, _ALKALINITY),
        "number",
        "",
        "short form; worked example in Roberge, Corrosion Engineering, chapter 8",
        "pub",
        "0 to 95 degC, to 125 extrapolated; within 0.3 at best",
        water_quality.saturation_ph,
        within=0.3,
    ),
    Figure(
        "langelier_index",
        "Langelier saturation index: above 0 water tends to scale",
        "pH - pHs",
        (_PH, _SOLIDS, _WATER, _CALCIUM, _ALKALINITY),
        "number",
        "",
        "short form; worked example in Roberge, Corrosion Engineering, chapter 8",
        "pub",
        "0 to 95 degC, to 125 extrapolated; within 0.3 at best, a tendency only",
        water_quality.langelier_index,
        within=0.3,
    ),
    Figure(
        "ryznar_index",
        "Ryznar stability index: below 6.2 water scales, above 6.8 it attacks",
        "2 pHs - pH",
        (_PH, _SOLIDS, _WATER, _CALCIUM, _ALKALINITY),
        "number",
        "",
        "Ryznar 1942, short form of pHs",
        "pub",
        "0 to 95 degC, to 125 extrapolated",
        water_quality.ryznar_index,
        within=0.3,
    ),
    Figure(
        "dissolved_solids",
        "Dissolved solids in mg/L from a conductivity",
        "k x conductivity at 25 degC",
        (_CONDUCTIVITY, Input("factor", "number", "", "k: common salt 0.48, tap water 0.6 to 0.8", 0.64)),
        "number",
        "",
        "usual factor 0.5 to 0.7 for one salt; compared with PHREEQC",
        "pub",
        "0 to 20000 uS/cm; a fifth out for tap water with the usual factor",
        water_quality.dissolved_solids,
    ),
    Figure(
        "conductivity_at_25",
        "Conductivity brought to 25 degC",
        "c / (1 + 0.02 (t - 25))",
        (_CONDUCTIVITY, _WATER),
        "conductivity",
        "uS/cm",
        "2 % per kelvin; compared with PHREEQC",
        "lib",
        "0 to 60 degC; up to 5 % out from 5 to 40 degC, 12 % at 60 degC",
        water_quality.conductivity_at_25,
    ),
    Figure(
        "lime_left",
        "Most lime that water can leave behind when heated",
        "V x temporary hardness",
        (
            Input("volume", "volume", "ml", "of water put through"),
            Input("temporary_hardness", "hardness", "mg/L", "as CaCO3"),
        ),
        "mass",
        "g",
        "definition",
        "pub",
        "0 to 5000 mg/L",
        water_quality.lime_left,
    ),
)
