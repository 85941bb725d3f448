"""Readings as people type them at the prompt of a shipped question, and slips that name the units that would do."""

from __future__ import annotations

import pytest

from expert.job.answers.reading import NotAnAnswer, read_answer
from tests.dialogue.shipped_desk import ShippedDesk

JOB = ShippedDesk().intake().job

TAKEN = [
    ("boiler_pressure", "1,2 bar", 1.2),
    ("boiler_pressure", "1.2", 1.2),
    ("boiler_pressure", "120kPa", 1.2),
    ("boiler_pressure", "0.12 MPa", 1.2),
    ("boiler_pressure", "1.2 bar(g)", 1.2),
    ("boiler_pressure", "17.4 psig", 1.19969),
    ("element_resistance", "37.8Ω", 37.8),
    ("element_resistance", "37R8", 37.8),
    ("element_resistance", "37,8", 37.8),
    ("element_resistance", "1k8", 1800.0),
    ("element_resistance", "0.0378 k", 37.8),
    ("element_resistance", "OL", float("inf")),
    ("wall_temperature", "98 F", 36.66667),
    ("wall_temperature", "98°F", 36.66667),
    ("wall_temperature", "393.15 K", 120.0),
    ("minutes_to_heat", "2 min 30", 150.0),
    ("minutes_to_heat", "13:30", 810.0),
    ("minutes_to_heat", "13", 780.0),
    ("free_flow", "60 ml in 10 s", 6.0),
    ("free_flow", "60ml/10s", 6.0),
    ("free_flow", "240 ml in 30", 8.0),
    ("leakage_current", "300 µA", 0.3),
    ("insulation_at_plug", "80 MΩ", 80e6),
    ("insulation_at_plug", "80", 80e6),
    ("water_conductivity", "0.45 mS/cm", 450.0),
    ("supply_voltage", "231 V~", 231.0),
]


@pytest.mark.parametrize(("question", "typed", "expected"), TAKEN, ids=[f"{row[0]}: {row[1]}" for row in TAKEN])
def test_what_is_taken(question: str, typed: str, expected: float) -> None:
    quantity = read_answer(JOB, JOB.base.questions[question], typed).quantity
    assert quantity is not None and quantity.value == pytest.approx(expected, rel=1e-5)


PRESSURE = "a gauge pressure is wanted, in bar, psi or kPa. Or type: can't tell"
OHMS = "a resistance is wanted, in ohm, kohm or Mohm, or OL. Or type: can't tell"
REFUSED = [
    ("boiler_pressure", "1.2 bar abs", f"'1.2 bar abs' is an absolute pressure; {PRESSURE}"),
    ("boiler_pressure", "1.2 bra", f"'1.2 bra' has the unknown unit 'bra' (did you mean bar?); {PRESSURE}"),
    ("boiler_pressure", "1.2 V", f"'1.2 V' is a voltage; {PRESSURE}"),
    ("boiler_pressure", "1.2.3 bar", f"'1.2.3 bar' has more than one decimal mark; {PRESSURE}"),
    ("boiler_pressure", "OL", f"'OL' is over range; {PRESSURE}"),
    ("element_resistance", "37.8 onm", f"'37.8 onm' has the unknown unit 'onm' (did you mean ohm?); {OHMS}"),
    ("element_resistance", "37 8", f"'37 8' is not one number with one unit; {OHMS}"),
    (
        "supply_voltage",
        "231 V DC",
        "'231 V DC' is a DC voltage; an AC voltage is wanted, in V, mV or kV, or OL. Or type: can't tell",
    ),
    (
        "free_flow",
        "60 ml",
        "'60 ml' is a volume; a flow is wanted, in ml/s, ml/min or L/min. Or type: can't tell",
    ),
    (
        "water_conductivity",
        "7 dH",
        "'7 dH' is a hardness; a conductivity is wanted, in uS/cm, mS/cm or S/m, or OL. Or type: can't tell",
    ),
    (
        "minutes_to_heat",
        "5 s",
        "5 s cannot be right here: expected is something between 30 s and 2 h. Read again, mind the unit. "
        "Or type: can't tell",
    ),
]


@pytest.mark.parametrize(("question", "typed", "message"), REFUSED, ids=[f"{row[0]}: {row[1]}" for row in REFUSED])
def test_what_is_refused(question: str, typed: str, message: str) -> None:
    with pytest.raises(NotAnAnswer) as refused:
        read_answer(JOB, JOB.base.questions[question], typed)
    assert str(refused.value) == message
