"""Uncertainty of readings and the bands that stay possible. The rows with outside sources are in tests/reference."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from expert.trade.quantities.units import KindsDiffer, Quantity
from expert.trade.sensors.instruments import Band, Instrument, Range, still_possible, uncertainty


def ohm(value: float) -> Quantity:
    return Quantity(value, "resistance")


def degrees(value: float) -> Quantity:
    return Quantity(value, "temperature")


def kelvin(value: float) -> Quantity:
    return Quantity(value, "temperature_difference")


METER = Instrument(
    "multimeter",
    "the multimeter",
    "resistance",
    ranges=(
        Range(ohm(600.0), 0.9, 2, ohm(0.1)),
        Range(ohm(6000.0), 0.9, 2, ohm(1.0)),
        Range(None, 1.5, 5, ohm(10e3)),
    ),
)

UNCERTAINTIES = [
    ("first range", METER, ohm(100.0), 1.1),
    ("end of the first range", METER, ohm(600.0), 5.6),
    ("second range", METER, ohm(1000.0), 11.0),
    ("last range", METER, ohm(1e6), 65e3),
    ("over range", METER, ohm(math.inf), 0.0),
    ("zero", METER, ohm(0.0), 0.2),
]


@pytest.mark.parametrize(
    ("instrument", "reading", "margin"), [row[1:] for row in UNCERTAINTIES], ids=[row[0] for row in UNCERTAINTIES]
)
def test_autoranging(instrument: Instrument, reading: Quantity, margin: float) -> None:
    found = uncertainty(instrument, reading)
    assert found.kind == "resistance"
    assert found.value == pytest.approx(margin)


def test_above_the_last_range_its_figures_go_on() -> None:
    bounded = Instrument("m", "meter", "resistance", (Range(ohm(100.0), 1.0, 2, ohm(0.1)),))
    assert uncertainty(bounded, ohm(200.0)).value == pytest.approx(2.2)


def test_leads_add_to_the_meter() -> None:
    with_leads = Instrument("m", "meter", "resistance", (Range(None, 0.9, 2, ohm(0.1)),), leads=ohm(0.3))
    assert uncertainty(with_leads, ohm(26.4)).value == pytest.approx(0.7376)


def test_fixed_and_percent_add_up() -> None:
    probe = Instrument("t", "probe", "temperature", plus_minus=kelvin(1.5), percent=0.5)
    found = uncertainty(probe, degrees(-40.0))
    assert found == kelvin(1.7)


def test_dial_gauge_gives_a_difference_of_pressure() -> None:
    bar = Quantity(3.0, "gauge_pressure")
    gauge = Instrument("g", "gauge", "gauge_pressure", class_percent=2.5, full_scale=bar)
    found = uncertainty(gauge, Quantity(1.2, "gauge_pressure"))
    assert found.kind == "pressure_difference"
    assert found.value == pytest.approx(0.075)


def test_instrument_without_figures_is_exact() -> None:
    assert uncertainty(Instrument("c", "clock", "time"), Quantity(25.0, "time")) == Quantity(0.0, "time")


def test_reading_of_another_kind_is_refused() -> None:
    with pytest.raises(KindsDiffer) as caught:
        uncertainty(METER, degrees(20.0))
    assert str(caught.value) == "a temperature cannot be read on the multimeter, which shows a resistance"


COIL: tuple[Band, ...] = (
    ("open", ohm(100e3), None),
    ("shorted", None, ohm(50.0)),
    ("sound", ohm(75.0), ohm(125.0)),
    ("off_value", None, None),
)

POSSIBLE = [  # reading, uncertainty, bands that stay
    ("well inside", 100.0, 1.0, ("sound",)),
    ("exactly U inside the lower limit", 76.0, 1.0, ("sound",)),
    ("exactly U inside the upper limit", 124.0, 1.0, ("sound",)),
    ("just less than U inside", 75.9, 1.0, ("sound", "off_value")),
    ("on the limit", 75.0, 1.0, ("sound", "off_value")),
    ("exactly U outside", 74.0, 1.0, ("off_value",)),
    ("just less than U outside", 74.1, 1.0, ("sound", "off_value")),
    ("between two named bands", 62.5, 30.0, ("shorted", "sound", "off_value")),
    ("so coarse that all but open stays", 80.0, 70.0, ("shorted", "sound", "off_value")),
    ("over range", math.inf, 0.0, ("open",)),
    ("no uncertainty, on a limit: first that matches", 50.0, 0.0, ("shorted",)),
    ("no uncertainty, on the lower limit", 75.0, 0.0, ("sound",)),
    ("no uncertainty, between", 60.0, 0.0, ("off_value",)),
    ("near the open limit", 100e3, 1e3, ("open", "off_value")),
]


@pytest.mark.parametrize(
    ("reading", "margin", "expected"), [row[1:] for row in POSSIBLE], ids=[row[0] for row in POSSIBLE]
)
def test_bands_that_stay_possible(reading: float, margin: float, expected: tuple[str, ...]) -> None:
    assert still_possible(ohm(reading), ohm(margin), COIL) == expected


def test_touching_bands_on_their_common_limit() -> None:
    bands: tuple[Band, ...] = (("low", None, ohm(10.0)), ("high", ohm(10.0), None))
    assert still_possible(ohm(10.0), ohm(0.0), bands) == ("low",)
    assert still_possible(ohm(10.0), ohm(1.0), bands) == ("low", "high")


def test_a_gap_belongs_to_nobody() -> None:
    bands: tuple[Band, ...] = (("low", None, ohm(10.0)), ("high", ohm(20.0), None))
    assert still_possible(ohm(15.0), ohm(1.0), bands) == ()
    assert still_possible(ohm(10.5), ohm(1.0), bands) == ("low",)


def test_a_limit_of_another_kind_is_refused() -> None:
    with pytest.raises(KindsDiffer) as caught:
        still_possible(ohm(1.0), ohm(0.1), (("hot", degrees(93.0), None),))
    assert str(caught.value) == "a limit is a temperature, but the reading is a resistance"


def test_an_uncertainty_of_another_kind_is_refused() -> None:
    with pytest.raises(KindsDiffer) as caught:
        still_possible(degrees(93.0), degrees(1.0), (("any", None, None),))
    assert str(caught.value) == "the uncertainty is a temperature where a temperature difference is wanted"


LIMITS = st.lists(st.integers(1, 1000), min_size=1, max_size=5, unique=True).map(sorted)


def stack(limits: list[int]) -> tuple[Band, ...]:
    """Touching bands from minus to plus infinity, cut at the limits."""
    edges = [None, *(ohm(float(limit)) for limit in limits), None]
    return tuple((f"band {number}", low, high) for number, (low, high) in enumerate(pairwise(edges)))


@given(LIMITS, st.integers(0, 1000), st.integers(0, 100))
def test_the_decision_rule(limits: list[int], x: int, margin: int) -> None:
    """In a band alone exactly if lo + U <= x <= hi - U; out of it exactly if x <= lo - U or x >= hi + U."""
    bands = stack(limits)
    found = still_possible(ohm(float(x)), ohm(float(margin)), bands)
    assert found
    for name, low, high in bands:
        inside = (low is None or low.value + margin <= x) and (high is None or x <= high.value - margin)
        outside = (low is not None and x <= low.value - margin) or (high is not None and x >= high.value + margin)
        if inside and margin:
            assert found == (name,)
        if outside and margin:
            assert name not in found
        if not inside and not outside:
            assert name in found


@given(LIMITS, st.floats(0, 1000), st.floats(0, 50), st.floats(1, 3))
def test_a_coarser_meter_never_decides_more(limits: list[int], x: float, margin: float, coarser: float) -> None:
    bands = stack(limits)
    fine = set(still_possible(ohm(x), ohm(margin), bands))
    coarse = set(still_possible(ohm(x), ohm(margin * coarser + 1e-3), bands))
    # On a limit itself a reading without uncertainty takes the first band; both neighbours stay with any uncertainty.
    assert fine <= coarse


@given(LIMITS, st.floats(0, 1000), st.floats(0, 100))
def test_what_stays_are_neighbours(limits: list[int], x: float, margin: float) -> None:
    bands = stack(limits)
    numbers = [int(name.split()[1]) for name in still_possible(ohm(x), ohm(margin), bands)]
    assert numbers == list(range(numbers[0], numbers[-1] + 1))
