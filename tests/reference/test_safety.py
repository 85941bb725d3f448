"""Earth, insulation and leakage limits by set, cords, filters and residual current devices."""

from __future__ import annotations

import math

import pytest

from expert.trade.limits.electrical import (
    cord_core_resistance,
    earth_limit,
    insulation_limit,
    insulation_shown,
    leakage_limit,
)
from expert.trade.physics.fault_currents import (
    filter_leakage,
    insulation_current,
    rcd_must_hold,
    rcd_must_trip,
    rcd_verdict,
)

from .conftest import Check
from .sources import Source, restated, transcription

KIND = "safety"
IEC = restated("IEC 60335-1 13.2, in its national texts GB 4706.1 and IS 302")
DGUV = restated("DGUV 203-071 annex 5")
UL_1086 = transcription("UL 1086 clause 34.1, another appliance's standard: 0.1 ohm", ours="UL 507 clause 42.1")
ANNEX = "DGUV 203-071 annex 5"
TESTER = transcription("table in the manual of a tester for DIN VDE 0701 and 0702 (Metratester 5+)", ours=ANNEX)
SUPPORT = transcription("a tester maker on EN 50678 (support.gossenmetrawatt.de): at least 100 mohm", ours=ANNEX)
PANEL = transcription("manual of test panels for DIN VDE 0701-0702 (HT-PT01, page 24)", ours=ANNEX)
IET = restated("IET Code of Practice, 5th edition 2020, as a testing trainer quotes it (pat-testing-training.net)")
IET_4TH = restated("IET Code of Practice, 4th edition, as quoted there")
MEMORY = restated("from memory, to be confirmed: IEC 60335-2-75, AS/NZS 3760, IET above 3 kW, UL 101 and UL 197")
CORES = transcription("IEC 60228 class 5 as mycableengineering.com prints it", ours="the table at uecables.com")
TWO_METRES = restated("IEC 60228 class 5, two metres by hand")
EN_50106 = restated("EN 50106:2008 A.1")
EARTH_27_5 = restated("IEC 60335-1 27.5, clause as quoted; test current from memory")

HEATING_LEAKAGE = [(0.8, 0.75), (1.2, 0.9), (2, 1.5), (3, 2.25), (6, 4.5), (8, 5)]


@pytest.mark.parametrize(("kilowatts", "milliamps"), HEATING_LEAKAGE)
def test_leakage_of_class_1_stationary_heating(kilowatts: float, milliamps: float, check: Check) -> None:
    check(leakage_limit("design", "class_1", kilowatts * 1000), milliamps, IEC, within=1e-9, unit="mA")


LEAKAGE = [
    ("design", "class_2", 2000, 0.25, IEC),
    ("design", "class_0", 2000, 0.5, IEC),
    ("design", "class_3", 0, 0.5, IEC),
    ("design", "class_1_portable", 2000, 0.75, IEC),
    ("design", "class_1_motor", 2000, 3.5, IEC),
    ("catering", "class_1", 3000, 3.0, MEMORY),
    ("catering", "class_1", 12000, 10.0, MEMORY),
    ("uk", "class_1", 3000, 5.0, IET),
    ("uk", "class_2", 0, 5.0, IET),
    ("uk_4th", "class_1_portable", 1000, 0.75, IET_4TH),
    ("uk_4th", "class_1_motor", 1000, 3.5, IET_4TH),
    ("uk_4th", "class_1", 3000, 2.25, IET_4TH),
    ("uk_4th", "class_1", 9000, 5.0, IET_4TH),
    ("uk_4th", "class_2", 1000, 0.25, IET_4TH),
    ("australia", "class_1", 2000, 5.0, MEMORY),
    ("australia", "class_2", 2000, 1.0, MEMORY),
    ("us", "class_1_portable", 1500, 0.5, MEMORY),
    ("us", "class_1", 1500, 0.75, MEMORY),
]


