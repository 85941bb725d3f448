"""Single keys, numbers, the last reading, the bar list: at two sizes of terminal, without colour, in a pipe."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from expert.job.wording.explaining import BAR
from expert.terminal.beside import joined, where_it_stands
from expert.trace.reading import read_trace
from expert.trace.records import Answered, CannotTell, Closed, Record
from tests.dialogue.command_line import Shop
from tests.dialogue.conftest import Desk
from tests.dialogue.phases import at
from tests.dialogue.terminals import AtSize

KEYS = "A|1|ok|no fill|ok|n|1|y|y|y|y|OL|done|y|y|y|y|1|ok|ok|n|"
SUSPECTS = [
    "  43% #########            fill valve: coil open",
    "  43% #########            pump: dead",
    "  13% ###                  fill valve: stuck shut",
]


@pytest.mark.parametrize(
    ("phase", "key", "outcome"),
    [
        ("yes or no", "y", "yes"),
        ("yes or no", "Y", "yes"),
        ("yes or no", "n", "no"),
        ("choice", "1", "click"),
        ("choice", "2", "never"),
        ("choice", "cl", "click"),
        ("choice", "with a", "click"),
    ],
)
def test_a_single_key_or_number_answers(phase: str, key: str, outcome: str) -> None:
    desk = at(phase)
    desk.type(key)
    given = [record for record in desk.records if isinstance(record, Answered)][-1]
    assert (given.text, given.outcomes) == (key, (outcome,))


@pytest.mark.parametrize("phase", ["yes or no", "choice", "find", "prove"])
def test_a_question_mark_leaves_the_question(phase: str) -> None:
    desk = at(phase)
    question = desk.job.prompt.subject
    desk.type("?")
    assert [record.question for record in desk.records if isinstance(record, CannotTell)] == [question]


@pytest.mark.parametrize("key", ["0", "3", "c", "x", "1.5", "-1", "¹"])
def test_a_key_that_is_not_clear_is_refused(key: str) -> None:
    assert at("choice").type(key) == [f"'{key}' is no answer here. Type 1 to 2, or one of click, never, or: can't tell"]


def test_choices_stand_with_their_numbers() -> None:
    desk = Desk()
    assert desk.type("Ann", "1", "ok", "hisses", "ok", "n", "1", "y")[-3:] == [
        "How does the hiss end?",
        "  1  with a click within minutes",
        "  2  it does not end",
    ]
    desk.type("2")
    assert desk.type("answers")[0] == "  1. How does the hiss end? it does not end"


def test_the_last_reading_is_recalled() -> None:
    desk = at("repair")
    said = desk.type("take back 2", "y")
    assert said[-3:] == [
        "What does the coil read?",
        "  (ohm or OL; ohm meter)",
        "  Last reading: OL (open)",
    ]


# ---------------------------------------------------------------- the whole job, by keys


def story(path: Path) -> list[Record]:
    """What came of a job, whatever terminal it was typed at."""
    records = read_trace(path).records
    assert read_trace(path).is_sealed
    return [record for record in records if isinstance(record, Answered | Closed)]


@pytest.mark.parametrize(
    ("columns", "rows", "no_colour"), [(80, 24, ""), (120, 40, ""), (80, 24, "1")], ids=["small", "large", "no colour"]
)
def test_the_same_job_in_a_pipe_and_at_a_terminal(
    tmp_path: Path, at_size: AtSize, monkeypatch: pytest.MonkeyPatch, columns: int, rows: int, no_colour: str
) -> None:
    shop = Shop.at(tmp_path / "shop")
    assert shop.bench(KEYS.replace("|", "\n")).code == 0
    monkeypatch.setenv("NO_COLOR", no_colour)
    terminal = at_size(columns, rows)
    terminal.talk(KEYS)
    assert story(terminal.path) == story(shop.trace())
    assert [record.outcome for record in story(terminal.path) if isinstance(record, Closed)] == ["repaired"]


@pytest.mark.parametrize(("columns", "rows"), [(80, 24), (120, 40)])
def test_suspects_are_a_bar_list_that_needs_no_colour(
    at_size: AtSize,
    monkeypatch: pytest.MonkeyPatch,
    columns: int,
    rows: int,
) -> None:
    monkeypatch.setenv("NO_COLOR", "1")
    terminal = at_size(columns, rows)
    terminal.talk("A|1|ok|no fill|ok|n|1|y|suspects|")
    assert "\n".join(SUSPECTS) in "\n".join(line.rstrip() for line in terminal.screen.split("\n"))
    standing = ("Job 7 | FIND > repair > prove > close", "3 suspects: 43% each fill valve: coil open; pump: dead")
    assert joined(where_it_stands(at("yes or no").job), columns) == (
        standing if columns == 80 else (" | ".join(standing),)
    )
    assert not re.findall(r"\x1b\[[\d;]*(?:3[0-8]|4[0-8]|9\d|10\d)[;m]", terminal.out.getvalue())


def test_suspects_in_a_pipe(tmp_path: Path) -> None:
    shop = Shop.at(tmp_path)
    out = shop.bench("A\n1\nok\nno fill\nok\nn\n1\ny\nsuspects\n").out
    assert "> suspects\n" + "\n".join(SUSPECTS) in out
    assert "\x1b" not in out


def test_bars_are_as_long_as_their_shares() -> None:
    for line in at("find").type("suspects"):
        share, bar = int(line[:5].strip(" %")), line.count("#")
        assert bar == max(1, round(share / 100 * BAR))
