"""Before the first plug-in: the lead is looked at, the customer asked for words of danger; "can't tell" is no pass."""

from __future__ import annotations

import pytest

from expert.desk.opening import shop_of
from expert.desk.unattended import play
from expert.engine.knowledge import Knowledge, knowledge_of
from expert.job.beginning import begin
from expert.job.state.job import Job
from expert.job.steps import step
from expert.language.load import load_rules
from expert.language.shipped import shipped
from expert.language.worked.job_answers import read_answers
from expert.trace.records import Answered, Found, HazardOpened, Moved, PromptPut, Record, Stopped
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
    assert said[said.index(LEAD) - 1].startswith("How: Run it through your hand, plug out")
    assert "on" not in dict(job.bench)["mains"]
    put = [record for record in records if isinstance(record, PromptPut)][-1]
    why = Why(aim="lead_looks", hazard="lead_not_looked_at")
    assert put == PromptPut("question", "lead_looks", LEAD, why)


def test_the_customer_is_asked_next_whatever_the_complaint(knowledge: Knowledge) -> None:
    job, records, _ = typed(knowledge, "sound")
    assert [record.question for record in records if isinstance(record, Answered)] == ["lead_looks"]
    assert job.prompt.subject == "told_of_danger"
    job, _, _ = typed(knowledge, "sound", "nothing")
    assert job.prompt.kind == "move"


@pytest.mark.parametrize("told", ["shock", "burnt", "tripped", "wet", "burst", "repaired", "nobody_knows"])
def test_a_word_of_danger_leads_to_dead_tests_first(knowledge: Knowledge, told: str) -> None:
    job, records, _ = typed(knowledge, "sound", told)
    opened = [record for record in records if isinstance(record, HazardOpened) and "energise" in record.forbids]
    assert opened[-1].because == ("answer 2",)
    assert (job.prompt.kind, job.prompt.subject) != ("move", "switch_on")
    assert dict(job.bench)["mains"] == "isolated"


@pytest.mark.parametrize(
    ("answer", "fault"), [("damaged", "mains_lead.damaged"), ("no_earth_pin", "mains_lead.earth_broken")]
)
def test_a_bad_lead_stops_the_job_and_is_never_plugged_in(knowledge: Knowledge, answer: str, fault: str) -> None:
    job, records, _ = typed(knowledge, answer)
    assert [type(record) for record in records if isinstance(record, Stopped)] == [Stopped]
    # One look stops the work and names nothing: it is taken again once somebody has lifted the stop.
    assert [record for record in records if isinstance(record, Found)] == []
    assert (job.prompt.kind, job.outcome) == ("danger", "stopped")
    _, replies = step(job, "hand over")
    assert [record.fault for record in replies if isinstance(record, Found)] == [fault]
    assert "switch_on" not in [record.move for record in records if isinstance(record, Moved)]


@pytest.mark.parametrize("lines", [("can't tell",), ("sound", "can't tell")], ids=["lead", "customer"])
def test_cant_tell_is_no_pass(knowledge: Knowledge, lines: tuple[str, ...]) -> None:
    job, _, _ = typed(knowledge, *lines)
    for _ in range(80):
        if job.prompt.kind == "close":
            break
        told = {"move": "".join(job.prompt.choices[:1]), "going on": "go on"}.get(job.prompt.kind, "can't tell")
        job, records = step(job, told)
        assert dict(job.bench)["mains"] == "isolated", records
    assert job.prompt.kind == "close"


def test_an_answers_file_that_says_nothing_about_the_lead_is_handed_over_unplugged(knowledge: Knowledge) -> None:
    text = "{machine: heat_exchanger_lever_tank, complaints: [no_heat], answers: {lamp_lights: yes, boiler_heats: no}}"
    answers = read_answers("answers.yaml", text, knowledge.base)
    job, records = play(knowledge, shop_of(knowledge), answers, "7")
    assert "switch_on" not in [record.move for record in records if isinstance(record, Moved)]
    assert job.outcome == "handed_over"
