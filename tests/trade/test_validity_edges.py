"""The stated limits of the calculations: the last value inside is taken, the first outside is refused."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from expert.trade.errors import OutOfRange
from expert.trade.figures.register import FIGURES
from expert.trade.quantities.units import Quantity, read_quantity, show
from expert.trade.sensors.meters import meter_uncertainty

Call = Callable[[float], float]


def of(name: str, *before: float | str, after: tuple[float, ...] = ()) -> Call:
    """A figure as a function of one argument, the others given."""
    return lambda value: FIGURES[name].call(*before, value, *after)


EDGES = [  # what, function, last value inside, first value outside
    ("discharge least", of("orifice_flow", 9.0, 0.6), 0.3, 0.299),
    ("discharge most", of("orifice_flow", 9.0, 0.6), 1.0, 1.001),
    ("hole most", of("orifice_flow", 9.0), 10.0, 10.01),
    ("tester error most", of("insulation_shown", 1.0), 90.0, 90.1),
    ("duty on time least", of("duty", after=(60.0,)), 0.0, -0.01),
    ("duty off time least", of("duty", 60.0), 0.0, -0.01),
    ("duty cycle above zero", of("duty", 0.0), 0.01, 0.0),
    ("element voltage above zero", of("element_resistance", after=(2000.0,)), 0.01, 0.0),
    ("element power above zero", of("element_resistance", 230.0), 0.01, 0.0),
    ("tolerance above 25 W", of("most_power"), 25.01, 25.0),
    ("flow heater rise most", of("flow_through_power", 2.0), 150.0, 150.1),
    ("flow heater inlet most", of("flow_through_temperature", after=(1000.0, 4.0)), 100.0, 100.1),
    ("end temperature most", of("heat_up_time", 1000.0, 1000.0, 20.0), 150.0, 150.1),
    ("start temperature least", of("heat_up_time", 1000.0, 1000.0, after=(93.0,)), 0.0, -0.1),
    ("altitude least", of("air_pressure"), -500.0, -500.1),
    ("altitude most", of("air_pressure"), 11000.0, 11000.1),
    ("steam temperature most", of("saturation_pressure"), 373.946, 373.95),
    ("trapped air most", of("trapped_air_pressure"), 200.0, 200.1),
    ("vent shut most", of("trapped_air_pressure", 90.0), 100.0, 100.1),
    ("gauge error most", of("temperature_shift", 1.2), 1.0, 1.001),
    ("flash gauge least", of("flash_share"), 0.0, -0.001),
    ("flash gauge most", of("flash_share"), 14.5, 14.51),
    ("expansion end most", of("expansion", 20.0), 200.0, 200.1),
    ("platinum least", of("pt_resistance", 100.0), -200.0, -200.1),
    ("platinum most", of("pt_resistance", 100.0), 850.0, 850.1),
    ("class A film least", of("pt_tolerance", "A"), -30.0, -30.1),
    ("class B film most", of("pt_tolerance", "B"), 500.0, 500.1),
    ("beta least", of("ntc_beta_resistance", 1e4, after=(93.0,)), 1000.0, 999.0),
    ("beta most", of("ntc_beta_resistance", 1e4, after=(93.0,)), 6000.0, 6001.0),
    ("thermistor most", of("ntc_beta_resistance", 1e4, 3977.0), 160.0, 160.1),
    ("ten k least", of("ntc_10k_resistance"), -40.0, -40.1),
    ("ten k most", of("ntc_10k_resistance"), 160.0, 160.1),
    ("fifty k least", of("ntc_50k_resistance"), -40.0, -40.1),
    ("fifty k most", of("ntc_50k_resistance"), 160.0, 160.1),
    ("copper least", of("copper_resistance", 100.0), -50.0, -50.1),
    ("copper most", of("copper_resistance", 100.0), 200.0, 200.1),
    ("alloy least", of("element_cold", 230.0, 2000.0, "nicr_80_20"), 20.0, 19.9),
    ("alloy most", of("element_cold", 230.0, 2000.0, "nicr_80_20"), 800.0, 800.1),
    ("open elements most", of("group_resistance", 230.0, 1500.0, 3.0), 2.0, 3.0),
    ("elements whole", of("group_resistance", 230.0, 1500.0), 3.0, 2.5),
    ("cord most", of("earth_limit", "uk", after=(1.5,)), 100.0, 100.1),
    ("rcd least", of("rcd_must_hold"), 6.0, 5.9),
    ("rcd most", of("rcd_must_trip"), 500.0, 501.0),
    ("gauge class least", of("gauge_uncertainty", after=(3.0,)), 0.1, 0.09),
    ("gauge class most", of("gauge_uncertainty", after=(3.0,)), 4.0, 4.1),
    ("thermocouple most", of("thermocouple_uncertainty", "class_1"), 333.0, 333.1),
    ("meter percent most", lambda value: meter_uncertainty(10.0, value, 2.0, 0.1), 100.0, 100.1),
    ("pH most", of("langelier_index", after=(320.0, 25.0, 150.0, 34.0)), 12.0, 12.1),
    ("index temperature most", of("saturation_ph", 320.0, after=(150.0, 34.0)), 125.0, 125.1),
    ("solids factor least", of("dissolved_solids", 500.0), 0.45, 0.44),
    ("solids factor most", of("dissolved_solids", 500.0), 0.85, 0.86),
]


@pytest.mark.parametrize(("call", "inside", "outside"), [row[1:] for row in EDGES], ids=[row[0] for row in EDGES])
def test_edge(call: Call, inside: float, outside: float) -> None:
    call(inside)
    with pytest.raises(OutOfRange):
        call(outside)


def test_time_changes_to_minutes_at_two_minutes() -> None:
    assert show(Quantity(119.0, "time")) == "119 s"
    assert show(Quantity(120.0, "time")) == "2 min"


def test_picofarads_with_the_letter_as_point() -> None:
    assert read_quantity("4p7", "capacitance").value == pytest.approx(4.7e-6)
    assert read_quantity("2u2", "capacitance").value == pytest.approx(2.2)
