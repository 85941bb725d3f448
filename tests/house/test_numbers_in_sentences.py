"""Numbers that stand in sentences of the rules, held against the figures of the trade, which are checked outside."""

from __future__ import annotations

from pathlib import Path

import pytest

from expert.trade.physics import (
    descaling,
    element,
    fault_currents,
    flow,
    heat_up,
    leads,
    mains_circuits,
    relay_heat,
    relief,
)
from expert.trade.physics.altitude import air_pressure
from expert.trade.physics.blending import boiler_solids
from expert.trade.physics.steam import boiler_pressure, boiler_temperature, boiling_point
from expert.trade.physics.steam_store import steam_recovery_time
from expert.trade.physics.thermosyphon import thermosyphon_flow
from expert.trade.sensors.platinum import pt_resistance
from expert.trade.sensors.thermistor import ntc_10k_resistance, ntc_10k_temperature, ntc_50k_resistance

RULES = Path(__file__).resolve().parents[2] / "rules" / "circuits"
TEXT = " ".join(" ".join(path.read_text(encoding="utf-8").split()) for path in sorted(RULES.rglob("*.yaml")))


def heat_of_a_loop(apart: float) -> float:
    """Heat that an open loop of usual size carries to the group while its legs are so far apart, in [W]."""
    return heat_up.flow_through_power(thermosyphon_flow(100.0, 100.0 - apart, 0.25, 8.0, 1.2), apart)


# The sentence; what the figure says; what the sentence says of it; by how much a rounded number may be off.
SAID = [
    ("100 g of lime use up 130 g of dry citric acid", descaling.acid_for_lime(100.0, "citric"), 130.0, 5.0),
    ("take 200 g", 1.5 * descaling.acid_for_lime(100.0, "citric"), 200.0, 10.0),
    ("A millimetre takes an hour and a half", descaling.descaling_time(1.0, 2.0) / 3600, 1.5, 0.1),
    ("1.2 W for each ampere, 7 W at 6 A", relay_heat.relay_loss(6.0), 7.0, 0.5),
    ("each ten metres of 0.75 mm2 take 2.8 V at 6 A", leads.lead_drop(6.0, 10.0, 0.75), 2.8, 0.05),
    ("leak 9 mA at the most behind an RCD of 30 mA", mains_circuits.machines_on_rcd(1.0, 30.0), 9.0, 0.0),
    ("At 2 bar a bore of 2 mm carries off the steam of 1400 W", relief.relief_power(2.0, 2.0), 1600.0, 200.0),
    ("4 mm that of 6 kW", relief.relief_power(2.0, 4.0), 6300.0, 300.0),
    ("three tenths take 1400 W a quarter of a minute", steam_recovery_time(1200.0, 1400.0, 0.9, 1.2), 15.0, 2.0),
    ("after ten litres of steam 1.2 L hold nine times the salts", boiler_solids(1.0, 10000.0, 1200.0), 9.0, 0.5),
    ("half a volt at six amperes is three watts", leads.joint_heat(6.0, 0.5), 3.0, 0.05),
    ("half a volt at 6 A, a quarter at 12 A", leads.joint_heat(12.0, 0.25), 3.0, 0.05),
    ("half an ohm at 6 A is 3 V and 18 W", leads.joint_heat(6.0, 3.0), 18.0, 0.5),
    ("four times what a group loses", heat_of_a_loop(25.0) / heat_of_a_loop(10.0), 4.0, 0.3),
    ("4.7 nF lets 0.34 mA through", fault_currents.filter_leakage(0.0047, 230.0), 0.34, 0.005),
    ("10 kohm at 230 V is 23 mA", fault_currents.insulation_current(230.0, 1e4), 23.0, 0.5),
    ("10 percent too little, an element gives 81 percent", element.power_at_voltage(100.0, 230.0, 207.0), 81.0, 0.5),
    ("an element gives over 121 percent of its power", element.power_at_voltage(100.0, 230.0, 253.0), 121.0, 0.5),
    ("about 13 minutes for 1.8 L and 1400 W", 1.5 * heat_up.heat_up_time(1800.0, 1400.0, 20.0, 123.0) / 60, 13.0, 1.0),
    ("1.2 bar goes with 123 degrees", boiler_temperature(1.2), 123.0, 0.5),
    ("1.2 bar for 123 degrees at sea level", boiler_pressure(123.0), 1.2, 0.05),
    ("1.3 bar, about 125 degrees", boiler_temperature(1.3), 125.0, 0.5),
    ("by about 0.1 bar for each 1000 m", air_pressure(0.0) - air_pressure(1000.0), 0.1, 0.02),
    ("boils below 97 degrees", boiling_point(1000.0), 97.0, 0.5),
    ("12.5 kohm at 20 degrees", ntc_10k_resistance(20.0) / 1000, 12.5, 0.05),
    ("Between 6.5 and 20 kohm", ntc_10k_resistance(10.0) / 1000, 20.0, 0.2),
    ("About 33 kohm for a 10 kohm sensor", ntc_10k_resistance(0.0) / 1000, 33.0, 0.5),
    ("About 680 ohm for a 10 kohm sensor at sea level", ntc_10k_resistance(boiling_point()), 680.0, 5.0),
    ("87 degrees for 1 kohm in place of a 10 kohm sensor", ntc_10k_temperature(1000.0), 87.0, 0.5),
    ("30 ohm on a 10 kohm sensor", ntc_10k_resistance(120.0) - ntc_10k_resistance(123.0), 30.0, 3.0),
    ("150 ohm on one of 50 kohm", ntc_50k_resistance(120.0) - ntc_50k_resistance(123.0), 150.0, 15.0),
    ("1078 ohm at 20 degrees for one of 1000 ohm", pt_resistance(1000.0, 20.0), 1078.0, 0.5),
    ("1385 ohm for one of 1000 ohm at sea level", pt_resistance(1000.0, boiling_point()), 1385.0, 0.5),
    ("Three kelvin are 11 ohm", pt_resistance(1000.0, 126.0) - pt_resistance(1000.0, 123.0), 11.0, 0.5),
    (
        "8 mL/s on most machines of this layout: a quarter of a litre in half a minute",
        flow.flow_rate(250.0, 30.0),
        8.0,
        0.5,
    ),
]


@pytest.mark.parametrize(("sentence", "figure", "said", "off"), SAID, ids=[row[0] for row in SAID])
def test_a_number_in_a_sentence_is_what_the_figure_says(sentence: str, figure: float, said: float, off: float) -> None:
    assert sentence in TEXT, "the sentence is worded otherwise now: correct its row"
    assert figure == pytest.approx(said, abs=off)
