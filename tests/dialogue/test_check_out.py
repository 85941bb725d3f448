"""What fails in the check-out is followed up, also where no complaint of the rules fits."""

from __future__ import annotations

from collections.abc import Iterable
from functools import cache

import pytest

from expert.job.answers.sound import sound_answer
from expert.job.sentences import repair
from expert.job.state.job import Job, Phase
from expert.job.steps import step
from expert.trace.records import ComplaintNow, Record, SearchEnded, Told
from tests.dialogue.gasket_job import jobs
from tests.dialogue.shipped_desk import ShippedDesk, shipped_knowledge

BASE = shipped_knowledge().base
UNSOUND = [
    pytest.param(name, outcome, id=f"{name}-{outcome}")
    for name in BASE.bench.check_out
    for outcome in BASE.outcomes()[name]
    if outcome not in BASE.questions[name].sound
]
SPEAKS_FOR_NOTHING = {("heating_current", "high"), ("one_brew_is_right", "no")}
"""Answers that fit no complaint, though all else is sound: they are searched for by whatever shows them."""

ALONE = [
    ("display_temperature", "40 degC", "display_wrong"),
    ("display_temperature", "112 degC", "display_wrong"),
    ("steam_round", "no_steam", "weak_wand"),
    ("steam_round", "weak", "weak_wand"),
    ("heating_current", "0 A", "no_heat"),
    ("heating_current", "9 A", ""),
    ("blind_pressure", "0 bar", ""),  # proves the new gasket too, so that the repair itself is in doubt
    ("free_flow", "2 mL/s", "low_flow"),
    ("one_brew_is_right", "no", ""),
]
"""What is typed at one look of the check-out, and the complaint that it raises with the sound rest; "" for none."""


@pytest.mark.parametrize(("name", "outcome"), UNSOUND)
def test_an_unsound_answer_with_a_sound_rest_speaks_for_something(name: str, outcome: str) -> None:
    """It raises a complaint, stops the work or names a fault, when all else of the check-out is sound."""
    state = ShippedDesk().intake().job.state.copy()
    before = set(state.fired)
    for other in BASE.bench.check_out:
        if other != name:
            state.narrow(other, other, BASE.questions[other].sound)
    state.narrow("now", name, (outcome,))
    raised = [one.id for one in BASE.complaints.values() if state.truth(one.raised_when)]
    confirmed = [fault for fault in BASE.faults if state.possible(fault) == ("present",)]
    stopped = [
        rule
        for rule in set(state.fired) - before
        if any(getattr(said, "word", "") == "stop_work" for said in BASE.rules[rule].then)
    ]
    assert bool(raised or confirmed or stopped) is ((name, outcome) not in SPEAKS_FOR_NOTHING)


@cache
def at_the_check_out() -> Job:
    """The job after a repair, where the first test of its proof is put and all of the check-out is still to come."""
    return next(
        job for job in jobs() if job.prompt.kind == "proof" and {name for name, _, _ in ALONE} <= set(job.to_prove)
    )


def to_the_search(name: str, line: str) -> tuple[Job, list[Record]]:
    """The job after the check-out with one look that failed and all else as on a sound machine, where it searches."""
    job, records = at_the_check_out(), list[Record]()
    while job.phase is Phase.PROVE:
        sound = sound_answer(job, BASE.questions[job.prompt.subject]) if job.prompt.kind == "proof" else ""
        typed = line if job.prompt.subject == name else sound or job.prompt.choices[0]
        job, new = step(job, typed)
        records += new
    return job, records


def told(records: Iterable[Record]) -> list[str]:
    return [record.text for record in records if isinstance(record, Told)]


@pytest.mark.parametrize(("name", "line", "complaint"), ALONE)
def test_the_search_goes_on_with_what_failed(name: str, line: str, complaint: str) -> None:
    job, records = to_the_search(name, line)
    raised = [one.complaint for one in records if isinstance(one, ComplaintNow) and one.standing == "raised"]
    assert raised == [complaint] * bool(complaint)
    assert job.phase is Phase.FIND
    assert (job.prompt.kind, bool(job.choice)) == ("question", True)
    assert not [one for one in records if isinstance(one, SearchEnded)]


@pytest.mark.parametrize(
    ("name", "line", "say"),
    [
        ("steam_round", "weak", repair.SAID_TOGETHER),
        ("one_brew_is_right", "no", repair.ALL_IS_PUT),
        ("free_flow", "2 mL/s", repair.SOMETHING_ELSE_FAILED),
    ],
    ids=["with-a-later-answer", "with-nothing", "by-itself"],
)
def test_what_is_told_of_it(name: str, line: str, say: str) -> None:
    """The rest of the check-out is put first where the answer raises nothing by itself, and only then."""
    said = told(to_the_search(name, line)[1])
    assert (repair.REST_FIRST in said) is (say != repair.SOMETHING_ELSE_FAILED)
    assert [one for one in said if one in (repair.SAID_TOGETHER, repair.ALL_IS_PUT, repair.SOMETHING_ELSE_FAILED)] == [
        say
    ]


def to_the_close(job: Job) -> tuple[Job, list[Record]]:
    """The job after a search in which nothing could be told."""
    records: list[Record] = []
    while job.phase is Phase.FIND:
        job, new = step(job, job.prompt.choices[-1] if job.prompt.kind == "going on" else "can't tell")
        records += new
    return job, records


def test_where_no_complaint_fits_the_end_is_a_list_and_what_to_look_at() -> None:
    job, records = to_the_close(to_the_search("one_brew_is_right", "no")[0])
    said = told(records)
    at = next(number for number, one in enumerate(said) if one.startswith("Not accounted for: One brew on coffee:"))
    assert [one.split(".")[0] for one in said[at + 1 : at + 4]] == ["1", "2", "3"]
    assert any(one.startswith("Or it is something that these rules do not know. Look along by hand") for one in said)
    ended = [one for one in records if isinstance(one, SearchEnded)]
    assert len(ended) == 1 and ended[0].listed
    assert job.outcome == ended[0].outcome == "unresolved"


def test_it_is_searched_for_once_and_never_handed_out_as_proved() -> None:
    job, _ = to_the_close(to_the_search("one_brew_is_right", "no")[0])
    for _ in range(40):
        if job.prompt.kind == "close":
            break
        sound = sound_answer(job, BASE.questions[job.prompt.subject]) if job.prompt.kind == "proof" else ""
        job, _ = step(job, sound or job.prompt.choices[0])
        assert job.phase is not Phase.FIND
    assert job.prompt.choices == ("repaired_unproved", "unrepaired", "beyond_repair", "handed_over")
