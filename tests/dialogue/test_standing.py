"""A job taken up again: whoever goes on says first whether the machine still stands as the record has it."""

from __future__ import annotations

from datetime import UTC, datetime
from pathlib import Path

import pytest

from expert.desk.opening import shop_of
from expert.desk.replay import rerun
from expert.desk.session import Session
from expert.engine.knowledge import Knowledge, knowledge_of
from expert.job.state.job import Job
from expert.language.load import load_rules
from expert.language.shipped import shipped
from expert.trace.reading import read_trace
from expert.trace.records import Moved, Put, Resumed
from tests.dialogue.conftest import spoken

INTAKE = ("Ann", "1", "ok", "no_heat", "ok", "no", "1")
SWITCHED_ON = (*INTAKE, "sound", "yes")
ASKED = [
    "Look before you touch anything. Is the machine still as it was: mains on, covers on, boiler cold, pressure none? "
    "(yes / no)"
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
        self.session, opening = Session.resume(self.knowledge, self.path, clock)
        return spoken(self.job, opening)

    def is_reproduced(self) -> bool:
        self.session.close()
        again = rerun(self.knowledge, read_trace(self.path))
        return (again.differences, again.missing, again.job.prompt) == ((), (), self.job.prompt)


def test_a_machine_that_stood_safe_is_not_asked_about(knowledge: Knowledge, tmp_path: Path) -> None:
    left = Left(knowledge, tmp_path, *INTAKE)
    waiting = left.last
    assert left.resume() == waiting[-len(waiting) :]
    assert left.is_reproduced()


def test_with_a_yes_the_job_goes_on_with_exactly_the_question_at_which_it_was_left(
    knowledge: Knowledge, tmp_path: Path
) -> None:
    left = Left(knowledge, tmp_path, *SWITCHED_ON)
    before, shown = left.job, left.last
    assert left.resume() == ASKED
    assert left.type("perhaps") == ["'perhaps' is no answer here. Type yes if it stands so, no if it does not."]
    assert left.type("yes") == shown
    assert (left.job.prompt, left.job.bench, left.job.choice) == (before.prompt, before.bench, before.choice)
    assert Moved("stands as recorded", dict(before.bench), 0.0) in read_trace(left.path).records
    assert left.is_reproduced()


def test_with_a_no_the_worst_is_assumed_and_the_machine_made_safe_again(knowledge: Knowledge, tmp_path: Path) -> None:
    left = Left(knowledge, tmp_path, *SWITCHED_ON)
    left.resume()
    assert left.type("no") == [
        "How does it stand now: covers on or off? Type the number.",
        "  1  covers on",
        "  2  covers off",
    ]
    assert left.type("3") == ["'3' is no answer here. Type a number from 1 to 2."]
    said = left.type("2")
    assert said[0] == "Everything else counts as unsafe until it is made safe, step by step."
    assert said[-1] == "Is the plug out and in sight? (yes / no)"
    assert dict(left.job.bench) == {"mains": "on", "covers": "off", "boiler": "hot", "pressure": "some"}
    moves = []
    while left.job.unsure:
        moves.append(left.job.prompt.subject)
        left.type("yes")
    assert moves == ["isolate", "vent", "let_cool"]
    assert left.is_reproduced()


def test_an_open_machine_that_cannot_be_made_safe_waits_for_somebody_who_answers_for_it(
    knowledge: Knowledge, tmp_path: Path
) -> None:
    left = Left(knowledge, tmp_path, *SWITCHED_ON)
    left.resume()
    left.type("no", "2", "yes")
    assert left.job.prompt.subject == "vent"
    assert left.type("can't") == [
        "Noted: that cannot be done now. Looking for another way.",
        "The machine could not be made safe. Leave it, keep everybody away, switch off at the breaker. "
        "When a responsible person has made it safe, type: dealt with by NAME. Or: hand over",
    ]
    left.type("dealt with by Bo")
    assert left.job.prompt.subject == "vent", "a name lets no pressure out"
    left.type("yes", "yes")
    assert not left.job.unsure and dict(left.job.bench)["pressure"] == "none"
    assert left.is_reproduced()


def test_the_question_waits_through_a_second_pause_and_is_put_once(knowledge: Knowledge, tmp_path: Path) -> None:
    left = Left(knowledge, tmp_path, *SWITCHED_ON)
    shown = left.last
    left.resume()
    left.type("pause")
    assert left.resume() == ASKED
    assert left.type("yes") == shown
    records = read_trace(left.path).records
    assert [record.asks_standing for record in records if isinstance(record, Resumed)] == [True, False]
    assert len([record for record in records if isinstance(record, Put) and record.prompt == "standing"]) == 1
    assert left.resume() == ASKED
    assert left.type("yes") == shown
    assert left.is_reproduced()


def test_nothing_is_taken_back_before_it_is_said_how_the_machine_stands(knowledge: Knowledge, tmp_path: Path) -> None:
    left = Left(knowledge, tmp_path, *SWITCHED_ON)
    left.resume()
    assert left.type("take back 1") == [
        "How the machine stands comes first. Answer that, then take the answer back.",
    ]
    assert left.type("why") == [
        "Somebody may have plugged the machine in, or out, since the job was left.",
    ]
    assert left.is_reproduced()


def test_a_job_that_is_handed_over_unanswered_is_reproduced(knowledge: Knowledge, tmp_path: Path) -> None:
    left = Left(knowledge, tmp_path, *SWITCHED_ON)
    left.resume()
    left.type("hand over")
    assert left.is_reproduced()
