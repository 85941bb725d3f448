"""The figures about electrical safety limits, meters and water."""

from __future__ import annotations

from expert.trade import fault_currents, meters, safety_limits, water_quality
from expert.trade.figure import Figure, Input

_CLASS = Input("protection_class", "word", "", "of the machine", None, safety_limits.CLASSES)
_HEATERS = Input("power", "power", "W", "of the heaters")
_CORD_LENGTH = Input("cord_length", "length", "m", "of the mains cord")
_CORD_SECTION = Input("cord_section", "area", "mm2", "of one core")
_RATED = Input("rated", "leakage_current", "mA", "residual current on the device")
_PH = Input("ph", "number", "", "of the water")
_SOLIDS = Input("solids", "number", "", "dissolved, in mg/L, as a plain number")
_WATER = Input("temperature", "temperature", "degC", "of the water")
_CALCIUM = Input("calcium_hardness", "hardness", "mg/L", "as CaCO3")
_ALKALINITY = Input("alkalinity", "hardness", "mg/L", "as CaCO3")
_CONDUCTIVITY = Input("conductivity", "conductivity", "uS/cm", "of the water")
_COUNTRY = "the country decides which set holds; local codes take precedence"

_SAFETY = (
    Figure(
        "earth_limit",
        "Highest earth bond resistance that passes",
        "by set: table, plus the cord",
        (
            Input("limit_set", "word", "", "which rules hold", None, safety_limits.EARTH_SETS),
            _CORD_LENGTH,
            _CORD_SECTION,
        ),
        "resistance",
        "ohm",
        "IEC 60335-1, EN 50106, IET Code of Practice, DGUV 203-071; AS/NZS 3760 from memory",
        "pub",
        _COUNTRY,
        safety_limits.earth_limit,
    ),
    Figure(
        "insulation_limit",
        "Lowest insulation resistance at 500 V DC that passes",
        "by set: table",
        (
            Input("limit_set", "word", "", "which rules hold", None, safety_limits.INSULATION_SETS),
            _CLASS,
            Input("heating", "word", "", "whether it has heaters", None, safety_limits.HEATING),
            _HEATERS,
        ),
        "resistance",
        "Mohm",
        "IET Code of Practice, DGUV 203-071; AS/NZS 3760 from memory",
        "pub",
        _COUNTRY,
        safety_limits.insulation_limit,
    ),
    Figure(
        "leakage_limit",
        "Highest leakage current that passes",
        "by set: table, for heating per kW",
        (
            Input("limit_set", "word", "", "which rules hold", None, safety_limits.LEAKAGE_SETS),
            _CLASS,
            _HEATERS,
        ),
        "leakage_current",
        "mA",
        "IEC 60335-1 13.2, IET Code of Practice, DGUV 203-071; catering and australia from memory",
        "pub",
        _COUNTRY,
        safety_limits.leakage_limit,
    ),
    Figure(
        "cord_core_resistance",
        "Highest resistance of one core of a sound mains cord",
        "ohm per km x length",
        (_CORD_LENGTH, _CORD_SECTION),
        "resistance",
        "ohm",
        "IEC 60228, class 5",
        "pub",
        "0.75, 1, 1.5, 2.5 mm2; 20 degC",
        safety_limits.cord_core_resistance,
    ),
    Figure(
        "insulation_shown",
        "What an insulation tester must show so that its error hides no fail",
        "limit / (1 - error)",
        (
            Input("limit", "resistance", "Mohm", "that must be met"),
            Input("error_percent", "number", "%", "of the tester in use", 30.0),
        ),
        "resistance",
        "Mohm",
        "IEC 61557-2 allows 30 % in use",
        "pub",
        "errors up to 90 %",
        safety_limits.insulation_shown,
    ),
    Figure(
        "insulation_current",
        "Current through an insulation resistance",
        "U / R",
        (
            Input("voltage", "dc_voltage", "V", "of the tester"),
            Input("resistance", "resistance", "ohm", "of the insulation"),
        ),
        "leakage_current",
        "mA",
        "Ohm's law",
        "pub",
        "above 0",
        fault_currents.insulation_current,
    ),
    Figure(
        "filter_leakage",
        "Leakage of a sound filter capacitor to earth",
        "2 pi f C U",
        (
            Input("capacitance", "capacitance", "uF", "of one capacitor to earth"),
            Input("voltage", "ac_voltage", "V", "across it"),
            Input("frequency", "frequency", "Hz", "of the mains", 50.0),
        ),
        "leakage_current",
        "mA",
        "reactance of a capacitor",
        "pub",
        "above 0",
        fault_currents.filter_leakage,
    ),
    Figure(
        "rcd_must_hold",
        "Residual current at which a residual current device must not trip",
        "half the rated current",
        (_RATED,),
        "leakage_current",
        "mA",
        "residual current devices: holds at half, trips at rated, between undefined",
        "pub",
        "6 to 500 mA",
        fault_currents.rcd_must_hold,
    ),
    Figure(
        "rcd_must_trip",
        "Residual current at which a residual current device must trip",
        "the rated current",
        (_RATED,),
        "leakage_current",
        "mA",
        "residual current devices: holds at half, trips at rated, between undefined",
        "pub",
        "6 to 500 mA",
        fault_currents.rcd_must_trip,
    ),
)

_METERS = (
    Figure(
        "gauge_uncertainty",
        "How far a dial gauge may be out",
        "class / 100 x full scale",
        (
            Input("accuracy_class", "number", "", "printed on the dial"),
            Input("full_scale", "gauge_pressure", "bar", "end of the scale"),
        ),
        "pressure_difference",
        "bar",
        "EN 837-1",
        "pub",
        "classes 0.1 to 4",
        meters.gauge_uncertainty,
    ),
    Figure(
        "thermocouple_uncertainty",
        "How far a type K thermocouple may be out, the meter not counted",
        "class 1: 1.5 K, class 2: 2.5 K",
        (
            Input("tolerance_class", "word", "", "of the wire", None, meters.THERMOCOUPLE_CLASSES),
            Input("temperature", "temperature", "degC", "measured"),
        ),
        "temperature_difference",
        "K",
        "IEC 60584",
        "pub",
        "-40 to 333 degC",
        meters.thermocouple_uncertainty,
    ),
)

_WATER_FIGURES = (
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
    ),
    Figure(
        "dissolved_solids",
        "Dissolved solids in mg/L from a conductivity",
        "k x conductivity at 25 degC",
        (_CONDUCTIVITY, Input("factor", "number", "", "k, 0.5 to 0.7", 0.64)),
        "number",
        "",
        "usual factor 0.5 to 0.7",
        "pub",
        "0 to 20000 uS/cm",
        water_quality.dissolved_solids,
    ),
    Figure(
        "conductivity_at_25",
        "Conductivity brought to 25 degC",
        "c / (1 + 0.02 (t - 25))",
        (_CONDUCTIVITY, _WATER),
        "conductivity",
        "uS/cm",
        "about 2 % per kelvin, from memory, to be confirmed",
        "mem",
        "0 to 60 degC",
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

SAFETY_FIGURES: tuple[Figure, ...] = _SAFETY + _METERS
WATER_FIGURES: tuple[Figure, ...] = _WATER_FIGURES
