"""Mistyped commands: they change nothing, and the likely one is named; whole replies compared."""

from __future__ import annotations

from tests.dialogue.phases import at, each

MISTYPED = [
    ("wy", "machine", ["Did you mean: why? 'wy' is no machine type. Type 1."]),
    ("wy", "plate", ["Did you mean: why? 'wy' is no plate value. There are: rated_voltage, fill_coil."]),
    (
        "wy",
        "make safe",
        ["Did you mean: why? 'wy' does not confirm it. Type yes when it is so, or no if it cannot be done."],
    ),
    ("wy", "yes or no", ["Did you mean: why? 'wy' is no answer here. Type yes or no, or: can't tell"]),
    (
        "wy",
        "choice",
        ["Did you mean: why? 'wy' is no answer here. Type 1 to 2, or one of click, never, or: can't tell"],
    ),
    (
        "wy",
        "find",
        [
            (
                "Did you mean: why? 'wy' has no number; a resistance is wanted, in ohm, kohm or Mohm, or OL. Or "
                "type: can't tell"
            )
        ],
    ),
    ("wy", "stop", ["Did you mean: why? 'wy' does not lift the stop. Type: dealt with by NAME. Or: hand over"]),
    (
        "wy",
        "repair",
        [("Did you mean: why? 'wy' does not say what was done. Is it done? (done / no / instead, and what you did)")],
    ),
    ("wy", "close", ["Did you mean: why? 'wy' is no answer here. Type a number from 1 to 4."]),
    ("wy", "parts", ["Did you mean: why? 'wy' names no part. Type ok, none, or the parts, separated by commas."]),
    ("wy", "minutes", ["Did you mean: why? 'wy' is no number of minutes. Type one such as 45, or ok."]),
    ("wy", "note", ["Did you mean: why? 'wy' is no remark. Type it in a few more words, or no."]),
    ("takeback 3", "machine", ["Did you mean: take back? 'takeback 3' is no machine type. Type 1."]),
    (
        "takeback 3",
        "plate",
        ["Did you mean: take back? 'takeback' is no plate value. There are: rated_voltage, fill_coil."],
    ),
    (
        "takeback 3",
        "make safe",
        [
            (
                "Did you mean: take back? 'takeback 3' does not confirm it. Type yes when it is so, or no if it "
                "cannot be done."
            )
        ],
    ),
    (
        "takeback 3",
        "yes or no",
        ["Did you mean: take back? 'takeback 3' is no answer here. Type yes or no, or: can't tell"],
    ),
    (
        "takeback 3",
        "choice",
        [
            (
                "Did you mean: take back? 'takeback 3' is no answer here. Type 1 to 2, or one of click, never, "
                "or: can't tell"
            )
        ],
    ),
    (
        "takeback 3",
        "find",
        [
            (
                "Did you mean: take back? 'takeback 3' is not one number with one unit; a resistance is wanted, "
                "in ohm, kohm or Mohm, or OL. Or type: can't tell"
            )
        ],
    ),
    (
        "takeback 3",
        "stop",
        [("Did you mean: take back? 'takeback 3' does not lift the stop. Type: dealt with by NAME. Or: hand over")],
    ),
    (
        "takeback 3",
        "repair",
        [
            (
                "Did you mean: take back? 'takeback 3' does not say what was done. "
                "Is it done? (done / no / instead, and what you did)"
            )
        ],
    ),
    ("takeback 3", "close", ["Did you mean: take back? 'takeback 3' is no answer here. Type a number from 1 to 4."]),
    (
        "takeback 3",
        "parts",
        [("Did you mean: take back? 'takeback 3' names no part. Type ok, none, or the parts, separated by commas.")],
    ),
    (
        "takeback 3",
        "minutes",
        ["Did you mean: take back? 'takeback 3' is no number of minutes. Type one such as 45, or ok."],
    ),
    ("takeback 3", "note", ["Did you mean: take back? 'takeback 3' is no remark. Type it in a few more words, or no."]),
    ("awnsers", "machine", ["Did you mean: answers? 'awnsers' is no machine type. Type 1."]),
    ("awnsers", "plate", ["Did you mean: answers? 'awnsers' is no plate value. There are: rated_voltage, fill_coil."]),
    (
        "awnsers",
        "make safe",
        [("Did you mean: answers? 'awnsers' does not confirm it. Type yes when it is so, or no if it cannot be done.")],
    ),
    ("awnsers", "yes or no", ["Did you mean: answers? 'awnsers' is no answer here. Type yes or no, or: can't tell"]),
    (
        "awnsers",
        "choice",
        [("Did you mean: answers? 'awnsers' is no answer here. Type 1 to 2, or one of click, never, or: can't tell")],
    ),
    (
        "awnsers",
        "find",
        [
            (
                "Did you mean: answers? 'awnsers' has no number; a resistance is wanted, in ohm, kohm or Mohm, "
                "or OL. Or type: can't tell"
            )
        ],
    ),
    (
        "awnsers",
        "stop",
        ["Did you mean: answers? 'awnsers' does not lift the stop. Type: dealt with by NAME. Or: hand over"],
    ),
    (
        "awnsers",
        "repair",
        [
            (
                "Did you mean: answers? 'awnsers' does not say what was done. "
                "Is it done? (done / no / instead, and what you did)"
            )
        ],
    ),
    ("awnsers", "close", ["Did you mean: answers? 'awnsers' is no answer here. Type a number from 1 to 4."]),
    (
        "awnsers",
        "parts",
        ["Did you mean: answers? 'awnsers' names no part. Type ok, none, or the parts, separated by commas."],
    ),
    ("awnsers", "minutes", ["Did you mean: answers? 'awnsers' is no number of minutes. Type one such as 45, or ok."]),
    ("awnsers", "note", ["Did you mean: answers? 'awnsers' is no remark. Type it in a few more words, or no."]),
    ("why not", "machine", ["Did you mean: why? 'why not' is no machine type. Type 1."]),
    ("why not", "plate", ["Did you mean: why? 'why' is no plate value. There are: rated_voltage, fill_coil."]),
    (
        "why not",
        "make safe",
        [("Did you mean: why? 'why not' does not confirm it. Type yes when it is so, or no if it cannot be done.")],
    ),
    ("why not", "yes or no", ["Did you mean: why? 'why not' is no answer here. Type yes or no, or: can't tell"]),
    (
        "why not",
        "choice",
        ["Did you mean: why? 'why not' is no answer here. Type 1 to 2, or one of click, never, or: can't tell"],
    ),
    (
        "why not",
        "find",
        [
            (
                "Did you mean: why? 'why not' has no number; a resistance is wanted, in ohm, kohm or Mohm, or "
                "OL. Or type: can't tell"
            )
        ],
    ),
    (
        "why not",
        "stop",
        ["Did you mean: why? 'why not' does not lift the stop. Type: dealt with by NAME. Or: hand over"],
    ),
    (
        "why not",
        "repair",
        [
            (
                "Did you mean: why? 'why not' does not say what was done. "
                "Is it done? (done / no / instead, and what you did)"
            )
        ],
    ),
    ("why not", "close", ["Did you mean: why? 'why not' is no answer here. Type a number from 1 to 4."]),
    (
        "why not",
        "parts",
        ["Did you mean: why? 'why not' names no part. Type ok, none, or the parts, separated by commas."],
    ),
    ("why not", "minutes", ["Did you mean: why? 'why not' is no number of minutes. Type one such as 45, or ok."]),
    ("why not", "note", ["Did you mean: why? 'why not' is no remark. Type it in a few more words, or no."]),
    ("what if banana", "yes or no", ["'banana' is no answer here. Type yes or no, or: can't tell"]),
    (
        "canttell",
        "yes or no",
        ["Did you mean: can't tell? 'canttell' is no answer here. Type yes or no, or: can't tell"],
    ),
    (
        "handover",
        "yes or no",
        ["Did you mean: hand over? 'handover' is no answer here. Type yes or no, or: can't tell"],
    ),
    ("suspect", "yes or no", ["Did you mean: suspects? 'suspect' is no answer here. Type yes or no, or: can't tell"]),
    ("hlep", "yes or no", ["Did you mean: help? 'hlep' is no answer here. Type yes or no, or: can't tell"]),
    ("puase", "yes or no", ["Did you mean: pause? 'puase' is no answer here. Type yes or no, or: can't tell"]),
    (
        "whatif yes",
        "yes or no",
        ["Did you mean: what if? 'whatif yes' is no answer here. Type yes or no, or: can't tell"],
    ),
    (
        "takeback",
        "name",
        ["Did you mean: take back? A name is needed for the record. Type your name or your initials."],
    ),
    (
        "handover",
        "name",
        ["Did you mean: hand over? A name is needed for the record. Type your name or your initials."],
    ),
    ("?!", "name", ["A name is needed for the record. Type your name or your initials."]),
    ("can't tell who", "name", ["A name is needed for the record. Type your name or your initials."]),
]


@each(MISTYPED)
def test_a_mistyped_command_changes_nothing(command: str, phase: str, reply: list[str]) -> None:
    desk = at(phase)
    before = desk.job
    assert desk.type(command) == reply
    assert desk.job is before
