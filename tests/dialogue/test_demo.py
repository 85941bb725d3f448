"""Demo jobs: played through the real dialogue, rendered as text, listed and refused."""

from __future__ import annotations

import io
import os
from datetime import UTC, datetime
from pathlib import Path

import pytest
from click.testing import CliRunner

from expert.cli import main
from expert.desk.session import Session
from expert.desk.taking_up import RulesDiffer
from expert.engine.knowledge import knowledge_of
from expert.language.load import load_rules
from expert.terminal.demo import (
    NoSuchDemo,
    Pace,
    demo_named,
    listing,
    play,
    reading_time,
    render,
    scenes,
    write_renderings,
)
from expert.terminal.demo import main as demo_main
from expert.trace.reading import Trace, read_trace
from tests.dialogue.small_rules import small_knowledge, small_shop
from tests.dialogue.test_chat import small_rules_folder

PUMP_JOB = (
    "Ann",
    "1",
    "ok",
    "no fill",
    "ok",
    "no",
    "1",
    "yes",
    "help",
    "\x1b[31mno",
    "yes",
    "yes",
    "no",
    "1",
    "ok",
    "ok",
    "no",
)

OPENING = """\
Job 7
=====

--- 1 of 6: intake ---

Who is at the bench? Type your name.

> Ann
Which machine type is it? Type its number.
  1  Test machine

> 1
"""


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A folder with one demo job."""
    session, _ = Session.open(
        small_knowledge(), small_shop(), tmp_path / "silent_pump.jsonl", "7", lambda: datetime(2026, 1, 31, tzinfo=UTC)
    )
    for line in PUMP_JOB:
        session.say(line)
    session.close()
    assert session.is_over
    return tmp_path


@pytest.fixture
def trace(folder: Path) -> Trace:
    return read_trace(folder / "silent_pump.jsonl")


def test_the_rendering_is_the_dialogue_as_it_was(trace: Trace) -> None:
    text = render(trace, small_knowledge())
    assert text.startswith(OPENING)
    assert [line[2:] for line in text.splitlines() if line.startswith("> ")] == [
        line.removeprefix("\x1b[31m") for line in PUMP_JOB
    ]
    assert "FOUND: pump: dead.\n" in text
    assert text.endswith("Job 7 is closed: unrepaired, 9 min.\n")
    assert "\x1b" not in text


def test_scenes_give_the_recorded_records(trace: Trace) -> None:
    given = [record for scene in scenes(trace, small_knowledge()) for record in scene.records]
    assert all(record in trace.records for record in given)
    assert len(given) == len(trace.records) - len(PUMP_JOB) - 2  # the lines typed, the opening, the seal


def test_no_rendering_with_other_rules(trace: Trace, tmp_path: Path) -> None:
    rules = small_rules_folder(tmp_path / "rules")
    (rules / "cautions.yaml").write_text('cautions: {isolate: "Other words.", steam: "Steam scalds."}\n', "utf-8")
    with pytest.raises(RulesDiffer):
        render(trace, knowledge_of(load_rules(rules)))


def test_a_demo_played_shows_what_the_rendering_shows(trace: Trace) -> None:
    out = io.StringIO()
    play(trace, small_knowledge(), out, None, lambda seconds: None)
    heading, _, rest = out.getvalue().partition("\n")
    assert heading == "Demo job 7. Nothing needs to be typed. Ctrl-C ends it."

    def told(text: str) -> list[str]:
        return [line for line in text.splitlines() if line]

    assert told(rest) == told(render(trace, small_knowledge()))[2:]


def test_a_demo_is_paced_for_reading(trace: Trace) -> None:
    waits: list[float] = []
    play(trace, small_knowledge(), io.StringIO(), None, waits.append)
    assert 0.1 < max(waits) <= 2.5
    assert waits.count(0.04) == sum(len(line.removeprefix("\x1b[31m")) for line in PUMP_JOB)


@pytest.mark.parametrize("text, seconds", [("", 0.0), ("one", 0.12), ("word " * 100, 2.5)], ids=["none", "one", "many"])
def test_longer_lines_stand_longer(text: str, seconds: float) -> None:
    assert reading_time(text) == seconds


def test_the_list_says_what_each_job_is(folder: Path) -> None:
    assert listing(folder, small_knowledge()) == ["silent_pump: Boiler does not fill. Ends: unrepaired."]


REFUSALS = [
    pytest.param("silent_pmp", "'silent_pmp' is no demo job; did you mean silent_pump?", id="nearly"),
    pytest.param("xyz", "'xyz' is no demo job; there are: silent_pump", id="not at all"),
]


@pytest.mark.parametrize("name, message", REFUSALS)
def test_a_demo_that_is_not_there(folder: Path, name: str, message: str) -> None:
    with pytest.raises(NoSuchDemo) as refused:
        demo_named(folder, name)
    assert str(refused.value) == message


def test_an_empty_folder_is_said_to_be_empty(tmp_path: Path) -> None:
    with pytest.raises(NoSuchDemo) as refused:
        demo_named(tmp_path, None)
    assert str(refused.value) == f"{tmp_path} holds no demo job"


def test_renderings_are_written_beside_the_traces(folder: Path, trace: Trace) -> None:
    assert write_renderings(folder, small_knowledge()) == (folder / "silent_pump.txt",)
    assert (folder / "silent_pump.txt").read_text("utf-8") == render(trace, small_knowledge())


def test_renderings_are_written_from_the_command_line(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    rules = small_rules_folder(folder / "rules")
    assert demo_main(["--write", str(folder), str(rules)]) == 0
    assert capsys.readouterr().out == f"{folder / 'silent_pump.txt'}\n"
    assert demo_main([]) == 2


COMMANDS = [
    pytest.param(["--fast"], 0, "Job 7 is closed: unrepaired, 9 min.\n", id="the first one"),
    pytest.param(["silent_pump"], 0, "Job 7 is closed: unrepaired, 9 min.\n", id="by name, in a pipe"),
    pytest.param(["--list"], 0, "silent_pump: Boiler does not fill. Ends: unrepaired.\n", id="list"),
    pytest.param(["xyz"], 2, "'xyz' is no demo job; there are: silent_pump\n", id="no such job"),
]


@pytest.mark.parametrize("arguments, code, ending", COMMANDS)
def test_the_demo_command(
    folder: Path, monkeypatch: pytest.MonkeyPatch, arguments: list[str], code: int, ending: str
) -> None:
    rules = small_rules_folder(folder / "rules")
    monkeypatch.setattr("expert.language.shipped.shipped", lambda name: {"transcripts_demo": folder}[name])
    result = CliRunner().invoke(main, ["demo", "--rules", str(rules), *arguments])
    assert (result.exit_code, result.output[-len(ending) :]) == (code, ending)


def test_enter_makes_the_demo_go_on_without_pauses() -> None:
    typed, keyboard = os.pipe()
    with os.fdopen(typed) as stdin, os.fdopen(keyboard, "w") as keys:
        pace = Pace(False, stdin)
        pace.wait(0.0)
        assert not pace.fast
        print(file=keys, flush=True)
        pace.wait(1_000.0)  # ended by the key
        assert pace.fast
        pace.wait(1_000.0)
