"""The saved demo jobs come out again byte for byte, trace and rendering; `tests.demo.make` makes them anew."""

from __future__ import annotations

from pathlib import Path

import pytest

from expert.engine.knowledge import Knowledge, knowledge_of
from expert.language.load import load_rules
from expert.terminal.demo import render
from expert.trace.reading import read_trace
from expert.trace.records import PromptPut
from expert.trace.verifying import verify
from tests.demo.make import ROOT, make
from tests.demo.scenario import JOBS, DemoJob

FOLDER = ROOT / "transcripts_demo"


@pytest.fixture(scope="module")
def knowledge() -> Knowledge:
    return knowledge_of(load_rules(ROOT / "rules"))


@pytest.mark.parametrize("demo", JOBS, ids=lambda demo: demo.number)
def test_the_job_comes_out_again(demo: DemoJob, knowledge: Knowledge, tmp_path: Path) -> None:
    made = make(demo, knowledge, tmp_path)
    # What is packed may be packed otherwise by another build of zlib, so records are compared, not bytes.
    assert read_trace(made).recorded == read_trace(FOLDER / made.name).recorded
    rendered = render(read_trace(made), knowledge)
    assert rendered == (FOLDER / f"{demo.number}.txt").read_text(encoding="utf-8")
    assert [problem.code for problem in verify(read_trace(FOLDER / made.name)) if problem.grade == "damage"] == []


def test_nothing_else_lies_in_the_folder() -> None:
    names = {f"{demo.number}{ending}" for demo in JOBS for ending in (".jsonl", ".txt")}
    assert {file.name for file in FOLDER.iterdir()} == names | {"README.md"}


def test_together_they_show_every_phase() -> None:
    shown = {
        record.prompt
        for demo in JOBS
        for record in read_trace(FOLDER / f"{demo.number}.jsonl").records
        if isinstance(record, PromptPut)
    }
    assert {"intake", "move", "question", "repair", "proof", "danger", "close"} <= shown


def test_a_repaired_job_names_all_six_phases(knowledge: Knowledge, tmp_path: Path) -> None:
    text = render(read_trace(make(JOBS[0], knowledge, tmp_path)), knowledge)
    named = [line for line in text.splitlines() if line.startswith("--- ")]
    phases = ("intake", "make safe", "find", "repair", "prove", "close")
    # The safety of an opened machine is proved once more on the way out: a phase may come again.
    assert list(dict.fromkeys(named)) == [f"--- {number} of 6: {phase} ---" for number, phase in enumerate(phases, 1)]
