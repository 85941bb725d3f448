"""The commands about answers: answers, take back, can't tell, note, help, in every phase; whole replies compared."""

from __future__ import annotations

import pytest

from expert.job.answers.command_words import HELP
from expert.trace.records import Noted
from tests.dialogue.phases import PHASES, at, each

WHICH = "Which one? Type take back and its number."
INTAKE_TOO = "What was said at intake: take back name, plate, complaints or qualified."
LEFT_OPEN = "Left open. Later: take back {}"
IS_IT_OUT = "Is it out? (yes / no)"

ANSWERS = [
    ("answers", "name, arrives", ["No answers yet.", "Bench: not known yet."]),
    ("answers", "make safe", ["No answers yet.", "Bench: mains on, covers on."]),
    ("answers", "move", ["No answers yet.", "Bench: mains isolated, covers on."]),
    ("answers", "find", ["  1. Does the pump run? yes", "Bench: mains isolated, covers off."]),
    ("answers", "not safe", ["  1. What does the boiler gauge show? 2 bar (high)", "Bench: mains on, covers on."]),
    ("answers", "stop", ["  1. What does the boiler gauge show? 2 bar (high)", "Bench: mains isolated, covers on."]),
    (
        "answers",
        "repair",
        [
            "  1. Does the pump run? yes",
            "  2. What does the coil read? OL (open)",
            "Bench: mains isolated, covers off.",
        ],
    ),
    (
        "answers",
        "prove",
        [
            "  1. Does the pump run? yes",
            "  2. What does the coil read? OL (open)  (no longer holds)",
            "Bench: mains on, covers on.",
        ],
    ),
    (
        "answers",
        "close, note",
        [
            "  1. Does the pump run? yes",
            "  2. What does the coil read? OL (open)  (no longer holds)",
            "  3. Does water arrive in the boiler? yes",
            "Bench: mains isolated, covers on.",
        ],
    ),
]
TAKE_BACK = [
    ("take back 1", "name, arrives, make safe", ["There is nothing to take back yet."]),
    ("take back 1", "move", ["There is no answer to take back."]),
    (
        "take back 1",
        "find, repair, prove, close, note",
        ["Answer 1: Does the pump run? yes", "  no longer cleared: pump: dead", "Take it back? Type yes or no."],
    ),
    (
        "take back 1",
        "not safe, stop",
        [
            (
                "The danger rests on this answer, and whoever works at the bench cannot lift the stop. When a "
                "responsible person has looked at it, type: dealt with by NAME. Then the answer can be taken "
                "back and the test repeated."
            )
        ],
    ),
    ("take back 2", "name, arrives, make safe", ["There is nothing to take back yet."]),
    ("take back 2", "move", ["There is no answer to take back."]),
    (
        "take back 2",
        "find, not safe, stop",
        ["There is no answer '2'. Answers that hold: 1. Type answers to see them."],
    ),
    (
        "take back 2",
        "repair",
        [
            "Answer 2: What does the coil read? OL (open)",
            "  no longer found: fill valve: coil open",
            "Take it back? Type yes or no.",
        ],
    ),
    ("take back 2", "prove", ["Answer 2 no longer holds. Answers that hold: 1. Type answers to see them."]),
    ("take back 2", "close, note", ["Answer 2 no longer holds. Answers that hold: 1, 3. Type answers to see them."]),
    ("take back 99", "name, arrives, make safe", ["There is nothing to take back yet."]),
    ("take back 99", "move", ["There is no answer to take back."]),
    (
        "take back 99",
        "find, not safe, stop, prove",
        ["There is no answer '99'. Answers that hold: 1. Type answers to see them."],
    ),
    ("take back 99", "repair", ["There is no answer '99'. Answers that hold: 1, 2. Type answers to see them."]),
    ("take back 99", "close, note", ["There is no answer '99'. Answers that hold: 1, 3. Type answers to see them."]),
    ("take back", "name, arrives, make safe, move", ["There is no answer to take back yet.", INTAKE_TOO]),
    ("take back", "find, prove", [WHICH, "  1. Does the pump run? yes", INTAKE_TOO]),
    ("take back", "stop, not safe", [WHICH, "  1. What does the boiler gauge show? 2 bar (high)", INTAKE_TOO]),
    (
        "take back",
        "repair",
        [WHICH, "  1. Does the pump run? yes", "  2. What does the coil read? OL (open)", INTAKE_TOO],
    ),
    (
        "take back",
        "close, note",
        [WHICH, "  1. Does the pump run? yes", "  3. Does water arrive in the boiler? yes", INTAKE_TOO],
    ),
]
CANNOT_TELL = [
    ("can't tell", "name", ["A name is needed for the record. Type your name or your initials."]),
    (
        "can't tell",
        "machine",
        ["The type must be known: limits and tests depend on it. Compare the layout, then type a number."],
    ),
    ("can't tell", "plate", ["If the plate cannot be read, type ok: the values of the machine type are used."]),
    ("can't tell", "complaints", ["Type what the customer said, in a few words, or list to see all complaints."]),
    ("can't tell", "qualified", ["In doubt, type no: then nothing is asked with the covers off and the mains on."]),
    ("can't tell", "arrives", ["Look at the machine, and type the number of the line that fits."]),
    (
        "can't tell",
        "make safe, not safe",
        [
            "Noted: that cannot be done now. Looking for another way.",
            (
                "The machine could not be made safe. Leave it, keep everybody away, switch off at the breaker. "
                "When a responsible person has made it safe, type: dealt with by NAME. Or: hand over"
            ),
        ],
    ),
    (
        "can't tell",
        "move",
        [
            "Noted: that cannot be done now. Looking for another way.",
            "! Mains kills. Pull the plug.",
            "Take the covers off. (5 min)",
            "1. Undo the screws.",
            "Are they off? (yes / no)",
        ],
    ),
    (
        "can't tell",
        "yes or no",
        [LEFT_OPEN.format(1), "! Mains kills. Pull the plug.", "Unplug. (1 min)", "1. Pull the plug.", IS_IT_OUT],
    ),
    (
        "can't tell",
        "prove",
        [LEFT_OPEN.format(3), "! Mains kills. Pull the plug.", "Unplug. (1 min, as before: how)", IS_IT_OUT],
    ),
    (
        "can't tell",
        "choice",
        [
            LEFT_OPEN.format(1),
            "Not resolved.",
            "'Hisses on heat-up' is not resolved. No known fault that explains it is left.",
            "Or it is something that these rules do not know.",
            "What would settle it: How does the hiss end?",
            "It could not be told. If it can be after all: take back 1",
            "! Mains kills. Pull the plug.",
            "Unplug. (1 min)",
            "1. Pull the plug.",
            "Is it out? (yes / no)",
        ],
    ),
    (
        "can't tell",
        "find",
        [LEFT_OPEN.format(2), "Put the covers on. (4 min)", "1. Screw them on.", "Are they on? (yes / no)"],
    ),
    ("can't tell", "stop", ["'can't tell' does not lift the stop. Type: dealt with by NAME. Or: hand over"]),
    (
        "can't tell",
        "repair",
        [("'can't tell' does not say what was done. Is it done? (done / no / instead, and what you did)")],
    ),
    ("can't tell", "close", ["'can't tell' is no answer here. Type a number from 1 to 4."]),
    ("can't tell", "parts", ["'can't tell' names no part. Type ok, none, or the parts, separated by commas."]),
    ("can't tell", "minutes", ["'can't tell' is no number of minutes. Type one such as 45, or ok."]),
    ("can't tell", "note", ["'can't tell' is no remark. Type it in a few more words, or no."]),
]


@each(ANSWERS + TAKE_BACK + CANNOT_TELL)
def test_what_is_said(command: str, phase: str, reply: list[str]) -> None:
    assert at(phase).type(command) == reply


@pytest.mark.parametrize("phase", PHASES)
def test_help_note_and_a_question_mark_do_in_every_phase(phase: str) -> None:
    assert at(phase).type("help") == list(HELP)
    assert at(phase).type("note") == ["Type note and the remark, such as: note lime on the probe"]
    desk = at(phase)
    waiting = desk.job.prompt
    assert desk.type("Note Lime on the probe") == ["Noted."]
    assert (desk.records[-1], desk.job.prompt) == (Noted("Lime on the probe"), waiting)
    if waiting.kind not in ("question", "proof", "conflict"):
        assert at(phase).type("?") == list(HELP)
