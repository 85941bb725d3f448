"""Every figure with sound arguments, and with a number that is none in each place."""

from __future__ import annotations

import math

import pytest

from expert.trade.errors import OutOfRange, WrongArguments
from expert.trade.figures.register import FIGURES, Figure

SOUND_BY_KIND = {
    "temperature": 60.0,
    "gauge_pressure": 1.0,
    "absolute_pressure": 2.0,
    "pressure_difference": 0.1,
    "area": 1.5,
    "length": 1.0,
    "resistance": 100.0,
}
SOUND_BY_NAME = {
    "beta": 3977.0,
    "ph": 7.5,
    "discharge": 0.62,
    "factor": 0.64,
    "open_ones": 0.0,
    "accuracy_class": 2.5,
    "a": 1.1445238e-3,
    "b": 2.3121150e-4,
    "c": 1.0232851e-7,
    "end": 93.0,
    "surroundings": 20.0,
    "holding_power": 20.0,
    "rated": 30.0,
    "count": 3.0,
    "closed_at": 20.0,
    "limit": 1.0,
    "voltage_drop": 0.5,
    "basket": 58.0,
    "grain": 0.02,
    "frequency": 50.0,
    "rated_frequency": 50.0,
    "poles": 4.0,
    "slip": 4.0,
    "forward_drop": 1.2,
    "meter_resistance": 1e7,
    "sink_resistance": 4.0,
}
SOUND_BY_FIGURE = {
    "vibration_pump_flow": [9.0, 10.0, 15.0, 230.0, 230.0, 50.0, 50.0],
    "puck_flow": [9.0, 58.0, 12.0, 0.02, 12.0, 93.0],
    "relay_base_temperature": [8.7, 4.0, 40.0, 1.2],
    "sink_resistance": [8.7, 85.0, 40.0, 1.2],
    "blend_share": [300.0, 10.0, 82.0],
    "drain_share": [150.0, 1500.0],
    "descaling_time": [1.0, 2.0, 25.0],
    "ntc_10k_temperature": [1000.0],
    "ntc_50k_temperature": [5000.0],
    "ntc_temperature": [10000.0, 3977.0, 1000.0],
    "ntc_sensor_temperature": [10000.0, 3977.0, 1000.0],
    "steinhart_hart_temperature": [1.1445238e-3, 2.3121150e-4, 1.0232851e-7, 1000.0],
    "pair_resistance": [220.0, 240.0, 1850.0, 2200.0],
    "middle_voltage": [220.0, 240.0],
    "flash_altitude": [95.0],
    "insulation_shown": [1.0, 30.0],
    "earth_limit": ["uk", 2.0, 1.5],
    "insulation_limit": ["uk", "class_1", "heating", 2000.0],
    "leakage_limit": ["design", "class_1", 2000.0],
    "element_power": [230.0, 26.45],
}


def sound_arguments(figure: Figure) -> list[float | str]:
    by_kind = [SOUND_BY_KIND.get(entry.kind, 100.0) for entry in figure.takes]
    words = [entry.words[0] if entry.words else "" for entry in figure.takes]
    usual = [
        word or SOUND_BY_NAME.get(entry.name, number)
        for word, entry, number in zip(words, figure.takes, by_kind, strict=True)
    ]
    return SOUND_BY_FIGURE.get(figure.name, usual)


@pytest.mark.parametrize("figure", FIGURES.values(), ids=list(FIGURES))
def test_sound_arguments_give_a_number(figure: Figure) -> None:
    assert math.isfinite(figure.call(*sound_arguments(figure)))


@pytest.mark.parametrize("figure", FIGURES.values(), ids=list(FIGURES))
@pytest.mark.parametrize("value", [math.nan, math.inf, -math.inf], ids=str)
def test_no_figure_swallows_a_number_that_is_none(figure: Figure, value: float) -> None:
    """In place of any one number, nan and the infinities are refused, never carried into a result."""
    for place, wanted in enumerate(figure.takes):
        if wanted.kind == "word":
            continue
        arguments = list(sound_arguments(figure))
        arguments[place] = value
        with pytest.raises((OutOfRange, WrongArguments)):
            figure.call(*arguments)
