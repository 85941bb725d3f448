"""The figures about electrical safety limits, the mains and the accuracy of gauges."""

from __future__ import annotations

from expert.trade.figures.calculation import Figure, Input
from expert.trade.limits import electrical, mains
from expert.trade.physics import fault_currents
from expert.trade.sensors import meters

_CLASS = Input("protection_class", "word", "", "of the machine", None, electrical.CLASSES)
_HEATERS = Input("power", "power", "W", "of the heaters")
_CORD_LENGTH = Input("cord_length", "length", "m", "of the mains cord")
_CORD_SECTION = Input("cord_section", "area", "mm2", "of one core")
_RATED = Input("rated", "leakage_current", "mA", "residual current on the device")
_COUNTRY = "the country decides which set holds; local codes take precedence"
_BAND = Input("band", "word", "", "which mains band holds", None, mains.BANDS)

_SAFETY = (
    Figure(
        "earth_limit",
        "Highest earth bond resistance that passes",
        "by set: table, plus the cord",
        (
            Input("limit_set", "word", "", "which rules hold", None, electrical.EARTH_SETS),
            _CORD_LENGTH,
            _CORD_SECTION,
        ),
        "resistance",
        "ohm",
        "IEC 60335-1, EN 50106, IET Code of Practice, DGUV 203-071; AS/NZS 3760 from memory",
        "pub",
        _COUNTRY,
        electrical.earth_limit,
    ),
    Figure(
        "insulation_limit",
        "Lowest insulation resistance at 500 V DC that passes",
        "by set: table",
        (
            Input("limit_set", "word", "", "which rules hold", None, electrical.INSULATION_SETS),
            _CLASS,
            Input("heating", "word", "", "whether it has heaters", None, electrical.HEATING),
            _HEATERS,
        ),
        "resistance",
        "Mohm",
        "IET Code of Practice, DGUV 203-071; AS/NZS 3760 from memory",
        "pub",
        _COUNTRY,
        electrical.insulation_limit,
    ),
    Figure(
        "leakage_limit",
        "Highest leakage current that passes",
        "by set: table, for heating per kW",
        (
            Input("limit_set", "word", "", "which rules hold", None, electrical.LEAKAGE_SETS),
            _CLASS,
            _HEATERS,
        ),
        "leakage_current",
        "mA",
        "IEC 60335-1 13.2, IET Code of Practice, DGUV 203-071; catering and australia from memory",
        "pub",
        _COUNTRY,
        electrical.leakage_limit,
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
        electrical.cord_core_resistance,
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
        electrical.insulation_shown,
    ),
    Figure(
        "insulation_current",
        "Current through an insulation resistance",
        "U / R",
        (
            Input("voltage", "dc_voltage", "V", "of the tester"),
            Input("resistance", "resistance", "ohm", "of the insulation", needs_unit=True),
        ),
        "leakage_current",
        "mA",
        "Ohm's law",
        "law",
        "above 0",
        fault_currents.insulation_current,
    ),
    Figure(
        "filter_leakage",
        "Leakage of a sound filter capacitor to earth",
        "2 pi f C U",
        (
            Input("capacitance", "capacitance", "uF", "of one capacitor to earth", needs_unit=True),
            Input("voltage", "ac_voltage", "V", "across it"),
            Input("frequency", "frequency", "Hz", "of the mains", 50.0),
        ),
        "leakage_current",
        "mA",
        "reactance of a capacitor",
        "law",
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

_MAINS = (
    Figure(
        "mains_lowest",
        "Lowest mains voltage within a band",
        "table",
        (_BAND,),
        "ac_voltage",
        "V",
        "europe IEC 60038, as quoted; bands in use and north_america (ANSI C84.1) from memory",
        "pub",
        "the bands named",
        mains.mains_lowest,
    ),
    Figure(
        "mains_highest",
        "Highest mains voltage within a band",
        "table",
        (_BAND,),
        "ac_voltage",
        "V",
        "europe IEC 60038, as quoted; bands in use and north_america (ANSI C84.1) from memory",
        "pub",
        "the bands named",
        mains.mains_highest,
    ),
)

SAFETY_FIGURES: tuple[Figure, ...] = _SAFETY + _MAINS + _METERS
