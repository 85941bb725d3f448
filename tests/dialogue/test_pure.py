"""A step works on a copy: no line breaks a job, and no copy shares with its original what can be changed."""

from __future__ import annotations

from dataclasses import fields

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from expert.engine.hazards import HazardAccount
from expert.engine.state import State
from expert.job.state.job import Job, Phase
from expert.trace.records import PromptPut
from tests.dialogue.conftest import Desk

LINES = st.sampled_from(
    [
        *("yes", "no", "1", "2", "ok", "OL", "950", "1190", "0.2 bar", "2.4 bar", "can't tell", "done", "", "x", "?"),
        *("why", "how", "what if yes", "what if 400", "suspects", "answers", "help", "take back 1", "take back 2"),
        *("note dirty", "hand over", "pause", "dealt with by Bo", "no fill", "leaks", "blows", "list", "repaired"),
    ]
)


@settings(max_examples=300, deadline=None)
@given(st.lists(LINES, max_size=40))
def test_no_line_at_any_prompt_breaks_the_job(lines: list[str]) -> None:
    """Any line at any prompt gives a job that waits for something, and leaves the job before as it was."""
    desk = Desk()
    desk.type("Ann", "1", "ok", "no fill", "ok", "no", "1")
    for line in lines:
        before, kept = desk.job, deep(desk.job)
        desk.type(line)
        assert deep(before) == kept, "step changed the job it was given"
        assert desk.job.prompt.kind, "the job waits for nothing"
        if desk.job.phase is not Phase.DONE:
            assert any(isinstance(record, PromptPut) for record in desk.records)


def deep(job: Job) -> dict[str, str]:
    """All that is known of a job, down to the last container, as text that nothing can change."""
    return {one.name: written(getattr(job, one.name)) for one in fields(job) if one.name not in ("knowledge", "shop")}


def written(value: object) -> str:
    if isinstance(value, State):
        return repr((sorted(value.said.items()), sorted(value.fired), value.tally.masks, value.tally.lacking))
    return repr(sorted(value, key=repr) if isinstance(value, set | frozenset) else value)


@pytest.mark.parametrize("name", sorted(one.name for one in fields(Job)))
def test_the_guard_sees_every_container_that_a_copy_shares(
    name: str, filling: Desk, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A copy that shares this field is found out, where the field can be changed in place."""
    monkeypatch.setattr("expert.job.state.job.FIELDS", tuple(f.name for f in fields(Job) if f.name != name))
    kept, copy = deep(filling.job), filling.job.copy()
    value = getattr(copy, name)
    match value:
        case dict():
            value["x"] = "y"
        case set():
            value.add("x")
        case State():
            value.narrow("answer 99", "pump_runs", ("yes",))
        case HazardAccount():
            value.released["x"] = frozenset()
        case _:
            assert not isinstance(value, list), "a list can be changed in place, and is not looked at here"
            return
    assert deep(filling.job) != kept


def test_a_copy_shares_nothing_that_can_be_changed(filling: Desk) -> None:
    copy = filling.job.copy()
    shared = [
        one.name
        for one in fields(Job)
        if getattr(copy, one.name) is getattr(filling.job, one.name)
        and isinstance(getattr(copy, one.name), dict | set | list | State | HazardAccount)
    ]
    assert not shared
