"""What was said at intake can be corrected at any time, and what people type elsewhere is answered with our word."""

from __future__ import annotations

import random
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path

import pytest

from expert.desk.opening import shop_of
from expert.desk.replay import rerun
from expert.desk.session import Session
from expert.job.state.job import Job, Phase
from expert.trace.reading import read_trace
from expert.trace.records import PromptPut, Record, TakenIn, Worker
from tests.dialogue.conftest import Desk
from tests.dialogue.shipped_desk import shipped_knowledge
from tests.safety.cheap_search import AnyQuestion
from tests.safety.hunting import Hunt
from tests.safety.judge import Judge
from tests.safety.playing import play
from tests.safety.technicians import Aim, Technician

ASKED_QUALIFIED = [
    "Qualified for live work on mains, by your local rules? (qualified / no: then nothing with covers off and mains on)"
]
PLATE = [
    "Compare with the rating plate. (ok, or a value to change: element_power 1200 W)",
    "  rated_voltage           230 V           fill_coil               950 ohm",
]
NOTED = ["Noted is:", "  1  Boiler does not fill"]
MORE = "Type another, or not and the number of one that was not said, or ok to go on."
PUMP = ["Does the pump run?"]
WHO = "Who is at the bench? Type your name."

NOT_QUALIFIED = "'yes' is no answer here. Type qualified, the whole word, or no; in doubt, no."
ONLY_ONE = "Boiler does not fill: there is no other complaint. Type the right one first, then not 1."
PUDDLE = ["Complaint: Water under the machine.", *NOTED, "  2  Water under the machine", MORE]
TAKEN_BACK = "Taken back: Boiler does not fill. What it warned of stands until a test ends it."
RESTS_ON_IT = "All that was tested rests on the machine type. For another type open another job."

# What is typed, one line after the other at a question of the search, and what each is answered with.
AT_THE_QUESTION: dict[str, list[tuple[str, list[str]]]] = {
    "the name": [("take back name", [WHO]), ("Bo", ASKED_QUALIFIED), ("no", PUMP)],
    "the name by the word": [("name", [WHO]), ("Bo", ASKED_QUALIFIED)],
    "live work": [("qualified", ASKED_QUALIFIED), ("yes", [NOT_QUALIFIED]), ("qualified", PUMP)],
    "the plate": [("plate", PLATE), ("ok", PUMP)],
    "a complaint more": [("complaints", [*NOTED, MORE]), ("leaks", PUDDLE), ("ok", PUMP)],
    "the wrong complaint": [
        ("complaint", [*NOTED, MORE]),
        ("not 1", [ONLY_ONE]),
        ("not 2", ["'2' is not among the complaints noted: 1 Boiler does not fill."]),
        ("leaks", PUDDLE),
        ("not fill", [TAKEN_BACK, "Noted is:", "  1  Water under the machine", MORE]),
    ],
    "the machine": [("take back machine", [RESTS_ON_IT])],
}


@pytest.mark.parametrize("name", AT_THE_QUESTION)
def test_after_the_intake(filling: Desk, name: str) -> None:
    filling.type("yes")
    for typed, answer in AT_THE_QUESTION[name]:
        said = filling.type(typed)
        assert [line for line in said if line in answer] == answer, said


def test_in_the_middle_of_the_intake(desk: Desk) -> None:
    desk.type("Ann", "1", "ok", "no fill", "ok")
    assert desk.type("take back complaints") == [*NOTED, MORE]
    assert desk.type("not fill") == [
        "Taken back: Boiler does not fill.",
        "What is the complaint? Type it in the customer's words, or list.",
    ]
    desk.type("leaks")
    assert desk.type("ok") == ASKED_QUALIFIED
    assert desk.type("take back name") == ["Who is at the bench? Type your name."]
    assert desk.type("Bo") == ASKED_QUALIFIED
    assert desk.type("take back machine")[0] == "Which machine type is it? Type its number."
    assert desk.type("1") == PLATE
    desk.type("fill_coil 800 ohm", "ok", "no", "1")
    taken = [record for record in desk.records if isinstance(record, TakenIn)]
    assert [(one.technician, one.complaint_keys, one.plate) for one in taken] == [
        ("Bo", ("leaks",), ("fill_coil 800 ohm",))
    ]
    assert desk.job.state.possible("complaint.will_not_fill") == ("no",)


def test_what_was_not_said_yet_is_asked_in_its_turn(desk: Desk) -> None:
    desk.type("Ann")
    assert desk.type("take back plate") == ["That was not said yet: it is asked in its turn."]


def test_an_empty_line_is_no_plate_that_was_read(desk: Desk) -> None:
    assert desk.type("Ann", "1", "") == [
        "Read the plate on the machine first: the limits rest on it. Then type ok, or a value that differs."
    ]
    assert desk.job.prompt.subject == "plate"


def test_a_plate_that_is_corrected_judges_earlier_readings_anew(filling: Desk) -> None:
    filling.type("yes", "yes", "yes", "yes", "yes", "950")
    number = filling.job.next_number - 1
    assert filling.job.state.possible("coil") == ("sound",)
    said = filling.type("plate", "fill_coil 400 ohm")
    assert f"Limits rest on this value, so answer {number} is judged anew: What does the coil read?" in said
    assert filling.job.state.possible("coil") == ("off_value",)


