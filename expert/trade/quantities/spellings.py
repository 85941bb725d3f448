"""Units shared by several kinds, and the other spellings of units that people type."""

from __future__ import annotations

Units = dict[str, tuple[float, float]]

_INCH_OF_MERCURY = 0.0338638866667  # bar; 25.4 mm of mercury of 13595.1 kg/m3 under standard gravity
_PSI = 0.06894757293168361  # bar; one pound force (0.45359237 kg, 9.80665 m/s2) on one square inch (25.4 mm)
PRESSURES: Units = {
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
PRESSURE_SPELLINGS = {
    "bars": "bar",
    "lbs": "psi",
    "kg/cm2": "kgf/cm2",
    "kp/cm2": "kgf/cm2",
    "in hg": "inHg",
    "mm hg": "mmHg",
}
GAUGE_SPELLINGS = {
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
ABSOLUTE_SPELLINGS = {
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
CELSIUS = {
    "°c": "degC",
    "c": "degC",
    "deg c": "degC",
    "celsius": "degC",
    "degrees c": "degC",
    "° c": "degC",
}
FAHRENHEIT = {
    "°f": "degF",
    "f": "degF",
    "deg f": "degF",
    "fahrenheit": "degF",
    "degrees f": "degF",
    "° f": "degF",
}
VOLTS: Units = {"V": (1.0, 0.0), "mV": (0.001, 0.0), "kV": (1000.0, 0.0)}
VOLT_SPELLINGS = {"volt": "V", "volts": "V"}
AC = {"vac": "V", "v ac": "V", "v~": "V", "volt ac": "V", "volts ac": "V", "mv ac": "mV"}
DC = {"vdc": "V", "v dc": "V", "v=": "V", "volt dc": "V", "volts dc": "V", "mv dc": "mV"}
AMPERES: Units = {"A": (1.0, 0.0), "mA": (0.001, 0.0), "uA": (1e-6, 0.0)}
AMPERE_SPELLINGS = {"amp": "A", "amps": "A", "ampere": "A", "μa": "uA"}
OHM = {"ω": "ohm", "ohms": "ohm", "r": "ohm", "kω": "kohm", "k": "kohm", "kohms": "kohm", "kiloohm": "kohm"}
# Milli and mega differ only by the case of one letter, so these spellings are compared as typed.
OHM_AS_TYPED = {
    "mΩ": "mohm",
    "MΩ": "Mohm",
    "M": "Mohm",
    "mohms": "mohm",
    "milliohm": "mohm",
    "milliohms": "mohm",
    "Mohms": "Mohm",
    "mOhm": "mohm",
    "MOHM": "Mohm",
}
MEGOHM = {"megohm": "Mohm", "meg": "Mohm", "megohms": "Mohm", "megaohm": "Mohm", "meg ohm": "Mohm"}
LITRES = {"l": "L", "litre": "L", "litres": "L", "liter": "L", "liters": "L", "cc": "ml", "cm3": "ml"}
ML = {"millilitre": "ml", "millilitres": "ml", "milliliter": "ml", "oz": "fl oz", "floz": "fl oz", "fl. oz": "fl oz"}
FLOWS = {"cc/s": "ml/s", "ml/sec": "ml/s", "cc/min": "ml/min", "lph": "L/h", "l/hr": "L/h", "lpm": "L/min"}
FLOWS |= {"oz/min": "fl oz/min", "floz/min": "fl oz/min"}
SECONDS = {"sec": "s", "secs": "s", "second": "s", "seconds": "s", '"': "s", "mins": "min", "minute": "min"}
HOURS = {"minutes": "min", "m": "min", "'": "min", "hr": "h", "hrs": "h", "hour": "h", "hours": "h", "days": "day"}
METRES = {"metre": "m", "metres": "m", "meter": "m", "meters": "m", '"': "in", "inch": "in", "feet": "ft", "'": "ft"}
HARDNESS = {"°dh": "dH", "°d": "dH", "dh": "dH", "°fh": "fH", "°e": "eH", "clark": "eH", "°clark": "eH"}
HARDNESS_MORE = {"ppm": "mg/L", "mg/l caco3": "mg/L", "ppm caco3": "mg/L", "gpg": "gr/gal", "gr/us gal": "gr/gal"}
SIEMENS = {"μs/cm": "uS/cm", "us": "uS/cm", "μs": "uS/cm", "micros/cm": "uS/cm"}
