"""Every unit of every kind, against pint over the whole believable range, and against factors printed by NIST."""

from __future__ import annotations

import random

import pint
import pytest

from expert.trade.quantities.units import KINDS, read_quantity

from .conftest import Check
from .sources import independent, restated

KIND = "units"
LIBRARY = independent("pint")
MERCURY = independent("pint, conventional mercury to six digits")
PRINTED = restated("NIST SP 811 (2008), appendix B.8, from memory, to be confirmed")

PINT_NAMES = {
    "degC": "degC",
    "degF": "degF",
    "K": "kelvin",
    "kgf/cm2": "kgf/cm**2",
    "inHg": "inch_Hg",
    "mmHg": "mmHg",
    "kohm": "kiloohm",
    "Mohm": "megaohm",
    "mohm": "milliohm",
    "Gohm": "gigaohm",
    "fl oz": "floz",
    "fl oz/min": "floz/minute",
    "gal": "gallon",
    "ml": "milliliter",
    "L": "liter",
    "ml/s": "milliliter/second",
    "ml/min": "milliliter/minute",
    "L/min": "liter/minute",
    "L/h": "liter/hour",
    "L/s": "liter/second",
    "h": "hour",
    "mm2": "mm**2",
    "cm2": "cm**2",
    "uS/cm": "microsiemens/cm",
    "mS/cm": "millisiemens/cm",
    "S/m": "siemens/m",
    "": "dimensionless",
    "%": "percent",
    "in": "inch",
    "F": "farad",
}
# Hardness counts lime, which pint does not know; test_water.py checks it by molar masses.
WITH_PINT = [(kind.name, unit) for kind in KINDS.values() if kind.name != "hardness" for unit in kind.units]
UNITS = pint.UnitRegistry(autoconvert_offset_to_baseunit=True)


@pytest.mark.parametrize(("kind", "unit"), WITH_PINT, ids=lambda part: part or "none")
def test_agrees_with_pint(kind: str, unit: str, check: Check) -> None:
    known = KINDS[kind]
    chance = random.Random(f"{kind} {unit}")
    prefix = "delta_" if kind == "temperature_difference" and unit != "K" else ""
    factor, offset = known.units[unit]
    low, high = ((value - offset) / factor for value in known.believable)
    # Every conversion is a straight line: two points hold it, and more would be the same value counted again.
    for _ in range(2):
        number = chance.uniform(low, high)
        library = UNITS.Quantity(number, prefix + PINT_NAMES.get(unit, unit)).to(PINT_NAMES.get(known.base, known.base))
        mercury = unit in ("inHg", "mmHg")
        allowed = max(abs(library.magnitude) * (3e-8 if mercury else 1e-14), 1e-12)
        found = number * factor + offset
        check(found, library.magnitude, MERCURY if mercury else LIBRARY, within=allowed, unit=known.base)


# To convert from ... multiply by: the printed factor, with its digits.
FACTORS = [
    ("1 psi", "gauge_pressure", 0.06894757),
    ("1 kgf/cm2", "gauge_pressure", 0.980665),
    ("1 atm", "gauge_pressure", 1.01325),
    ("1 inHg", "gauge_pressure", 0.03386389),
    ("1 fl oz", "volume", 29.57353),
    ("1 ft", "length", 0.3048),
    ("1 in", "length", 0.0254),
    ("1 oz", "mass", 28.34952),
    ("1 lb", "mass", 453.5924),
]


@pytest.mark.parametrize(("typed", "kind", "factor"), FACTORS, ids=[row[0] for row in FACTORS])
def test_printed_factors(typed: str, kind: str, factor: float, check: Check) -> None:
    check(read_quantity(typed, kind).value, factor, PRINTED, relative=2e-7, unit=KINDS[kind].base)


# degC = (degF - 32) / 1.8; the printed fixed points.
@pytest.mark.parametrize(("typed", "celsius"), [("32 F", 0.0), ("212 F", 100.0), ("-40 F", -40.0), ("273.15 K", 0.0)])
def test_temperatures(typed: str, celsius: float, check: Check) -> None:
    check(read_quantity(typed, "temperature").value, celsius, PRINTED, within=1e-9, unit="degC")