def test_whoever_is_somebody_else_may_do_no_live_work_until_it_is_said(desk: Desk) -> None:
    desk.type("Ann", "1", "ok", "no fill", "ok", "qualified", "1", "name", "Bo")
    assert (desk.job.technician, desk.job.qualified, desk.job.workers) == ("Bo", False, ("Ann", "Bo"))
    desk.type("qualified")
    assert [record for record in desk.records if isinstance(record, Worker)] == [
        Worker("Ann", qualified=True),
        Worker("Bo", qualified=False),
        Worker("Bo", qualified=True),
    ]


def test_a_stop_stays_when_the_complaint_behind_it_is_taken_back(desk: Desk) -> None:
    desk.type("Ann", "1", "ok", "steam jet", "ok", "no", "1", "yes", "2 bar")
    assert desk.job.prompt.kind == "danger" or desk.job.dangers_met
    desk.type("complaints", "no fill", "not steam jet", "ok")
    assert desk.job.dangers_met and not desk.job.dangers_cleared


@pytest.mark.parametrize(
    "typed, answer",
    [
        *((word, "To take something back, type: take back") for word in ("undo", "UNDO", "correct")),
        *((word, "To leave the job, type: pause") for word in ("quit", "exit", "q")),
        *((word, "To see what can be typed, type: help") for word in ("menu", "--help")),
    ],
)
def test_words_of_elsewhere(filling: Desk, typed: str, answer: str) -> None:
    before = filling.job
    assert filling.type(typed) == [f"'{typed}' is no word here. {answer}"]
    assert filling.job is before


# ---------------------------------------------------------------- at random


@dataclass(slots=True)
class Correcting(Technician):
    """Corrects now and then what was said at intake, also in the middle of a correction."""

    def line(self, job: Job, put: PromptPut) -> str:
        chance = self.chance
        if job.phase is not Phase.INTAKE and put.prompt == "intake" and put.question == "complaints":
            others = [one for one in self.base.complaints if one not in job.complaints]
            return chance.choice(("ok", "ok", chance.choice(others), "not 1"))
        if job.phase is not Phase.INTAKE and put.prompt == "intake" and put.question == "plate":
            return chance.choice(("ok", "ok", "element_power 1200 W", "set_temperature 118", "limits uk"))
        if job.prompt.kind not in ("take back", "standing") and chance.random() < 0.15:
            return chance.choice(("name", "plate", "complaints", "qualified", "take back name", "take back plate"))
        return Technician.line(self, job, put)


@pytest.mark.parametrize("seed", range(12))
def test_corrected_jobs_stay_safe_and_end(seed: int) -> None:
    knowledge = shipped_knowledge()
    hunt = Hunt(knowledge)
    judge = Judge(knowledge.base)
    chance = random.Random(f"correcting {seed}")
    aim = hunt.aim(chance, seed)
    technician = Correcting(chance, knowledge.base, hunt.readings, aim or Aim(), qualified=chance.random() < 0.5)
    heard: list[Record] = []

    def hear(batch: Sequence[Record]) -> None:
        judge.hear(list(batch))
        heard.extend(batch)

    played = play(knowledge, shop_of(knowledge), technician, hear, AnyQuestion(chance, tuple(aim.outcomes)))
    assert (played.ended, judge.found) == (True, [])


@pytest.mark.parametrize("seed", range(3))
def test_a_corrected_job_is_reproduced(seed: int, tmp_path: Path) -> None:
    knowledge = shipped_knowledge()
    chance = random.Random(f"corrected {seed}")
    technician = Correcting(chance, knowledge.base, Hunt(knowledge).readings, Aim(), leave=0)
    path = tmp_path / "7.jsonl"
    session, records = Session.open(
        knowledge, shop_of(knowledge), path, "7", lambda: datetime(2026, 1, 31, 9, tzinfo=UTC)
    )
    put = next(record for record in records if isinstance(record, PromptPut))
    for _ in range(40):
        if not session.is_over:
            replies = session.say(technician.line(session.job, put))
            put = next((record for record in reversed(replies) if isinstance(record, PromptPut)), put)
    session.close()
    again = rerun(knowledge, read_trace(path))
    assert (again.differences, again.missing, again.job.prompt) == ((), (), session.job.prompt)


# ---------------------------------------------------------------- plate values by their printed names


@pytest.mark.parametrize(
    "typed, plate",
    [
        ("fill_coil 800 ohm", {"fill_coil": 800}),
        ("fill coil 800 ohm", {"fill_coil": 800}),
        ("resistance of the fill coil 800 ohm", {"fill_coil": 800}),
        ("Coil = 800 ohm", {"fill_coil": 800}),
        ("voltage: 240 V", {"rated_voltage": 240}),
    ],
)
def test_a_plate_value_by_its_printed_name(desk: Desk, typed: str, plate: dict[str, float]) -> None:
    desk.type("Ann", "1", typed)
    assert desk.job.machine is not None
    assert plate.items() <= {name: value.value for name, value in desk.job.machine.plate.items()}.items()


def test_the_printed_names_stand_in_how(desk: Desk) -> None:
    assert desk.type("Ann", "1", "how") == [
        "rated_voltage: rated voltage, now 230 V",
        "fill_coil: resistance of the fill coil, now 950 ohm",
    ]