@pytest.mark.parametrize(("limit_set", "protection", "watts", "milliamps", "source"), LEAKAGE)
def test_leakage(limit_set: str, protection: str, watts: float, milliamps: float, source: Source, check: Check) -> None:
    check(leakage_limit(limit_set, protection, watts), milliamps, source, within=1e-9, unit="mA")


GERMAN_EARTH = [  # cord up to so many metres: ohm, as a tester's manual prints the whole table
    *((5, 0.3), (12.5, 0.4), (20, 0.5), (27.5, 0.6), (35, 0.7), (42.5, 0.8), (50, 0.9), (60, 1.0), (90, 1.0)),
]
BEGUN = [(3, 0.3), (6, 0.4), (13, 0.5)]


@pytest.mark.parametrize(("metres", "ohm"), GERMAN_EARTH)
def test_german_earth_limit(metres: float, ohm: float, check: Check) -> None:
    check(earth_limit("germany", metres, 1.5), ohm, TESTER, within=1e-9, unit=f"ohm, {metres} m")


@pytest.mark.parametrize(("metres", "ohm"), BEGUN)
def test_german_earth_limit_between_the_rows(metres: float, ohm: float, check: Check) -> None:
    check(earth_limit("germany", metres, 1.5), ohm, DGUV, within=1e-9, unit="ohm")


def test_german_earth_limit_of_a_thick_cord(check: Check) -> None:
    check(earth_limit("germany", 2.0, 2.5), 0.1, SUPPORT, within=1e-9, unit="ohm, 2.5 mm2")


GERMAN_LEAKAGE = [(2000, 3.5), (3500, 3.5), (6000, 6.0), (9000, 9.0), (15000, 10.0)]


@pytest.mark.parametrize(("watts", "milliamps"), GERMAN_LEAKAGE)
def test_german_leakage_as_a_tester_maker_prints_it(watts: float, milliamps: float, check: Check) -> None:
    check(leakage_limit("germany", "class_1", watts), milliamps, PANEL, within=1e-9, unit=f"mA, {watts} W")


def test_german_touch_current_as_a_tester_maker_prints_it(check: Check) -> None:
    check(leakage_limit("germany", "class_2", 1000.0), 0.5, PANEL, within=1e-9, unit="mA, touched")


EARTH = [
    ("design", 0, 1.5, 0.1, EARTH_27_5),
    ("design", 2, 1.5, 0.1, EARTH_27_5),
    ("routine", 0, 1.5, 0.1, EN_50106),
    ("routine", 2, 1.5, 0.1266, EN_50106),
    ("routine", 10, 0.75, 0.2, EN_50106),
    ("uk", 2, 1.5, 0.1266, IET),
    ("uk", 0, 1.5, 0.1, IET),
    ("germany", 60, 1.5, 1.0, DGUV),
    ("germany", 25, 2.5, 0.1995, DGUV),
    ("australia", 2, 1.0, 1.0, MEMORY),
    ("us", 2, 1.5, 0.1, UL_1086),
]


@pytest.mark.parametrize(("limit_set", "metres", "section", "ohm", "source"), EARTH)
def test_earth_limit(limit_set: str, metres: float, section: float, ohm: float, source: Source, check: Check) -> None:
    check(earth_limit(limit_set, metres, section), ohm, source, within=1e-9, unit="ohm")


def test_uk_limit_for_two_metres_as_printed(check: Check) -> None:
    check(earth_limit("uk", 2.0, 1.5), 0.127, IET, within=0.0005, unit="ohm")


INSULATION = [
    ("uk", "class_1", "no_heating", 500, 1.0, IET),
    ("uk", "class_1", "heating", 2000, 0.3, IET),
    ("uk", "class_1", "heating", 3000, 1.0, MEMORY),
    ("uk", "class_2", "heating", 1000, 2.0, IET),
    ("uk", "class_3", "no_heating", 0, 0.25, IET),
    ("germany", "class_1", "no_heating", 500, 1.0, DGUV),
    ("germany", "class_1", "heating", 6000, 0.3, DGUV),
    ("germany", "class_2", "heating", 1000, 2.0, DGUV),
    ("germany", "class_3", "no_heating", 0, 0.25, DGUV),
    ("australia", "class_1", "heating", 3000, 1.0, MEMORY),
]


