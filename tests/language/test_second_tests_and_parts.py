"""Second tests of a question, instruments that the shop lacks, and ratings that are part of a whole."""
# ruff: noqa: E501  (the messages stand whole beside their cause)

from __future__ import annotations

import pytest

from expert.language.load import read_rules
from tests.language.small_base import SMALL, expected_problems, problems_of, with_files

QUESTIONS = {
    "a second test that is no question": """
        questions:
          ohms:
            ask: Ohms?
            answer: {measure: resistance, with: ohmmeter}
            readings: {high: above 2 ohm, sound: otherwise}
            how: Measure.
            minutes: 1
            second_test: [coill]  # 19: there is no question 'coill'; did you mean coil? [unknown-name]
        """,
    "a second test of what is not measured": """
        questions:
          smell:
            ask: Does it smell?
            answer: yes_no
            how: Smell.
            minutes: 1
            second_test: [coil]  # 5: only a question that is measured has a 'second_test': no other answer lies close to a limit [unknown-key]
        """,
}


@pytest.mark.parametrize("text", [pytest.param(text, id=name) for name, text in QUESTIONS.items()])
def test_questions(text: str) -> None:
    files = with_files(row=text)
    assert problems_of(files) == expected_problems(files) != []


FEATURES = {
    "a whole that is not there": """
        features:
          fill: {name: fill, values: [automatic, by_hand]}
          sensor: {name: temperature sensor, values: [ntc, platinum, none]}
        plate:
          rated_voltage: {name: rated voltage, measure: ac_voltage, unit: V}
          element_power: {name: power of the element, measure: power, unit: W, part_of: rated_powr}  # 81: there is no plate value 'rated_powr'; there is element_power, rated_voltage, set_temperature [unknown-name]
          set_temperature: {name: set temperature, measure: temperature, unit: degC}
        """,
    "a whole of another kind": """
        features:
          fill: {name: fill, values: [automatic, by_hand]}
          sensor: {name: temperature sensor, values: [ntc, platinum, none]}
        plate:
          rated_voltage: {name: rated voltage, measure: ac_voltage, unit: V}
          element_power: {name: power of the element, measure: power, unit: W, part_of: rated_voltage}  # 81: 'rated_voltage' is of another kind; a part and its whole are alike [wrong-kind]
          set_temperature: {name: set temperature, measure: temperature, unit: degC}
        """,
}


@pytest.mark.parametrize("text", [pytest.param(text, id=name) for name, text in FEATURES.items()])
def test_ratings(text: str) -> None:
    files = with_files(features=text)
    assert problems_of(files) == expected_problems(files) != []


@pytest.mark.parametrize(("written", "owned"), [("", True), ("owned: yes, ", True), ("owned: no, ", False)])
def test_an_instrument_is_owned_unless_it_says_no(written: str, owned: bool) -> None:
    name = next(name for name in SMALL if name.endswith("instruments.yaml"))
    assert "{name: ohm" in SMALL[name]
    files = SMALL | {name: SMALL[name].replace("{name: ohm", f"{{{written}name: ohm", 1)}
    base = read_rules(files)
    assert base.instruments["ohmmeter"].owned is owned
