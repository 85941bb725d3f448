"""Values that are usual at the bench, for the example in a figure's help: by figure, by the input's name, by kind."""

from __future__ import annotations

from collections.abc import Mapping

from expert.trade.figures.register import Figure, Input

BY_KIND: Mapping[str, str] = {
    "absolute_pressure": "2.2 bar",
    "temperature": "120 degC",
    "gauge_pressure": "1.2 bar",
    "length": "1.5 m",
    "pressure_difference": "0.1 bar",
    "power": "1400 W",
    "volume": "1.8 L",
    "mass": "2 kg",
    "time": "25 s",
    "ac_voltage": "230 V",
    "dc_voltage": "500 V",
    "flow": "4 ml/s",
    "temperature_difference": "73 K",
    "number": "2",
    "resistance": "50 ohm",
    "area": "1.5 mm2",
    "capacitance": "10 nF",
    "frequency": "50 Hz",
    "leakage_current": "30 mA",
    "hardness": "150 mg/L",
    "conductivity": "447 uS/cm",
}
BY_NAME: Mapping[str, str] = {
    "start": "20 degC",
    "inlet": "20 degC",
    "surroundings": "20 degC",
    "closed_at": "20 degC",
    "cold_temperature": "20 degC",
    "feed_temperature": "20 degC",
    "end": "93 degC",
    "altitude": "800 m",
    "diameter": "0.7 mm",
    "full_scale": "3 bar",
    "pressure_drop": "5 bar",
    "holding_power": "150 W",
    "least_power": "1300 W",
    "most_power": "1500 W",
    "lowest": "220 V",
    "highest": "240 V",
    "a": "0.0011445238",
    "b": "0.0002312115",
    "c": "0.00000010232851",
    "accuracy_class": "2.5",
    "beta": "3977",
    "calcium": "40",
    "magnesium": "8",
    "hydrogen_carbonate": "180",
    "count": "3",
    "open_ones": "1",
    "discharge": "0.62",
    "factor": "0.64",
    "error_percent": "1",
    "ph": "7.5",
    "solids": "320",
    "pulses": "190",
    "pulses_per_100_ml": "200",
    "ice_point_resistance": "100 ohm",
    "lead_resistance": "0.5 ohm",
    "resistance_20": "1000 ohm",
    "resistance_25": "10 kohm",
    "alkalinity": "34 mg/L",
}
BY_FIGURE: Mapping[str, Mapping[str, str]] = {
    "conductivity_at_25": {"temperature": "20 degC"},
    "flash_altitude": {"temperature": "95 degC"},
    "ntc_10k_temperature": {"resistance": "835 ohm"},
    "ntc_50k_temperature": {"resistance": "3.855 kohm"},
    "ntc_temperature": {"resistance": "835 ohm"},
    "steinhart_hart_temperature": {"resistance": "835 ohm"},
    "insulation_shown": {"limit": "1 Mohm", "error_percent": "30"},
}


def usual_value(figure: Figure, wanted: Input) -> str:
    """What might be typed for this input."""
    own = BY_FIGURE.get(figure.name, {}).get(wanted.name) or BY_NAME.get(wanted.name)
    return own or (wanted.words[0] if wanted.words else BY_KIND[wanted.kind])