@pytest.mark.parametrize(("limit_set", "protection", "heating", "watts", "megohm", "source"), INSULATION)
def test_insulation(
    limit_set: str, protection: str, heating: str, watts: float, megohm: float, source: Source, check: Check
) -> None:
    check(insulation_limit(limit_set, protection, heating, watts), megohm, source, within=1e-9, unit="Mohm")


CORE_ROWS = [(0.75, 26.0, 0.052), (1.0, 19.5, 0.039), (1.5, 13.3, 0.0266), (2.5, 7.98, 0.016)]


@pytest.mark.parametrize(("section", "per_kilometre", "two_metres"), CORE_ROWS)
def test_cords(section: float, per_kilometre: float, two_metres: float, check: Check) -> None:
    check(
        cord_core_resistance(100.0, section) * 10,
        per_kilometre,
        CORES if section >= 1 else TWO_METRES,
        within=1e-9,
        unit="ohm/km",
    )
    check(cord_core_resistance(2.0, section), two_metres, TWO_METRES, within=5e-5, unit="ohm")


def test_insulation_currents(check: Check) -> None:
    check(insulation_current(500.0, 1e6), 0.5, restated("Ohm's law, by hand"), within=1e-9, unit="mA")
    check(insulation_current(500.0, 0.3e6), 1.67, restated("Ohm's law, by hand"), within=0.005, unit="mA")


@pytest.mark.parametrize(("nanofarads", "milliamps"), [(4.7, 0.340), (10, 0.723)])
def test_filter_capacitors(nanofarads: float, milliamps: float, check: Check) -> None:
    source = restated("2 pi f C U at 230 V 50 Hz")
    check(filter_leakage(nanofarads / 1000, 230.0, 50.0), milliamps, source, within=0.001, unit="mA")


def test_residual_current_device_of_30_ma(check: Check) -> None:
    check(rcd_must_hold(30.0), 15.0, restated("a maker on residual current devices (Lovato)"), within=0, unit="mA")
    check(rcd_must_trip(30.0), 30.0, restated("a maker on residual current devices (Lovato)"), within=0, unit="mA")


@pytest.mark.parametrize(
    ("milliamps", "verdict"), [(0, "holds"), (15, "holds"), (15.1, "undefined"), (29.9, "undefined"), (30, "trips")]
)
def test_residual_current_device_verdict(milliamps: float, verdict: str) -> None:
    assert rcd_verdict(milliamps) == verdict


def test_insulation_tester_of_30_percent(check: Check) -> None:
    check(insulation_shown(1.0), 1.43, restated("IEC 61557-2, +-30 % in use"), within=0.005, unit="Mohm")


def test_longer_cords_never_lower_the_limit_and_more_power_never_lowers_the_leakage() -> None:
    lengths = [step / 4 for step in range(401)]
    for limit_set in ("uk", "germany", "routine", "design", "australia", "us"):
        limits = [earth_limit(limit_set, length, 1.5) for length in lengths]
        assert limits == sorted(limits)
    for limit_set in ("design", "catering", "germany", "uk_4th"):
        currents = [leakage_limit(limit_set, "class_1", watts) for watts in range(0, 20000, 100)]
        assert currents == sorted(currents)


def test_begun_stretches_count_whole() -> None:
    """Each begun 7.5 m beyond the first 5 m adds a tenth of an ohm."""
    for metres in (5.01, 7.0, 12.5, 12.51, 20.0, 20.01):
        expected = 0.3 + 0.1 * math.ceil((metres - 5) / 7.5)
        assert earth_limit("germany", metres, 1.0) == pytest.approx(expected)
