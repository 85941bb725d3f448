"""What holds for every kind and unit: round trips, order, arithmetic that keeps kinds apart."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from expert.trade.quantities.units import (
    KINDS,
    KindsDiffer,
    NotAQuantity,
    NotBelievable,
    Quantity,
    difference_of,
    number_and_unit,
    read_quantity,
    show,
    unit_in,
)

ALL_UNITS = [(kind.name, unit) for kind in KINDS.values() for unit in kind.units]


# Plain shares reach the large values of a kind, their high powers the small ones.
SHARES = st.tuples(st.floats(0.0, 1.0), st.sampled_from([1, 1, 4, 16])).map(lambda pair: pair[0] ** pair[1])


@given(st.sampled_from(ALL_UNITS), SHARES)
def test_show_then_read_gives_the_same_within_the_digits_shown(kind_and_unit: tuple[str, str], share: float) -> None:
    kind, unit = kind_and_unit
    known = KINDS[kind]
    low, high = known.believable
    quantity = Quantity(low + share * (high - low), kind)
    back = read_back(show(quantity, unit), quantity)
    assert back == pytest.approx(quantity.value, abs=half_of_the_last_digit(quantity, unit))


@given(st.sampled_from(list(KINDS)), st.sampled_from(["metric", "us"]), SHARES)
def test_convenient_unit_round_trips_too(kind: str, system: str, share: float) -> None:
    known = KINDS[kind]
    low, high = known.believable
    quantity = Quantity(low + share * (high - low), kind)
    text = show(quantity, system=system)
    if kind == "time" and "s" not in text.split()[1:2]:
        slack = 0.5 + 1e-6  # from two minutes up: minutes and whole seconds
    else:
        unit = unit_in(known, number_and_unit(text)[1]) or known.base
        slack = half_of_the_last_digit(quantity, unit)
    assert read_back(text, quantity) == pytest.approx(quantity.value, abs=slack)


def half_of_the_last_digit(quantity: Quantity, unit: str) -> float:
    """How far rounding may carry a shown value in the base unit: by significant digits or by the most decimals."""
    known = KINDS[quantity.kind]
    factor, offset = known.units[unit]
    number = abs((quantity.value - offset) / factor)
    significant = min(known.significant, 3) if unit in ("fl oz", "fl oz/min", "ft") else known.significant
    step = max(number * 10 ** (1 - significant), 10**-known.most_decimals)
    return 0.5 * step * factor * (1 + 1e-6) + 1e-9


def read_back(text: str, quantity: Quantity) -> float:
    """The value of a shown text. Rounding may carry it just beyond a believable limit, which then stands for it."""
    try:
        return read_quantity(text, quantity.kind).value
    except NotBelievable:
        return min(KINDS[quantity.kind].believable, key=lambda limit: abs(limit - quantity.value))


@given(st.floats(0.0, 1e9), st.sampled_from(["", " "]), st.sampled_from([".", ","]))
def test_typed_numbers_mean_themselves(number: float, gap: str, mark: str) -> None:
    typed = f"{number:.6f}".replace(".", mark) + gap + "ohm"
    assert read_quantity(typed, "resistance").value == pytest.approx(number, abs=1e-6)


@given(st.text(max_size=200))
def test_any_text_is_read_or_refused_in_a_short_safe_message(text: str) -> None:
    for kind in ("resistance", "time", "flow", "capacitance", "gauge_pressure"):
        try:
            quantity = read_quantity(text, kind)
        except NotAQuantity as refused:
            message = str(refused)
            assert len(message) < 200
            assert message.isprintable()
        else:
            assert quantity.kind == kind


@pytest.mark.parametrize("kind", KINDS.values(), ids=list(KINDS))
def test_every_spelling_leads_to_a_unit_of_its_kind(kind: object) -> None:
    from expert.trade.quantities.kind import Kind

    assert isinstance(kind, Kind)
    assert kind.base in kind.units
    assert kind.units[kind.base] == (1.0, 0.0)
    assert not kind.us or kind.us in kind.units
    for spelling, unit in kind.spellings.items():
        assert unit in kind.units, spelling
        assert unit_in(kind, spelling) == unit, spelling
    for unit in kind.units:
        assert unit_in(kind, unit) == unit
        assert unit_in(kind, kind.shown.get(unit, unit)) == unit


SHOWN = [
    (Quantity(37.8, "resistance"), None, "metric", "37.8 ohm"),
    (Quantity(26.4478, "resistance"), None, "metric", "26.45 ohm"),
    (Quantity(0.1266, "resistance"), None, "metric", "0.1266 ohm"),
    (Quantity(1800.0, "resistance"), None, "metric", "1.8 kohm"),
    (Quantity(2e7, "resistance"), None, "metric", "20 Mohm"),
    (Quantity(0.0, "resistance"), None, "metric", "0 ohm"),
    (Quantity(math.inf, "resistance"), None, "metric", "over range (OL)"),
    (Quantity(1.2, "gauge_pressure"), None, "metric", "1.20 bar"),
    (Quantity(9.0, "gauge_pressure"), None, "metric", "9.00 bar"),
    (Quantity(15.0, "gauge_pressure"), None, "metric", "15.0 bar"),
    (Quantity(1.2, "gauge_pressure"), "kPa", "metric", "120 kPa"),
    (Quantity(1.2, "gauge_pressure"), None, "us", "17.4 psi"),
    (Quantity(1.01325, "absolute_pressure"), None, "metric", "1.013 bar abs"),
    (Quantity(93.0, "temperature"), None, "metric", "93 °C"),
    (Quantity(123.445, "temperature"), None, "metric", "123.4 °C"),
    (Quantity(93.0, "temperature"), None, "us", "199.4 °F"),
    (Quantity(5.0, "temperature_difference"), None, "us", "9 °F"),
    (Quantity(230.0, "ac_voltage"), None, "metric", "230 V"),
    (Quantity(2000.0, "power"), None, "metric", "2000 W"),
    (Quantity(1800.0, "volume"), None, "metric", "1.8 L"),
    (Quantity(60.0, "volume"), None, "us", "2.03 fl oz"),
    (Quantity(25.0, "time"), None, "metric", "25 s"),
    (Quantity(150.0, "time"), None, "metric", "2 min 30 s"),
    (Quantity(4800.0, "time"), None, "metric", "1 h 20 min"),
    (Quantity(150.0, "time"), "s", "metric", "150 s"),
    (Quantity(0.0047, "capacitance"), None, "metric", "4.7 nF"),
    (Quantity(0.0006, "length"), None, "metric", "0.6 mm"),
    (Quantity(2000.0, "length"), None, "metric", "2000 m"),
    (Quantity(-0.001, "gauge_pressure"), None, "metric", "0.00 bar"),
    (Quantity(0.25, "number"), "%", "metric", "25 %"),
]


@pytest.mark.parametrize(("quantity", "unit", "system", "text"), SHOWN, ids=[row[3] for row in SHOWN])
def test_shown_in_trade_digits(quantity: Quantity, unit: str | None, system: str, text: str) -> None:
    assert show(quantity, unit, system) == text


def test_foreign_unit_to_show_in_is_refused() -> None:
    with pytest.raises(ValueError, match=r"^'V' is not a unit of resistance$"):
        show(Quantity(1.0, "resistance"), "V")


def test_ordered_within_a_kind() -> None:
    low, high = Quantity(1.0, "gauge_pressure"), Quantity(2.0, "gauge_pressure")
    assert low < high
    assert low <= low
    assert high > low
    assert high >= high
    assert max(low, high) == high


def test_kinds_never_mix() -> None:
    gauge, absolute = Quantity(9.0, "gauge_pressure"), Quantity(1.0, "absolute_pressure")
    hot, rise = Quantity(93.0, "temperature"), Quantity(5.0, "temperature_difference")
    rows = [
        (lambda: gauge + absolute, "an absolute pressure cannot be added to a gauge pressure"),
        (lambda: gauge - absolute, "an absolute pressure cannot be taken from a gauge pressure"),
        (lambda: gauge < absolute, "a gauge pressure cannot be compared with an absolute pressure"),
        (lambda: hot + hot, "a temperature cannot be added to a temperature"),
        (lambda: rise - hot, "a temperature cannot be taken from a temperature difference"),
        (lambda: hot > rise, "a temperature cannot be compared with a temperature difference"),
    ]
    for mix, message in rows:
        with pytest.raises(KindsDiffer) as caught:
            mix()
        assert str(caught.value) == message


def test_what_may_be_added() -> None:
    hot, rise = Quantity(93.0, "temperature"), Quantity(5.0, "temperature_difference")
    assert hot + rise == Quantity(98.0, "temperature")
    assert rise + hot == Quantity(98.0, "temperature")
    assert hot - rise == Quantity(88.0, "temperature")
    assert hot - hot == Quantity(0.0, "temperature_difference")
    assert rise + rise == Quantity(10.0, "temperature_difference")
    assert Quantity(2.0, "gauge_pressure") - Quantity(1.0, "gauge_pressure") == Quantity(1.0, "pressure_difference")
    assert Quantity(2.0, "resistance") + Quantity(1.0, "resistance") == Quantity(3.0, "resistance")


def test_differences() -> None:
    assert difference_of("temperature") == "temperature_difference"
    assert difference_of("gauge_pressure") == difference_of("absolute_pressure") == "pressure_difference"
    assert difference_of("resistance") == "resistance"


def test_no_quantity_without_a_kind_or_a_value() -> None:
    with pytest.raises(ValueError, match=r"^there is no kind of quantity called 'charm'$"):
        Quantity(1.0, "charm")
    with pytest.raises(ValueError, match=r"^a quantity must have a value, and not-a-number is none$"):
        Quantity(math.nan, "resistance")
