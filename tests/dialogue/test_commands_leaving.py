"""Leaving a job: pause and hand over, in every phase; whole replies compared."""

from __future__ import annotations

from expert.job.sentences.customer import DO_NOT_USE
from expert.job.state.job import Phase
from tests.dialogue.phases import at, each

HANDED = "Handed over, not closed: it stays open until somebody closes it. To take it on:"
PAUSE = [
    (
        "pause",
        "name, machine, plate, complaints, qualified, arrives, move, find, stop, repair, close, parts, minutes, note",
        ["Paused. Nothing is lost. Go on with:", "  expert resume 7"],
    ),
    (
        "pause",
        "make safe, yes or no, choice, not safe, prove",
        [
            "! The machine is not safe to leave: mains on, covers on. Unplug it and keep the plug in sight.",
            "Paused. Nothing is lost. Go on with:",
            "  expert resume 7",
        ],
    ),
]
HAND_OVER = [
    ("hand over", "name", ["The intake comes first. Type pause to leave the job."]),
    (
        "hand over",
        "make safe",
        [
            HANDED,
            "  expert resume 7",
            "Where the job stands:",
            "  Complaints: Boiler does not fill",
            "  Bench: mains on, covers on",
            "  Still possible: fill valve: coil open",
            "  Still possible: pump: dead",
            "  Still possible: fill valve: stuck shut",
            "! The machine is not safe to leave: mains on, covers on. Unplug it and keep the plug in sight.",
            "For the customer:",
            "  Job 7. Machine: Test machine.",
            "  You reported: Boiler does not fill.",
            "  The work is not finished. It was handed to a colleague.",
            f"  {DO_NOT_USE}",
            "  Not explained yet: Boiler does not fill.",
            "  Suspected, not proved: fill valve: coil open; pump: dead; fill valve: stuck shut.",
            "  What to watch:",
            "    - If it trips the supply, gives a tingle or smells burnt: pull the plug and do not use it.",
            "    - Use the water that suits your machine, and have it descaled in time.",
            "    - If the complaint comes back, stop using the machine and call us with the job number.",
        ],
    ),
    (
        "hand over",
        "find",
        [
            HANDED,
            "  expert resume 7",
            "Where the job stands:",
            "  Complaints: Boiler does not fill",
            "  Bench: mains isolated, covers off",
            "  Still possible: fill valve: coil open",
            "  Still possible: fill valve: stuck shut",
            "  1. Does the pump run? yes",
            "For the customer:",
            "  Job 7. Machine: Test machine.",
            "  You reported: Boiler does not fill.",
            "  The work is not finished. It was handed to a colleague.",
            f"  {DO_NOT_USE}",
            "  Not explained yet: Boiler does not fill.",
            "  Suspected, not proved: fill valve: coil open; fill valve: stuck shut.",
            "  What to watch:",
            "    - If it trips the supply, gives a tingle or smells burnt: pull the plug and do not use it.",
            "    - Use the water that suits your machine, and have it descaled in time.",
            "    - If the complaint comes back, stop using the machine and call us with the job number.",
        ],
    ),
    (
        "hand over",
        "stop",
        [
            HANDED,
            "  expert resume 7",
            "Where the job stands:",
            "  Complaints: Safety valve blows",
            "  Bench: mains isolated, covers on",
            "  Danger: The boiler pressure is out of control. Pull the plug.",
            "  Still possible: heat relay: shorted",
            "  1. What does the boiler gauge show? 2 bar (high)",
            "For the customer:",
            "  Job 7. Machine: Test machine.",
            "  You reported: Safety valve blows.",
            "  Danger found: The boiler pressure is out of control.",
            "  The work is not finished. It was handed to a colleague.",
            f"  {DO_NOT_USE}",
            "  Not explained yet: Safety valve blows.",
            "  Suspected, not proved: heat relay: shorted.",
            "  What to watch:",
            "    - If it trips the supply, gives a tingle or smells burnt: pull the plug and do not use it.",
            "    - Use the water that suits your machine, and have it descaled in time.",
            "    - If the complaint comes back, stop using the machine and call us with the job number.",
        ],
    ),
    (
        "hand over",
        "repair",
        [
            HANDED,
            "  expert resume 7",
            "Where the job stands:",
            "  Complaints: Boiler does not fill",
            "  Bench: mains isolated, covers off",
            "  Found: fill valve: coil open",
            "  1. Does the pump run? yes",
            "  2. What does the coil read? OL (open)",
            "For the customer:",
            "  Job 7. Machine: Test machine.",
            "  You reported: Boiler does not fill.",
            "  What was wrong: fill valve: coil open.",
            "  The work is not finished. It was handed to a colleague.",
            f"  {DO_NOT_USE}",
            "  What to watch:",
            "    - If it trips the supply, gives a tingle or smells burnt: pull the plug and do not use it.",
            "    - Use the water that suits your machine, and have it descaled in time.",
            "    - If the complaint comes back, stop using the machine and call us with the job number.",
        ],
    ),
    (
        "hand over",
        "prove",
        [
            HANDED,
            "  expert resume 7",
            "Where the job stands:",
            "  Complaints: Boiler does not fill",
            "  Bench: mains on, covers on",
            "  Repaired, not proved yet: fill valve: coil open",
            "  1. Does the pump run? yes",
            "  Still to be proved: Does water arrive in the boiler?",
            "! The machine is not safe to leave: mains on, covers on. Unplug it and keep the plug in sight.",
            "For the customer:",
            "  Job 7. Machine: Test machine.",
            "  You reported: Boiler does not fill.",
            "  What was wrong: fill valve: coil open.",
            "  What was done: it was repaired, with fill coil.",
            "  The work is not finished. It was handed to a colleague.",
            f"  {DO_NOT_USE}",
            "  What to watch:",
            "    - If it trips the supply, gives a tingle or smells burnt: pull the plug and do not use it.",
            "    - Use the water that suits your machine, and have it descaled in time.",
            "    - If the complaint comes back, stop using the machine and call us with the job number.",
        ],
    ),
    (
        "hand over",
        "close",
        [
            HANDED,
            "  expert resume 7",
            "Where the job stands:",
            "  Complaints: Boiler does not fill",
            "  Bench: mains isolated, covers on",
            "  Repaired and proved: fill valve: coil open",
            "  1. Does the pump run? yes",
            "  3. Does water arrive in the boiler? yes",
            "For the customer:",
            "  Job 7. Machine: Test machine.",
            "  You reported: Boiler does not fill.",
            "  What was wrong: fill valve: coil open.",
            "  What was done: it was repaired, with fill coil.",
            "  The work is not finished. It was handed to a colleague.",
            f"  {DO_NOT_USE}",
            "  Tested after the repair:",
            "    - Does water arrive in the boiler: yes",
            "  What to watch:",
            "    - If it trips the supply, gives a tingle or smells burnt: pull the plug and do not use it.",
            "    - Use the water that suits your machine, and have it descaled in time.",
            "    - If the complaint comes back, stop using the machine and call us with the job number.",
        ],
    ),
]


@each(PAUSE)
def test_pause_leaves_the_job_where_it_is(command: str, phase: str, reply: list[str]) -> None:
    desk = at(phase)
    waiting = desk.job.prompt
    assert desk.type(command) == reply
    assert desk.job.paused and desk.job.prompt == waiting


@each(HAND_OVER)
def test_hand_over_leaves_the_job_with_a_summary(command: str, phase: str, reply: list[str]) -> None:
    desk = at(phase)
    said = desk.type(command)
    if desk.job.leaving:  # plugged in: the plug comes out first
        assert said[0] == "It is handed over as soon as the machine is safe."
        said = desk.type("yes")
        reply = [line.replace("mains on", "mains isolated") for line in reply if "not safe to leave" not in line]
    assert said == reply
    assert (desk.job.phase is Phase.DONE) == (phase != "name")
    assert not desk.job.is_closed
