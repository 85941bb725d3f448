"""The commands that explain: why, how, what if, suspects, in every phase of a job; whole replies compared."""

from __future__ import annotations

from tests.dialogue.phases import at, each

NOT_HERE = "There is no test to explain here. Type help for what you can type."
NO_TEST_AT = (
    "name, machine, plate, complaints, qualified, arrives, make safe, move, not safe, stop, repair, close, "
    "parts, minutes, note"
)
NO_TEST = "There is no test now, so there is no answer to try out."

WHY = [
    ("why", "name", ["The record says who worked at the machine."]),
    ("why", "machine", ["Tests, limits and parts depend on the type of machine."]),
    ("why", "plate", ["The limits of the tests are worked out from these values."]),
    ("why", "complaints", ["The search starts from what the customer noticed."]),
    (
        "why",
        "qualified",
        ["Tests on live parts are put only to those who may do them. To take it back later: not qualified"],
    ),
    ("why", "arrives", ["How the machine stands decides what makes it safe."]),
    (
        "why",
        "make safe",
        [
            "The machine is made safe before the search begins.",
            "You confirm each move, so that nobody works on a live or hot machine by mistake.",
        ],
    ),
    (
        "why",
        "move",
        [
            "The next test needs the bench in another state. It is: Does the pump run?",
            "You confirm each move, so that nobody works on a live or hot machine by mistake.",
        ],
    ),
    (
        "why",
        "yes or no",
        [
            "Of the 3 faults left it can tell 1 from the other 2: pump: dead.",
            "It takes 3 min, these moves included: Switch on.",
            "The next best: What does the coil read? It takes 8 min, these moves included: Take the covers off.",
            "Not explained yet: Boiler does not fill.",
            "In numbers: why more",
        ],
    ),
    (
        "why more",
        "yes or no",
        [
            "It tells about 0.96 bits in 3 min, moves of the bench included. (1 bit: half of the doubt is gone.)",
            "Next in line: What does the coil read? (0.85 bits in 8 min)",
            "Next in line: Does water arrive in the boiler? (0.09 bits in 5 min)",
        ],
    ),
    (
        "why",
        "choice",
        [
            "It tells whether this is normal behaviour.",
            "It takes 12 min, these moves included: Switch on.",
            "Not explained yet: Hisses on heat-up.",
            "In numbers: why more",
        ],
    ),
    (
        "why",
        "find",
        [
            "Of the 2 faults left it can tell 1 from the other 1: fill valve: coil open.",
            "It takes 9 min, these moves included: Unplug; Take the covers off.",
            "The next best: Does water arrive in the boiler? It takes 2 min as the bench stands.",
            "Not explained yet: Boiler does not fill.",
            "In numbers: why more",
        ],
    ),
    (
        "why",
        "not safe",
        [
            "A danger was found. The machine is made safe before anything else.",
            "You confirm each move, so that nobody works on a live or hot machine by mistake.",
        ],
    ),
    ("why", "stop", ["A danger was found. Nothing else is asked until a responsible person has dealt with it."]),
    ("why", "repair", ["Rules and answers point to this fault. Type suspects or answers to see on what it rests."]),
    (
        "why",
        "prove",
        ["This test would have caught a wrong repair. It must come out sound before the machine goes out."],
    ),
    ("why", "close", ["The record and the customer's summary say how the job ended."]),
    ("why", "parts", ["The record says which parts were used. The bill rests on it."]),
    ("why", "minutes", ["The record says how long the job took. The bill rests on it."]),
    ("why", "note", ["What the record does not say otherwise, the next person will not know."]),
]
HOW = [
    ("how", "name, machine, complaints, qualified, arrives, close, parts, minutes, note", [NOT_HERE]),
    (
        "how",
        "plate",
        ["rated_voltage: rated voltage, now 230 V", "fill_coil: resistance of the fill coil, now 950 ohm"],
    ),
    ("how", "make safe, not safe", ["! Mains kills. Pull the plug.", "1. Pull the plug.", "Is it out?"]),
    ("how", "move", ["1. Plug in.", "Is it on?"]),
    ("how", "yes or no", ["How: Listen.", "Bench: mains on, covers on. About 1 min."]),
    (
        "how",
        "choice",
        ["! Steam scalds.", "How: Heat up from cold and wait.", "Bench: mains on, covers on. About 10 min."],
    ),
    (
        "how",
        "find",
        [
            "! Mains kills. Pull the plug.",
            "How: Pull one lead off.",
            "Sound machine: About the plate value.",
            "Instrument: ohm meter.",
            "Limit: open is above 100 kohm.",
            "Limit: shorted is below 475 ohm.",
            "Limit: sound is from 712 ohm to 1.19 kohm.",
            "From: coil expected: 950 ohm = plate.fill_coil; fill_coil 950 ohm (common practice, no source)",
            "Bench: mains isolated, covers off. About 3 min.",
        ],
    ),
    (
        "how",
        "stop",
        [
            "STOP! The boiler pressure is out of control. Pull the plug.",
            (
                "Work has stopped. When a responsible person has dealt with the danger, type: dealt with by "
                "NAME. Or: hand over"
            ),
        ],
    ),
    (
        "how",
        "repair",
        [
            "! Mains kills. Pull the plug.",
            "You need: fill coil.",
            "1. Fit a new coil.",
            "Is it done? (done / no / instead, and what you did)",
        ],
    ),
    ("how", "prove", ["How: Look at the glass.", "Bench: mains on, covers on. About 2 min."]),
]
WHAT_IF = [
    ("what if yes", NO_TEST_AT, [NO_TEST]),
    ("what if yes", "yes or no", ["If it is yes:", "  cleared: pump: dead", "  It runs."]),
    ("what if yes", "choice", ["'yes' is no answer here. Type 1 to 2, or one of click, never, or: can't tell"]),
    (
        "what if yes",
        "find",
        ["'yes' has no number; a resistance is wanted, in ohm, kohm or Mohm, or OL. Or type: can't tell"],
    ),
    (
        "what if yes",
        "prove",
        ["If it is yes:", "  cleared: fill valve: stuck shut", "  Water comes through the valve."],
    ),
    ("what if", NO_TEST_AT, [NO_TEST]),
    ("what if", "yes or no, prove", ["Type what if and an answer, such as: what if yes"]),
    ("what if", "choice", ["Type what if and an answer, such as: what if 1"]),
    ("what if", "find", ["Type what if and an answer, such as: what if 10 ohm"]),
    ("what if banana", NO_TEST_AT, [NO_TEST]),
    ("what if banana", "yes or no, prove", ["'banana' is no answer here. Type yes or no, or: can't tell"]),
    ("what if banana", "choice", ["'banana' is no answer here. Type 1 to 2, or one of click, never, or: can't tell"]),
    (
        "what if banana",
        "find",
        ["'banana' has no number; a resistance is wanted, in ohm, kohm or Mohm, or OL. Or type: can't tell"],
    ),
    ("what if can't tell", NO_TEST_AT, [NO_TEST]),
    (
        "what if can't tell",
        "yes or no, choice, find, prove",
        ["The question is left, and the search goes on by other tests."],
    ),
    ("what if 950", "find", ["If it is sound:", "  cleared: fill valve: coil open", "  The coil has continuity."]),
    (
        "what if 1190",
        "find",
        ["If it is sound or off_value:", "  cleared: fill valve: coil open", "  The coil has continuity."],
    ),
    ("what if click", "choice", ["If it is click:", "  The valve lets the air out and shuts."]),
    ("what if 2", "choice", ["If it is never:", "  Nothing could be concluded from it alone."]),
]
SUSPECTS = [
    (
        "suspects",
        "name, machine, plate, complaints, qualified, arrives",
        ["No suspects before the complaint is known."],
    ),
    (
        "suspects",
        "make safe, move, yes or no",
        [
            "  43% #########            fill valve: coil open",
            "  43% #########            pump: dead",
            "  13% ###                  fill valve: stuck shut",
        ],
    ),
    ("suspects", "choice", ["No suspect is open."]),
    (
        "suspects",
        "find",
        ["  74% ###############      fill valve: coil open", "  23% #####                fill valve: stuck shut"],
    ),
    ("suspects", "not safe, stop", ["  91% ##################   heat relay: shorted"]),
    ("suspects", "repair", ["Found: fill valve: coil open"]),
    ("suspects", "prove", ["Repaired, not proved yet: fill valve: coil open"]),
    ("suspects", "close, parts, minutes, note", ["Repaired and proved: fill valve: coil open"]),
]


@each(WHY + HOW + WHAT_IF + SUSPECTS)
def test_what_is_explained(command: str, phase: str, reply: list[str]) -> None:
    desk = at(phase)
    before = desk.job.prompt
    assert desk.type(command) == reply
    assert desk.job.prompt == before, "explaining moves nothing"
