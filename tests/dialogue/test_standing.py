"""A job taken up again: whoever goes on says first whether the machine still stands as the record has it."""

from __future__ import annotations

from datetime import UTC, datetime
from pathlib import Path

import pytest

from expert.desk.opening import shop_of
from expert.desk.replay import rerun
from expert.desk.session import Session
from expert.desk.taking_up import resume
from expert.engine.knowledge import Knowledge, knowledge_of
from expert.job.state.job import Job
from expert.language.load import load_rules
from expert.language.shipped import shipped
from expert.trace.reading import read_trace
from expert.trace.records import Moved, PromptPut, Resumed
from tests.dialogue.conftest import spoken

INTAKE = ("Ann", "1", "ok", "no_heat", "ok", "no", "1")
SWITCHED_ON = ("Ann", "1", "ok", "water_back_to_tank", "ok", "no", "1", "sound", "nothing", "on")
WHO = ["Who is at the bench now? Type your name."]
ASKED = [
    "Look before you touch anything. Is the machine still as it was: mains on, covers on, boiler cold, pressure none, "
    "element connected, altered nothing? (yes / no)"
]


def clock() -> datetime:
    return datetime(2026, 1, 31, 9, 30, tzinfo=UTC)


@pytest.fixture(scope="module")
def knowledge() -> Knowledge:
    return knowledge_of(load_rules(shipped("rules")))


class Left:
    """A job that was left after some lines, and can be taken up again."""

    def __init__(self, knowledge: Knowledge, folder: Path, *lines: str) -> None:
        self.knowledge, self.path = knowledge, folder / "7.jsonl"
        self.session, _ = Session.open(knowledge, shop_of(knowledge), self.path, "7", clock)
        self.last: list[str] = []
        self.type(*lines)

    @property
    def job(self) -> Job:
        return self.session.job

    def type(self, *lines: str) -> list[str]:
        for line in lines:
            self.last = spoken(self.job, self.session.say(line))
        return self.last

    def resume(self) -> list[str]:
        self.session.close()
        self.session, opening = resume(self.knowledge, self.path, clock)
        return spoken(self.job, opening)

    def resume_as(self, name: str = "Ann", qualified: str = "no") -> list[str]:
        """Taken up again by somebody, up to what comes after the two questions about the person."""
        assert self.resume()[-1] == WHO[0]
        return self.type(name, qualified)

    def is_reproduced(self) -> bool:
        self.session.close()
        again = rerun(self.knowledge, read_trace(self.path))
        return (again.differences, again.missing, again.job.prompt) == ((), (), self.job.prompt)


def test_of_a_machine_that_stood_safe_only_who_is_there_is_asked(knowledge: Knowledge, tmp_path: Path) -> None:
    left = Left(knowledge, tmp_path, *INTAKE)
    waiting = left.job.prompt
    assert left.resume_as("Bo", "qualified")[-1] == "  3  plug without an earth contact, or altered"
    assert left.job.prompt == waiting
    assert (left.job.technician, left.job.qualified, left.job.workers) == ("Bo", True, ("Ann", "Bo"))
    assert left.is_reproduced()


def test_the_qualification_of_whoever_left_carries_over_to_nobody(knowledge: Knowledge, tmp_path: Path) -> None:
    left = Left(knowledge, tmp_path, *INTAKE[:5], "qualified", "1")
    assert left.job.qualified
    left.resume_as("Bo", "no")
    assert not left.job.qualified
    assert left.type("not qualified")[0] == "Noted. No live work is put to you from here on."
    assert left.is_reproduced()


def test_with_a_yes_the_job_goes_on_with_exactly_the_question_at_which_it_was_left(
    knowledge: Knowledge, tmp_path: Path
) -> None:
    left = Left(knowledge, tmp_path, *SWITCHED_ON)
    before, shown = left.job, left.last
    assert left.resume_as() == ASKED
    assert left.type("perhaps") == ["'perhaps' is no answer here. Type yes if it stands so, no if it does not."]
    assert left.type("yes")[-1] == shown[-1]
    assert (left.job.prompt, left.job.bench, left.job.choice) == (before.prompt, before.bench, before.choice)
    assert Moved("stands as recorded", dict(before.bench), 0.0) in read_trace(left.path).records
    assert left.is_reproduced()


