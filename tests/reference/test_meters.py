"""Meters, gauges and guard bands: data sheet arithmetic and every row of the decision rule."""

from __future__ import annotations

import pytest
from scipy.stats import norm

from expert.trade.physics.steam import temperature_shift
from expert.trade.quantities.units import Quantity
from expert.trade.sensors.instruments import Instrument, Range, still_possible, uncertainty
from expert.trade.sensors.meters import gauge_uncertainty, meter_uncertainty, thermocouple_uncertainty

from .conftest import Check
from .sources import independent, restated, transcription

KIND = "meters"
SHEET = independent("worked examples in makers' data sheets, +-(percent + digits)")
EN_837 = independent("examples in WIKA 061744, EN 837-1")
IEC_60584 = transcription("IEC 584-2 as a thermocouple maker prints it (therncway)", ours="a logger maker (Pico)")


def volts(value: float) -> Quantity:
    return Quantity(value, "ac_voltage")


def ohm(value: float) -> Quantity:
    return Quantity(value, "resistance")


def bar(value: float) -> Quantity:
    return Quantity(value, "gauge_pressure")


OHMMETER = Instrument("m", "ohmmeter", "resistance", (Range(None, 0.9, 2, ohm(0.1)),))

METERS = [(100.0, 2, 2, 2.2), (120.0, 1, 3, 1.5)]


@pytest.mark.parametrize(("reading", "percent", "digits", "margin"), METERS)
def test_digital_meters(reading: float, percent: float, digits: float, margin: float, check: Check) -> None:
    meter = Instrument("v", "voltmeter", "ac_voltage", (Range(None, percent, digits, volts(0.1)),))
    check(uncertainty(meter, volts(reading)).value, margin, SHEET, within=1e-9, unit="V")
    check(meter_uncertainty(reading, percent, digits, 0.1), margin, SHEET, within=1e-9, unit="V")


def test_ohmmeter_at_26_ohm(check: Check) -> None:
    check(uncertainty(OHMMETER, ohm(26.4)).value, 0.438, SHEET, within=0.001, unit="ohm")


GAUGES = [(10, 1.6, 0.16), (3, 2.5, 0.075), (16, 2.5, 0.40)]


@pytest.mark.parametrize(("full_scale", "accuracy", "margin"), GAUGES)
def test_gauges(full_scale: float, accuracy: float, margin: float, check: Check) -> None:
    gauge = Instrument("g", "gauge", "gauge_pressure", class_percent=accuracy, full_scale=bar(full_scale))
    check(uncertainty(gauge, bar(1.0)).value, margin, EN_837, within=1e-9, unit="bar")
    check(gauge_uncertainty(accuracy, full_scale), margin, EN_837, within=1e-9, unit="bar")


def test_gauge_error_as_boiler_temperature(check: Check) -> None:
    found = temperature_shift(1.2, gauge_uncertainty(2.5, 3.0))
    check(found, 1.1, independent("CoolProp, IF97 slope at 1.2 bar g"), within=0.05, unit="K")


@pytest.mark.parametrize(("tolerance_class", "kelvin"), [("class_1", 1.5), ("class_2", 2.5)])
def test_thermocouples(tolerance_class: str, kelvin: float, check: Check) -> None:
    for temperature in (20.0, 93.0, 333.0):
        check(
            thermocouple_uncertainty(tolerance_class, temperature),
            kelvin,
            IEC_60584,
            within=1e-9,
            unit=f"K, {tolerance_class}",
        )


ELEMENT = (("below", None, ohm(25.19)), ("in", ohm(25.19), ohm(29.39)), ("above", None, None))
EARTH = (("in", None, ohm(0.100)), ("out", None, None))

ELEMENT_ROWS = [(26.4, ("in",)), (25.2, ("below", "in")), (29.6, ("in", "above")), (30.2, ("above",))]
EARTH_ROWS = [(0.06, ("in",)), (0.08, ("in", "out")), (0.12, ("in", "out")), (0.14, ("out",))]


@pytest.mark.parametrize(("reading", "expected"), ELEMENT_ROWS)
def test_guard_band_of_an_element(reading: float, expected: tuple[str, ...]) -> None:
    """JCGM 106:2012, ILAC-G8:09/2019 with w = U; element 230 V 2000 W, ohmmeter +-(0.9 % + 2)."""
    assert still_possible(ohm(reading), uncertainty(OHMMETER, ohm(reading)), ELEMENT) == expected


@pytest.mark.parametrize(("reading", "expected"), EARTH_ROWS)
def test_guard_band_of_an_earth_bond(reading: float, expected: tuple[str, ...]) -> None:
    """JCGM 106:2012, ILAC-G8:09/2019 with w = U; limit 0.100 ohm, U 0.03 ohm."""
    assert still_possible(ohm(reading), ohm(0.03), EARTH) == expected


def test_chance_of_a_wrong_accept(check: Check) -> None:
    """A reading just accepted with w = U (k = 2) is wrong in under 2.5 % of cases, with w = 0 in up to half."""
    assert still_possible(ohm(0.07), ohm(0.03), EARTH) == ("in",)
    sigma = 0.03 / 2
    wrong = float(norm.sf(0.100, loc=0.07, scale=sigma))
    check(wrong, 0.0228, independent("scipy, normal distribution"), within=0.0005)
    assert wrong < 0.025
    check(float(norm.sf(0.1, loc=0.1, scale=sigma)), 0.5, restated("half at the limit, by symmetry"), within=1e-12)
