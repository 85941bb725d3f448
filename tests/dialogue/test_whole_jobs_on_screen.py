"""Whole jobs at three sizes of terminal: no line is cut, nothing scrolls off unread; words and keys are counted.

Each of the jobs is laid out at every size, and typed into the program itself at one of them.
"""

from __future__ import annotations

import re
import sys
from dataclasses import dataclass
from functools import cache
from itertools import pairwise
from pathlib import Path

import pexpect
import pytest

from expert.desk.opening import shop_of
from expert.job.beginning import begin
from expert.job.prompts.owner import Unattended
from expert.job.prompts.registry import owner_at
from expert.job.state.job import Job, Phase
from expert.job.steps import step
from expert.language.worked.job_answers import read_answers
from expert.terminal.paging import pages
from expert.terminal.prompt import lines_on_screen
from expert.terminal.sentences import ENTER_SHOWS_THE_REST as REST
from expert.trace.reading import read_trace
from expert.trace.records import Record, Said
from tests.dialogue.few_keys import in_few_keys
from tests.dialogue.shipped_desk import shipped_knowledge
from tests.dialogue.test_odd_ends import environment

SIZES = [(80, 24), (120, 40), (60, 20)]
SECONDS = 60
MACHINE = "machine: heat_exchanger_lever_tank\nrest: sound\n"
MOST_LINES = 200


@dataclass(frozen=True, slots=True)
class Played:
    """A whole job of our own invention: what the customer says, what is answered, the most words and keys."""

    complaint: str
    answers: str
    words: int
    keys: int


JOBS = {
    "breaker": Played(
        "2",
        "complaints: [trips_supply]\n"
        "answers: {element_insulation: 0.1 Mohm, insulation_at_plug: 0.1 Mohm, what_trips: rcd,\n"
        "  heating_current: 6.1 A, leakage_current: 0.4 mA, element_resistance: 38 ohm, boiler_pressure: 1.1 bar,\n"
        "  insulation_at_plug_hot: 20 Mohm}\n"
        "after_repair: {element_insulation: 60 Mohm, insulation_at_plug: 60 Mohm, what_trips: nothing}\n",
        2_299,  # under 2,300 words and 120 keys is what was asked for
        119,
    ),
    "hiss": Played("38", "complaints: [hisses_on_heat_up]\n", 1_860, 104),
    "no fill": Played(
        "31",
        "complaints: [boiler_will_not_fill]\nanswers: {fill_coil_resistance: OL}\n"
        "after_repair: {fill_coil_resistance: 950 ohm}\n",
        3_130,
        195,
    ),
}


@dataclass(frozen=True, slots=True)
class Step:
    """A line that was typed, and what the job then shows."""

    line: str
    job: Job
    records: tuple[Record, ...]


@cache
def steps_of(name: str) -> tuple[Step, ...]:
    """The job, played by its answers."""
    knowledge = shipped_knowledge()
    answers = read_answers("a.yaml", MACHINE + JOBS[name].answers, knowledge.base)
    job, first = begin(knowledge, shop_of(knowledge), "7")
    played = [Step("", job, first)]

    def say(line: str) -> tuple[Job, tuple[Record, ...]]:
        after, records = step(played[-1].job, line)
        played.append(Step(line, after, records))
        return after, records

    at_hand = Unattended(answers)
    while job.phase is not Phase.DONE and len(played) < MOST_LINES:
        for line in owner_at(job).unattended(job, at_hand):
            job, _ = say(in_few_keys(job, at_hand, line, JOBS[name].complaint))
            if job.complaints_offered:
                job, _ = say(str(job.complaints_offered.index(answers.complaints[0]) + 1))
    assert played[-1].job.phase is Phase.DONE
    return tuple(played)


@pytest.mark.parametrize("columns, rows", SIZES)
@pytest.mark.parametrize("name", JOBS)
def test_no_line_is_cut_and_every_page_fits(name: str, columns: int, rows: int) -> None:
    for one in steps_of(name):
        lines = lines_on_screen(one.job, one.records, columns)
        assert [text for manner, text in lines if len(text) > columns and manner != "command"] == []
        assert max(map(len, pages(lines, rows))) <= rows - 4


@pytest.mark.parametrize("name", JOBS)
def test_words_and_keys(name: str) -> None:
    shown = [text for one in steps_of(name) for _, text in lines_on_screen(one.job, one.records, 80)]
    words = sum(any(map(str.isalnum, word)) for text in shown for word in text.split())
    keys = sum(len(one.line) + 1 for one in steps_of(name)[1:])
    assert words <= JOBS[name].words, f"{words:,} words"
    assert keys <= JOBS[name].keys, f"{keys:,} keys"


def test_the_normal_hiss_is_told_in_ten_keys() -> None:
    """Of what the complaint itself asks for: each answer to its questions with its Enter. The looks that every job
    begins with, the moves and the check-out are counted with the whole job."""
    steps = steps_of("hiss")
    verdict = next(n for n, one in enumerate(steps) if one.job.outcome == "normal")
    asked = [(before.job.prompt, one.line) for before, one in pairwise(steps[: verdict + 1])]
    hazards = {
        test for hazard in steps[0].job.base.hazards.values() for way in hazard.released_by for test in way.tests
    }
    lines = [line for prompt, line in asked if prompt.kind == "question" and prompt.subject not in hazards]
    assert 0 < sum(len(line) + 1 for line in lines) <= 10


@pytest.mark.parametrize("name, size", zip(JOBS, SIZES, strict=True))
def test_the_program_itself_at_a_terminal(name: str, size: tuple[int, int], tmp_path: Path) -> None:
    columns, rows = size
    words = ["-m", "expert.cli", "bench", "--jobs", str(tmp_path / "jobs"), "--job", "7"]
    child = pexpect.spawn(sys.executable, words, env=environment(tmp_path), timeout=SECONDS, dimensions=(rows, columns))
    lines = [one.line for one in steps_of(name)[1:]]
    child.expect(READY)
    for line in lines:
        child.send(f"{line}\r")
        read_to_the_end(child)
    child.close()
    trace = read_trace(tmp_path / "jobs" / "7.jsonl")
    assert trace.is_sealed
    assert [record.text for record in trace.records if isinstance(record, Said)] == lines


READY = re.escape("\x1b[?2004h")  # the prompt stands


def read_to_the_end(child: pexpect.spawn) -> None:
    """Wait for the reply; where it comes in pages, Enter is pressed after each."""
    while child.expect([READY, pexpect.EOF]) == 0 and child.expect([re.escape(REST.strip()), ">"]) == 0:
        child.send("\r")
