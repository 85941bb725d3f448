"""A job that was handed over is taken on by somebody else with all that is known, and closed when somebody says so."""

from __future__ import annotations

from pathlib import Path

import pytest

from expert.desk.job_list import entry_of
from expert.desk.replay import rerun
from expert.desk.session import Session
from expert.desk.taking_up import resume
from expert.shop.sums.gather import facts_of
from expert.trace.reading import read_trace
from expert.trace.records import Answered, Closed, HandedOver, Worker
from tests.dialogue.phases import PHASES
from tests.dialogue.small_rules import small_knowledge, small_shop
from tests.trace.trace_samples import SteadyClock

HANDED_FROM = ("make safe", "move", "yes or no", "find", "repair", "prove", "close", "parts", "note", "stop")


def handed_over(path: Path, phase: str) -> Session:
    session, _ = Session.open(small_knowledge(), small_shop(), path, "7", SteadyClock())
    for line in (*PHASES[phase], "hand over"):
        session.say(line)
    if session.job.leaving:
        session.say("yes")
    session.close()
    return session


def taken_on(path: Path, *lines: str) -> Session:
    session, _ = resume(small_knowledge(), path, SteadyClock())
    for line in lines:
        session.say(line)
    session.close()
    return session


@pytest.mark.parametrize("phase", HANDED_FROM)
def test_whoever_takes_it_on_is_named_and_everything_known_is_kept(phase: str, tmp_path: Path) -> None:
    path = tmp_path / "7.jsonl"
    before = handed_over(path, phase).job
    assert not read_trace(path).is_sealed
    assert entry_of(path).status == "handed over" and entry_of(path).waits_for == "somebody who takes it on"
    after = taken_on(path, "Bea", "qualified").job
    if after.left_at is not None:  # it was not left as it may arrive
        after = taken_on(path, "Bea", "qualified", "yes").job
    assert (after.technician, after.qualified, after.workers[:2]) == ("Bea", True, ("Ann", "Bea"))
    assert after.given == before.given and after.repaired == before.repaired and after.bench == before.bench
    assert after.proofs == before.proofs and after.complaints == before.complaints
    assert not after.is_closed and after.prompt.kind not in ("", "done", "standing")
    assert (entry_of(path).status, entry_of(path).technician) == ("open", "Bea")
    assert (facts_of(path).status, facts_of(path).technician) == ("open", "Bea")
    again = rerun(small_knowledge(), read_trace(path))
    assert again.differences == ()


def test_it_is_closed_when_somebody_closes_it(tmp_path: Path) -> None:
    path = tmp_path / "7.jsonl"
    handed_over(path, "close")
    job = taken_on(path, "Bea", "no").job
    assert job.prompt.subject == "ending"
    closed = taken_on(path, "Cem", "no", "1", "ok", "ok", "back", "2", "ok", "ok", "no").job
    assert closed.is_closed and closed.closing["ending"] == "unrepaired"
    trace = read_trace(path)
    assert trace.is_sealed and sum(isinstance(record, Closed) for record in trace.records) == 1
    assert [r.name for r in trace.records if isinstance(r, Worker)] == ["Ann", "Bea", "Cem"]
    assert sum(isinstance(record, HandedOver) for record in trace.records) == 1
    facts = facts_of(path)
    assert (facts.status, facts.outcome) == ("closed", "unrepaired")


def test_it_may_be_handed_on_again_and_a_rerun_gives_the_same(tmp_path: Path) -> None:
    path = tmp_path / "7.jsonl"
    handed_over(path, "find")
    taken_on(path, "Bea", "no", "yes", "hand over")
    answers = sum(isinstance(record, Answered) for record in read_trace(path).records)
    assert taken_on(path, "Cem", "no").job.next_number > answers
    assert sum(isinstance(record, HandedOver) for record in read_trace(path).records) == 2