def test_with_a_no_the_worst_is_assumed_and_the_machine_made_safe_again(knowledge: Knowledge, tmp_path: Path) -> None:
    left = Left(knowledge, tmp_path, *SWITCHED_ON)
    left.resume_as()
    assert left.type("no") == [
        "How does it stand now: covers on or off? Type the number.",
        "  1  covers on",
        "  2  covers off",
    ]
    assert left.type("3") == ["'3' is no answer here. Type a number from 1 to 2."]
    said = left.type("2", "1", "1")
    assert said[0] == "Everything else counts as unsafe until it is made safe, step by step."
    assert said[-1] == "Is the plug out and in sight? (out / no)"
    assert said.count(said[-1]) == 1, "put once, though it is the first move and what the worst calls for"
    stands = {"mains": "on", "covers": "off", "boiler": "warm", "pressure": "some"}
    assert stands.items() <= dict(left.job.bench).items(), "worst for safety, and hot for no test"
    moves = []
    while left.job.unsure:
        moves.append(left.job.prompt.subject)
        left.type(left.job.prompt.choices[0])
    assert moves == ["isolate", "vent", "measure_the_wall"]
    assert left.is_reproduced()


def test_an_open_machine_that_cannot_be_made_safe_waits_for_somebody_who_answers_for_it(
    knowledge: Knowledge, tmp_path: Path
) -> None:
    left = Left(knowledge, tmp_path, *SWITCHED_ON)
    left.resume_as()
    left.type("no", "2", "1", "1", "out")
    assert left.job.prompt.subject == "vent"
    assert left.type("can't") == [
        "Noted: that cannot be done now. Looking for another way.",
        "The machine could not be made safe. Leave it, keep everybody away, switch off at the breaker. "
        "When a responsible person has made it safe, type: dealt with by NAME. Or: hand over",
    ]
    left.type("dealt with by Bo")
    assert left.job.prompt.subject == "vent", "a name lets no pressure out"
    left.type("empty", "cool")
    assert not left.job.unsure and dict(left.job.bench)["pressure"] == "none"
    assert left.is_reproduced()


def test_whoever_comes_after_a_second_pause_is_asked_anew(knowledge: Knowledge, tmp_path: Path) -> None:
    left = Left(knowledge, tmp_path, *SWITCHED_ON)
    shown = left.last
    left.resume_as()
    left.type("pause")
    assert left.resume_as() == ASKED
    assert left.type("yes")[-1] == shown[-1]
    records = read_trace(left.path).records
    assert [record.asks_standing for record in records if isinstance(record, Resumed)] == [True, True]
    assert len([record for record in records if isinstance(record, PromptPut) and record.question == "still"]) == 2
    assert left.resume_as() == ASKED
    assert left.type("yes")[-1] == shown[-1]
    assert left.is_reproduced()


def test_nothing_is_taken_back_before_it_is_said_how_the_machine_stands(knowledge: Knowledge, tmp_path: Path) -> None:
    left = Left(knowledge, tmp_path, *SWITCHED_ON)
    left.resume_as()
    assert left.type("take back 1") == [
        "How the machine stands comes first. Answer that, then take the answer back.",
    ]
    assert left.type("why") == [
        "Somebody may have plugged the machine in, or out, since the job was left.",
    ]
    assert left.is_reproduced()


def test_a_job_that_is_handed_over_unanswered_is_reproduced(knowledge: Knowledge, tmp_path: Path) -> None:
    left = Left(knowledge, tmp_path, *SWITCHED_ON)
    left.resume_as()
    left.type("hand over")
    assert left.is_reproduced()
