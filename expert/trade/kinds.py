"""The kinds of quantity met on the bench: their units, spellings, trade digits and believable ranges.

A small closed table. Things that only look alike are different kinds: gauge and absolute pressure, a temperature and
a temperature difference, AC and DC voltage. Where the same unit name serves several kinds, the kind that is wanted
decides; a spelling that names its kind (`bar abs`, `V DC`) belongs to that kind alone.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import NamedTuple

Units = dict[str, tuple[float, float]]


class Kind(NamedTuple):
    """One kind of quantity. A number n in a unit is n * factor + offset in the base unit."""

    name: str
    words: str
    family: str
    base: str
    units: Mapping[str, tuple[float, float]]
    believable: tuple[float, float]
    spellings: Mapping[str, str] = MappingProxyType({})
    us: str = ""
    ladder: tuple[tuple[float, str], ...] = ()
    shown: Mapping[str, str] = MappingProxyType({})
    significant: int = 4
    most_decimals: int = 2
    trim: bool = True
    over_range: bool = False

    def preferred(self, system: str) -> str:
        """The unit that a bare number has, and that a message offers first."""
        return self.us if system == "us" and self.us else self.base


_INCH_OF_MERCURY = 0.0338638866667  # bar; 25.4 mm of mercury of 13595.1 kg/m3 under standard gravity
_PSI = 0.0689475729317831  # bar; one pound force (0.45359237 kg, 9.80665 m/s2) on one square inch (25.4 mm)
_PRESSURES: Units = {
    "bar": (1.0, 0.0),
    "psi": (_PSI, 0.0),
    "kPa": (0.01, 0.0),
    "mbar": (0.001, 0.0),
    "hPa": (0.001, 0.0),
    "MPa": (10.0, 0.0),
    "Pa": (1e-5, 0.0),
    "atm": (1.01325, 0.0),
    "kgf/cm2": (0.980665, 0.0),
    "inHg": (_INCH_OF_MERCURY, 0.0),
    "mmHg": (_INCH_OF_MERCURY / 25.4, 0.0),
}
_PRESSURE_SPELLINGS = {
    "bars": "bar",
    "lbs": "psi",
    "kg/cm2": "kgf/cm2",
    "kp/cm2": "kgf/cm2",
    "in hg": "inHg",
    "mm hg": "mmHg",
}
_GAUGE_SPELLINGS = {
    "bar g": "bar",
    "barg": "bar",
    "bar(g)": "bar",
    "bar gauge": "bar",
    "psig": "psi",
    "psi g": "psi",
    "psi gauge": "psi",
    "kpa g": "kPa",
    "kpa gauge": "kPa",
}
_ABSOLUTE_SPELLINGS = {
    "bar abs": "bar",
    "bar a": "bar",
    "bara": "bar",
    "bar(a)": "bar",
    "bar absolute": "bar",
    "psia": "psi",
    "psi abs": "psi",
    "psi absolute": "psi",
    "kpa abs": "kPa",
    "mbar abs": "mbar",
    "hpa abs": "hPa",
    "mpa abs": "MPa",
    "pa abs": "Pa",
    "atm abs": "atm",
    "kgf/cm2 abs": "kgf/cm2",
    "inhg abs": "inHg",
    "mmhg abs": "mmHg",
}
_CELSIUS = {
    "°c": "degC",
    "c": "degC",
    "deg c": "degC",
    "celsius": "degC",
    "degrees c": "degC",
    "° c": "degC",
}
_FAHRENHEIT = {
    "°f": "degF",
    "f": "degF",
    "deg f": "degF",
    "fahrenheit": "degF",
    "degrees f": "degF",
    "° f": "degF",
}
_VOLTS: Units = {"V": (1.0, 0.0), "mV": (0.001, 0.0), "kV": (1000.0, 0.0)}
_VOLT_SPELLINGS = {"volt": "V", "volts": "V"}
_AC = {"vac": "V", "v ac": "V", "v~": "V", "volt ac": "V", "volts ac": "V", "mv ac": "mV"}
_DC = {"vdc": "V", "v dc": "V", "v=": "V", "volt dc": "V", "volts dc": "V", "mv dc": "mV"}
_AMPERES: Units = {"A": (1.0, 0.0), "mA": (0.001, 0.0), "uA": (1e-6, 0.0)}
_AMPERE_SPELLINGS = {"amp": "A", "amps": "A", "ampere": "A", "μa": "uA"}
_OHM = {"ω": "ohm", "ohms": "ohm", "r": "ohm", "kω": "kohm", "k": "kohm", "kohms": "kohm", "kiloohm": "kohm"}
# Milli and mega differ only by the case of one letter, so these spellings are compared as typed.
_OHM_AS_TYPED = {
    "mΩ": "mohm",
    "MΩ": "Mohm",
    "M": "Mohm",
    "mohms": "mohm",
    "Mohms": "Mohm",
    "mOhm": "mohm",
    "MOHM": "Mohm",
}
_MEGOHM = {"megohm": "Mohm", "meg": "Mohm", "megohms": "Mohm", "megaohm": "Mohm", "meg ohm": "Mohm"}
_LITRES = {"l": "L", "litre": "L", "litres": "L", "liter": "L", "liters": "L", "cc": "ml", "cm3": "ml"}
_ML = {"millilitre": "ml", "millilitres": "ml", "milliliter": "ml", "oz": "fl oz", "floz": "fl oz", "fl. oz": "fl oz"}
_FLOWS = {"cc/s": "ml/s", "ml/sec": "ml/s", "cc/min": "ml/min", "lph": "L/h", "l/hr": "L/h", "lpm": "L/min"}
_SECONDS = {"sec": "s", "secs": "s", "second": "s", "seconds": "s", '"': "s", "mins": "min", "minute": "min"}
_HOURS = {"minutes": "min", "m": "min", "'": "min", "hr": "h", "hrs": "h", "hour": "h", "hours": "h", "days": "day"}
_METRES = {"metre": "m", "metres": "m", "meter": "m", "meters": "m", '"': "in", "inch": "in", "feet": "ft", "'": "ft"}
_HARDNESS = {"°dh": "dH", "°d": "dH", "dh": "dH", "°fh": "fH", "°e": "eH", "clark": "eH", "°clark": "eH"}
_HARDNESS_MORE = {"ppm": "mg/L", "mg/l caco3": "mg/L", "ppm caco3": "mg/L", "gpg": "gr/gal", "gr/us gal": "gr/gal"}
_SIEMENS = {"μs/cm": "uS/cm", "us": "uS/cm", "μs": "uS/cm", "micros/cm": "uS/cm"}

_ALL = (
    Kind(
        "gauge_pressure",
        "gauge pressure",
        "pressure",
        "bar",
        _PRESSURES,
        (-1.1, 40.0),
        {**_PRESSURE_SPELLINGS, **_GAUGE_SPELLINGS},
        us="psi",
        significant=3,
        trim=False,
    ),
    Kind(
        "absolute_pressure",
        "absolute pressure",
        "pressure",
        "bar",
        _PRESSURES,
        (0.0, 41.0),
        {**_PRESSURE_SPELLINGS, **_ABSOLUTE_SPELLINGS},
        us="psi",
        shown={unit: f"{unit} abs" for unit in _PRESSURES},
        significant=4,
        most_decimals=3,
        trim=False,
    ),
    Kind(
        "pressure_difference",
        "pressure difference",
        "pressure",
        "bar",
        _PRESSURES,
        (-40.0, 40.0),
        _PRESSURE_SPELLINGS,
        us="psi",
        significant=3,
        trim=False,
    ),
    Kind(
        "temperature",
        "temperature",
        "temperature",
        "degC",
        {"degC": (1.0, 0.0), "degF": (5.0 / 9.0, -160.0 / 9.0), "K": (1.0, -273.15)},
        (-60.0, 700.0),
        {**_CELSIUS, **_FAHRENHEIT, "kelvin": "K"},
        us="degF",
        shown={"degC": "°C", "degF": "°F"},
        most_decimals=1,
        over_range=True,
    ),
    Kind(
        "temperature_difference",
        "temperature difference",
        "temperature",
        "K",
        {"K": (1.0, 0.0), "degC": (1.0, 0.0), "degF": (5.0 / 9.0, 0.0)},
        (-700.0, 700.0),
        {**_CELSIUS, **_FAHRENHEIT, "kelvin": "K"},
        us="degF",
        shown={"degC": "°C", "degF": "°F"},
    ),
    Kind(
        "resistance",
        "resistance",
        "resistance",
        "ohm",
        {"ohm": (1.0, 0.0), "kohm": (1e3, 0.0), "Mohm": (1e6, 0.0), "mohm": (1e-3, 0.0), "Gohm": (1e9, 0.0)},
        (0.0, 2e12),
        {**_OHM, **_OHM_AS_TYPED, **_MEGOHM, "gω": "Gohm"},
        ladder=((1e9, "Gohm"), (1e6, "Mohm"), (1e3, "kohm")),
        most_decimals=4,
        over_range=True,
    ),
    Kind(
        "ac_voltage",
        "AC voltage",
        "voltage",
        "V",
        _VOLTS,
        (0.0, 1100.0),
        {**_VOLT_SPELLINGS, **_AC},
        over_range=True,
    ),
    Kind(
        "dc_voltage",
        "DC voltage",
        "voltage",
        "V",
        _VOLTS,
        (-1100.0, 1100.0),
        {**_VOLT_SPELLINGS, **_DC},
        most_decimals=3,
        over_range=True,
    ),
    Kind(
        "current",
        "current",
        "current",
        "A",
        _AMPERES,
        (-125.0, 125.0),
        _AMPERE_SPELLINGS,
        most_decimals=4,
        over_range=True,
    ),
    Kind(
        "leakage_current",
        "leakage current",
        "current",
        "mA",
        {"mA": (1.0, 0.0), "uA": (1e-3, 0.0), "A": (1e3, 0.0)},
        (0.0, 1000.0),
        _AMPERE_SPELLINGS,
        most_decimals=3,
        over_range=True,
    ),
    Kind(
        "power",
        "power",
        "power",
        "W",
        {"W": (1.0, 0.0), "kW": (1e3, 0.0)},
        (0.0, 50e3),
        {"watt": "W", "watts": "W", "va": "W", "kilowatt": "kW"},
        ladder=((10e3, "kW"),),
    ),
    Kind(
        "energy",
        "energy",
        "energy",
        "J",
        {"J": (1.0, 0.0), "kJ": (1e3, 0.0), "kWh": (3.6e6, 0.0), "Wh": (3600.0, 0.0)},
        (0.0, 1e10),
        {"joule": "J", "joules": "J"},
        ladder=((3.6e6, "kWh"), (1e3, "kJ")),
    ),
    Kind(
        "volume",
        "volume",
        "volume",
        "ml",
        {
            "ml": (1.0, 0.0),
            "L": (1e3, 0.0),
            "cl": (10.0, 0.0),
            "fl oz": (29.5735295625, 0.0),
            "gal": (3785.411784, 0.0),
        },
        (0.0, 1e6),
        {**_LITRES, **_ML},
        us="fl oz",
        ladder=((1e3, "L"),),
    ),
    Kind(
        "flow",
        "flow",
        "flow",
        "ml/s",
        {
            "ml/s": (1.0, 0.0),
            "ml/min": (1 / 60, 0.0),
            "L/min": (1000 / 60, 0.0),
            "L/h": (1 / 3.6, 0.0),
            "L/s": (1e3, 0.0),
        },
        (0.0, 5e3),
        _FLOWS,
    ),
    Kind(
        "mass",
        "mass",
        "mass",
        "g",
        {"g": (1.0, 0.0), "kg": (1e3, 0.0), "mg": (1e-3, 0.0), "oz": (28.349523125, 0.0), "lb": (453.59237, 0.0)},
        (0.0, 1e6),
        {"gram": "g", "grams": "g", "gr": "g", "kilo": "kg", "kilos": "kg", "lbs": "lb"},
        ladder=((1e3, "kg"),),
    ),
    Kind(
        "time",
        "time",
        "time",
        "s",
        {"s": (1.0, 0.0), "min": (60.0, 0.0), "h": (3600.0, 0.0), "ms": (1e-3, 0.0), "day": (86400.0, 0.0)},
        (0.0, 3.2e8),
        {**_SECONDS, **_HOURS},
        most_decimals=3,
    ),
    Kind(
        "length",
        "length",
        "length",
        "m",
        {
            "m": (1.0, 0.0),
            "mm": (1e-3, 0.0),
            "cm": (1e-2, 0.0),
            "km": (1e3, 0.0),
            "ft": (0.3048, 0.0),
            "in": (0.0254, 0.0),
        },
        (-500.0, 11e3),
        _METRES,
        us="ft",
        ladder=((1.0, "m"), (0.0, "mm")),
        most_decimals=3,
    ),
    Kind("area", "area", "area", "mm2", {"mm2": (1.0, 0.0), "cm2": (100.0, 0.0)}, (0.0, 1e6), {"sq mm": "mm2"}),
    Kind(
        "frequency",
        "frequency",
        "frequency",
        "Hz",
        {"Hz": (1.0, 0.0), "kHz": (1e3, 0.0)},
        (0.0, 1e6),
        {"hertz": "Hz"},
        over_range=True,
    ),
    Kind(
        "hardness",
        "hardness",
        "hardness",
        "mg/L",
        # Each is its mass of CaO or CaCO3 per volume, turned into CaCO3 (100.087 g/mol; CaO 56.077 g/mol).
        {
            "mg/L": (1.0, 0.0),
            "dH": (17.848, 0.0),
            "fH": (10.0, 0.0),
            "eH": (14.254, 0.0),
            "gr/gal": (17.118, 0.0),
            "mmol/L": (100.087, 0.0),
        },
        (0.0, 5e3),
        {**_HARDNESS, **_HARDNESS_MORE},
        us="gr/gal",
        shown={"dH": "°dH", "fH": "°fH", "eH": "°e"},
    ),
    Kind(
        "conductivity",
        "conductivity",
        "conductivity",
        "uS/cm",
        {"uS/cm": (1.0, 0.0), "mS/cm": (1e3, 0.0), "S/m": (1e4, 0.0)},
        (0.0, 1e6),
        _SIEMENS,
        shown={"uS/cm": "µS/cm"},
        over_range=True,
    ),
    Kind(
        "capacitance",
        "capacitance",
        "capacitance",
        "uF",
        {"uF": (1.0, 0.0), "nF": (1e-3, 0.0), "pF": (1e-6, 0.0), "F": (1e6, 0.0)},
        (0.0, 1e5),
        {"μf": "uF", "u": "uF", "μ": "uF", "mfd": "uF", "n": "nF", "p": "pF"},
        ladder=((1.0, "uF"), (1e-3, "nF"), (0.0, "pF")),
        shown={"uF": "µF"},
        over_range=True,
    ),
    Kind(
        "number",
        "number",
        "number",
        "",
        {"": (1.0, 0.0), "%": (0.01, 0.0)},
        (-1e12, 1e12),
        {"percent": "%", "x": ""},
        significant=6,
        most_decimals=6,
    ),
)
KINDS: Mapping[str, Kind] = MappingProxyType({kind.name: kind for kind in _ALL})
