"""The lead and the plug are looked at before the machine is plugged in, and what was seen is an answer on record."""

from __future__ import annotations

import pytest

from expert.desk.opening import shop_of
from expert.desk.unattended import play
from expert.engine.knowledge import Knowledge, knowledge_of
from expert.job.state.job import Job
from expert.job.steps import begin, step
from expert.language.load import load_rules
from expert.language.shipped import shipped
from expert.language.worked.job_answers import read_answers
from expert.trace.records import Answered, Found, Moved, Put, Record, Stopped
from expert.trace.why import Why
from tests.dialogue.conftest import spoken

LEAD = "How do the mains lead and its plug look?"


@pytest.fixture(scope="module")
def knowledge() -> Knowledge:
    return knowledge_of(load_rules(shipped("rules")))


def typed(knowledge: Knowledge, *lines: str) -> tuple[Job, list[Record], list[str]]:
    """The job after an intake and these lines, all records, and what the last line was answered with."""
    job, records = begin(knowledge, shop_of(knowledge), "7")
    everything = list(records)
    for line in ("Ann", "1", "ok", "no_heat", "ok", "no", "1", *lines):
        job, records = step(job, line)
        everything += records
    return job, everything, spoken(job, records)


def test_the_first_question_before_the_plug_goes_in_is_about_lead_and_plug(knowledge: Knowledge) -> None:
    job, records, said = typed(knowledge)
    assert (job.prompt.kind, job.prompt.subject) == ("question", "lead_looks")
    assert said[said.index(LEAD) - 2] == (
        "Next comes: Fill the tank, plug in and switch on. This has to be known first."
    )
    assert "on" not in dict(job.bench)["mains"]
    put = [record for record in records if isinstance(record, Put)][-1]
    assert put == Put("question", "lead_looks", LEAD, Why(before_move="switch_on"))
    _, _, said = typed(knowledge, "why")
    assert said == [
        "It must be known before: Fill the tank, plug in and switch on.",
    ]


def test_a_sound_lead_is_recorded_and_not_asked_for_again(knowledge: Knowledge) -> None:
    job, records, said = typed(knowledge, "sound")
    assert [record.question for record in records if isinstance(record, Answered)] == ["lead_looks"]
    assert job.prompt.subject == "switch_on"
    assert said[-1] == "Is the machine plugged in through an RCD and switched on? (yes / no)"


@pytest.mark.parametrize(
    ("answer", "fault"), [("damaged", "mains_lead.damaged"), ("no_earth_pin", "mains_lead.earth_broken")]
)
def test_a_bad_lead_stops_the_job_and_is_never_plugged_in(knowledge: Knowledge, answer: str, fault: str) -> None:
    job, records, _ = typed(knowledge, answer)
    assert [type(record) for record in records if isinstance(record, Stopped)] == [Stopped]
    assert [record.fault for record in records if isinstance(record, Found)] == [fault]
    assert (job.prompt.kind, job.outcome) == ("danger", "stopped")
    assert "switch_on" not in [record.move for record in records if isinstance(record, Moved)]


def test_whoever_cannot_tell_is_told_to_look_before_the_plug_goes_in(knowledge: Knowledge) -> None:
    job, _, said = typed(knowledge, "can't tell")
    assert said[0] == "Left open. To answer it later: take back 1"
    assert said[1] == f"! Still to be looked at: {LEAD} Do not go on before somebody has. If nobody can: can't"
    assert job.prompt.subject == "switch_on"


def test_an_answers_file_that_says_nothing_about_the_lead_goes_on_with_the_confirmed_step(knowledge: Knowledge) -> None:
    text = "{machine: heat_exchanger_lever_tank, complaints: [no_heat], answers: {lamp_lights: yes, boiler_heats: no}}"
    answers = read_answers("answers.yaml", text, knowledge.base)
    _, records = play(knowledge, shop_of(knowledge), answers, "7")
    assert "switch_on" in [record.move for record in records if isinstance(record, Moved)]
    assert not [record for record in records if isinstance(record, Stopped)]
    assert [record.text for record in records if isinstance(record, Answered) and record.question == "lamp_lights"]
