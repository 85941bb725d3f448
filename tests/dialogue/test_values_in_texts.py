"""Values in the rules' sentences are those of the machine at hand."""

from __future__ import annotations

import pytest

from expert.desk.opening import shop_of
from expert.engine.knowledge import knowledge_of
from expert.job.beginning import begin
from expert.job.prompts.plate import set_machine
from expert.job.state.job import Job, Turn
from expert.job.wording.values import spelt_out
from expert.language.load import read_rules
from expert.trace.records import Found, PromptPut, Said, Told
from tests.language.small_base import SMALL, problems_of, with_files

ROW = """
    work_out:
      element_expected:
        name: resistance of the element
        gives: resistance
        unit: ohm
        formula: element_resistance(plate.rated_voltage, plate.element_power)
        source: Joule's law
    """
BASE = read_rules(with_files(row=ROW))


def job(with_machine: bool) -> Job:
    knowledge = knowledge_of(BASE)
    turn = Turn(begin(knowledge, shop_of(knowledge), "1")[0])
    if with_machine:
        set_machine(turn, BASE.machines["one_boiler"])
    return turn.job


@pytest.mark.parametrize(
    ("text", "known", "unknown"),
    [
        ("At {plate.rated_voltage}.", "At 230 V.", "At the rated voltage."),
        ("About {element_expected}?", "About 37.8 ohm?", "About the resistance of the element?"),
        ("{low} stays, and so does {this one}.", "low stays, and so does {this one}.", None),
        ("No value.", "No value.", "No value."),
    ],
)
def test_a_value_is_told_or_called_by_its_name(text: str, known: str, unknown: str | None) -> None:
    assert spelt_out(job(True), Told(text)) == Told(known)
    if unknown is not None:
        assert spelt_out(job(False), PromptPut("question", "level", text)) == PromptPut("question", "level", unknown)


def test_reasons_are_told_too_and_what_was_typed_is_left_alone() -> None:
    found = Found("valve.stuck", "found", ("It reads {element_expected}.",))
    assert spelt_out(job(True), found) == Found("valve.stuck", "found", ("It reads 37.8 ohm.",))
    assert spelt_out(job(True), Said("{element_expected}")) == Said("{element_expected}")


def test_a_value_that_is_none_is_refused() -> None:
    tank = SMALL["circuits/tank.yaml"]
    wrong = tank.replace("because: ", "because: At {plate.rated_volt}. ", 1)
    (problem,) = problems_of(with_files(tank=wrong))
    assert problem.endswith(
        "'{plate.rated_volt}' names no rating or worked-out value; did you mean plate.rated_voltage? [unknown-name]"
    )
