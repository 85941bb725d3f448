"""Figures in the sentences of the rules get US units beside them, in a US shop only."""

from __future__ import annotations

import re

import pytest

from expert.job.wording.prose_units import in_us_units
from expert.job.wording.records import lines_of
from expert.trace.records import CautionShown
from tests.dialogue.shipped_desk import ShippedDesk, shipped_knowledge

# 1 bar is 14.504 psi, 100 degC is 212 degF, 5 K are 9 degF, 1000 m are 3281 ft (NIST SP 811, exact factors).
SENTENCES = [
    ("Between 0.8 and 1.3 bar.", "Between 0.8 and 1.3 bar (12 and 19 psi)."),
    ("gauge, 0 to 16 bar", "gauge, 0 to 16 bar (0 to 232 psi)"),
    ("1.2 bar goes with 123 degrees.", "1.2 bar (17 psi) goes with 123 degrees (253 °F)."),
    ("within about 5 degrees", "within about 5 degrees (9 °F)"),
    ("Turn the set point 20 degrees below the display.", "Turn the set point 20 degrees (36 °F) below the display."),
    ("an offset of more than 2 degrees", "an offset of more than 2 degrees (3.6 °F)"),
    ("Wait until the wall is below 40 degrees, measured", "Wait until the wall is below 40 degrees (104 °F), measured"),
    ("More than 25 degrees apart counts", "More than 25 degrees (45 °F) apart counts"),
    ("climbs more than 10 degrees past the set", "climbs more than 10 degrees (18 °F) past the set"),
    ("above 1000 m and a lead of 1.5 m", "above 1000 m (3280 ft) and a lead of 1.5 m"),
    ("'1.2 bar' is a pressure", "'1.2 bar' is a pressure"),
    ("'1.2 bar abs' is an absolute pressure", "'1.2 bar abs' is an absolute pressure"),
    ("17.0 psi: sound", "17.0 psi: sound"),
    ("37.8 ohm from 230 V", "37.8 ohm from 230 V"),
    ("a bar of soap, two degrees of freedom", "a bar of soap, two degrees of freedom"),
]


@pytest.mark.parametrize(("text", "expected"), SENTENCES, ids=[row[0][:30] for row in SENTENCES])
def test_sentences(text: str, expected: str) -> None:
    assert in_us_units(text) == expected


def texts() -> list[str]:
    base = shipped_knowledge().base
    questions = [text for q in base.questions.values() for text in (q.ask, q.how, q.expect, *q.labels.values())]
    return questions + [caution.text for caution in base.cautions.values()]


def test_no_degrees_of_the_shipped_questions_stand_alone() -> None:
    alone = [text for text in texts() if re.search(r"[0-9] (degrees|bar)\b(?! \()", in_us_units(text))]
    assert alone == []


@pytest.mark.parametrize(
    ("system", "line"),
    [("metric", "! Water above 60 degrees scalds:"), ("us", "! Water above 60 degrees (140 °F) scalds:")],
)
def test_only_a_us_shop_sees_both(system: str, line: str) -> None:
    job = ShippedDesk(system).job
    caution = job.base.cautions["hot_water"]
    shown = lines_of(job, CautionShown("hot_water", caution.text))
    assert [text[: len(line)] for _, text in shown] == [line]
