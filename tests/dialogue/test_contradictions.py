"""Answers that contradict each other: shown together in words, then one is repeated or all are set aside."""

from __future__ import annotations

from functools import cache

import pytest

from expert.engine.knowledge import Knowledge, knowledge_of
from expert.language.load import read_rules
from expert.trace.records import Conflict, PromptPut, Told
from tests.dialogue.conftest import INTAKE, Desk
from tests.dialogue.shipped_desk import NO_DANGER, ShippedDesk
from tests.dialogue.small_folder import FILES

# A rule that is wrong on purpose: a shorted coil says that the pump is dead, though it was heard.
WRONG = "  short_means_dead: {if: {coil: shorted}, then: {confirm: pump.dead}, because: A wrong rule.}\n"


@cache
def knowledge(coil_minutes: str = "3") -> Knowledge:
    circuit = FILES["circuits/fill.yaml"].replace("minutes: 3\n", f"minutes: {coil_minutes}\n")
    return knowledge_of(read_rules({**FILES, "circuits/fill.yaml": circuit + WRONG}))


def contradicted(coil_minutes: str = "3", pump: str = "yes") -> Desk:
    desk = Desk(knowledge(coil_minutes))
    desk.type(*INTAKE, "yes", pump, "yes", "yes", "100")
    return desk


SHOWN = [
    "These answers cannot all be right:",
    "1. Does the pump run? yes",
    "2. What does the coil read? 100 ohm (shorted)",
]
END = ". If none can be repeated, type: can't tell"


@pytest.mark.parametrize(
    ("coil_minutes", "best"),
    [
        ("3", "1: it is the quickest, 1 min"),
        ("0.5", "2: it is the quickest, 0.5 min"),
        ("1", "2: it takes 1 min like others, and its instrument is the least certain"),
    ],
    ids=["the look is quicker", "the reading is quicker", "equally quick"],
)
def test_they_are_shown_together_with_the_one_to_repeat_first(coil_minutes: str, best: str) -> None:
    desk = contradicted(coil_minutes, pump="y")
    asked = f"Type the number of the one to repeat; it is asked again. Best {best}{END}"
    assert desk.said[-4:] == [*SHOWN, asked]
    assert Conflict("pump.dead", (1, 2)) in desk.records


def test_the_one_that_is_repeated_decides() -> None:
    desk = contradicted()
    said = desk.type("2")
    assert said[-3:] == [
        "What does the coil read?",
        "  (ohm or OL; ohm meter)",
        "  Last reading: 100 ohm (shorted)",
    ]
    assert desk.type("why") == ["It is asked again because the first answer contradicted others."]
    desk.type("950")
    assert not desk.job.state.conflicts()
    assert desk.type("answers")[:3] == [
        "  1. Does the pump run? yes",
        "  2. What does the coil read? 100 ohm (shorted)  (no longer holds)",
        "  3. What does the coil read? 950 ohm (sound)",
    ]


def test_repeated_with_the_same_result_they_are_shown_again() -> None:
    desk = contradicted()
    said = desk.type("2", "110")
    assert said[-4:-1] == [SHOWN[0], SHOWN[1], "3. What does the coil read? 110 ohm (shorted)"]
    assert desk.job.prompt.kind == "conflict"


def test_where_none_can_be_repeated_all_are_set_aside() -> None:
    desk = contradicted()
    before = len(desk.records)
    said = desk.type("can't tell")
    assert "All of them are set aside. The search goes on by other tests." in said
    assert not desk.job.state.conflicts()
    assert [given.number for given in desk.job.given.values() if given.holds] == []
    assert "conflict" not in [record.prompt for record in desk.records[before:] if isinstance(record, PromptPut)]


@pytest.mark.parametrize(
    ("typed", "reply"),
    [
        *((typed, f"'{typed}' is no answer here. Type one of 1, 2, or: can't tell") for typed in ("3", "yes", "both")),
        ("", "An empty line is no answer here. Type one of 1, 2, or: can't tell"),
        ("what if yes", "There is no test now, so there is no answer to try out."),
    ],
)
def test_nothing_else_is_taken(typed: str, reply: str) -> None:
    desk = contradicted()
    before = desk.job
    assert desk.type(typed) == [reply]
    assert desk.job is before


def test_why_and_answers_help_at_a_contradiction() -> None:
    desk = contradicted()
    assert desk.type("why") == [
        "The answers contradict each other. Going on as if both held would lead to a wrong part."
    ]
    assert desk.type("answers")[:2] == [
        "  1. Does the pump run? yes",
        "  2. What does the coil read? 100 ohm (shorted)",
    ]


def test_a_fault_that_accounts_for_all_does_not_hinder_the_repeat() -> None:
    desk = ShippedDesk().intake(complaint="display_wrong")
    answers = NO_DANGER | {"display_from_cold": "sound", "sensor_ohms": "100 ohm"}
    for _ in range(120):
        prompt = desk.job.prompt
        if prompt.kind == "conflict":
            break
        line = answers.get(prompt.subject, "can't tell") if prompt.kind == "question" else prompt.choices[0]
        line = "1" if prompt.subject == "display_from_cold" else line
        desk.type(line)
    assert desk.job.prompt.kind == "conflict"
    desk.type(desk.job.prompt.choices[0])
    goes_on = "The search goes on. An answer that contradicted others is asked again first."
    assert goes_on in [record.text for record in desk.records if isinstance(record, Told)]
    assert desk.job.prompt.kind in ("question", "move")
