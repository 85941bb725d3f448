"""Drawings: what is wrong with one is told; the shipped ones fit every screen and show where is tested."""
# ruff: noqa: E501  (the messages stand whole beside their cause)

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from expert.job.wording.drawing import drawn
from expert.language.checks.drawings import WIDEST
from expert.language.load import load_rules
from expert.language.model import Drawing
from expert.language.shipped import shipped
from tests.dialogue.shipped_desk import ShippedDesk
from tests.language.small_base import expected_problems, problems_of, with_files

WRONG = {
    "too wide": """
        questions:
          gap:
            ask: Is there a gap?
            answer: yes_no
            how: Look.
            drawing:
              lines: ["pump > tee > valve > boiler > tap > wand > tip > jug > drain > sea"]  # 14: the line is 66 columns wide; a drawing may have 57: pump > tee > valve > boiler > tap > wand > tip > jug > drain > sea [drawing-too-wide]
              marks: tee
            minutes: 1
        """,
    "no such part": """
        questions:
          gap:
            ask: Is there a gap?
            answer: yes_no
            how: Look.
            drawing:
              lines: ["[pumpe] > boiler"]  # 14: '[pumpe]' is no part's name; without brackets it is plain text [unknown-part-in-drawing]
              marks: boiler
            minutes: 1
        """,
    "marks": """
        questions:
          gap:
            ask: Is there a gap?
            answer: yes_no
            how: Look.
            drawing:
              lines: ["pump > boiler > pump"]
              marks: [pump, tap]  # 14: 'pump' stands 2 times in the drawing; a mark points to one place [mark-not-in-drawing] || 14: 'tap' does not stand in the drawing; a mark points to one place [mark-not-in-drawing]
            minutes: 1
        """,
    "no marks": """
        questions:
          gap:
            ask: Is there a gap?
            answer: yes_no
            how: Look.
            drawing: {lines: ["pump > boiler"]}  # 14: a drawing must have 'marks' [missing-key]
            minutes: 1
        """,
}


@pytest.mark.parametrize("text", WRONG.values(), ids=WRONG)
def test_what_is_wrong_with_a_drawing_is_told(text: str) -> None:
    files = with_files(row=text)
    assert problems_of(files) == expected_problems(files)


@given(st.lists(st.text("ab >[]", min_size=1, max_size=20), min_size=1, max_size=4), st.data())
def test_arrows_stand_below_the_marked_words_and_nowhere_else(lines: list[str], data: st.DataObject) -> None:
    line = data.draw(st.sampled_from(lines))
    start = data.draw(st.integers(0, len(line) - 1))
    mark = line[start:]
    shown = list(drawn(Drawing(tuple(lines), (mark,))))
    arrows = [one for one in shown if set(one) == {" ", "^"} or set(one) == {"^"}]
    assert [one for one in shown if one not in arrows] == lines
    assert arrows and all(one.count("^") == len(mark) for one in arrows)


def test_the_shipped_drawings_are_enough_and_fit() -> None:
    drawings = [question.drawing for question in load_rules(shipped("rules")).questions.values() if question.drawing]
    assert len(set(drawings)) >= 25
    assert max(len(line) for drawing in drawings for line in drawn(drawing)) <= WIDEST


def test_a_drawing_is_shown_when_the_question_is_first_met_and_by_how() -> None:
    desk = ShippedDesk()
    desk.type("Ann", "1", "ok", "trips_supply", "ok", "no", "1", "1", "1")
    said = desk.type("rcd", "can't tell")
    drawing = [
        "  plug L + N, joined > all that carries mains",
        "  ^^^^^^^^^^^^^^^^^^",
        "  plug E > bare metal of the body",
        "           ^^^^^^^^^^",
    ]
    assert desk.job.prompt.subject == "insulation_at_plug"
    assert [line for line in said if line in drawing] == drawing
    assert [line for line in desk.type("how") if line in drawing] == drawing
