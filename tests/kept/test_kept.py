"""Every trace that an earlier program wrote is read, audited and, while it is open, gone on with."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from expert.desk.replay import rerun
from expert.engine.knowledge import knowledge_of
from expert.language.load import load_rules
from expert.trace.reading import read_trace
from expert.trace.verifying import verify
from tests.dialogue.command_line import run

KEPT = Path(__file__).parent
TRACES = sorted(KEPT.glob("*/*.jsonl"))


def named(path: Path) -> str:
    return f"{path.parent.name}/{path.stem}"


def rules_beside(path: Path) -> Path:
    return next((path.parent / ".rules").iterdir())


def test_there_are_traces_to_keep() -> None:
    assert {path.parent.name for path in TRACES} >= {"first", "second", "third", "handed_over"} and len(TRACES) >= 18


@pytest.mark.parametrize("path", TRACES, ids=named)
def test_nothing_in_it_is_decided_otherwise(path: Path) -> None:
    trace = read_trace(path)
    assert [problem for problem in verify(trace) if problem.grade == "damage"] == []
    again = rerun(knowledge_of(load_rules(rules_beside(path))), trace)
    assert [str(difference) for difference in again.decided] == []


@pytest.mark.parametrize("path", TRACES, ids=named)
def test_it_is_audited(path: Path) -> None:
    result = run("audit", path, "--rerun")
    assert result.code == 0
    assert result.out.splitlines()[-1].startswith(("Verdict: the chain is whole", "Verdict: nothing was changed"))


@pytest.mark.parametrize("path", [path for path in TRACES if not read_trace(path).is_sealed], ids=named)
def test_an_open_one_is_gone_on_with(path: Path, tmp_path: Path) -> None:
    jobs = tmp_path / "jobs"
    shutil.copytree(path.parent, jobs)
    words = ("resume", "--plain", "--rules", rules_beside(path), "--jobs", jobs, path.stem)
    result = run(*words, typed="yes\nhand over\n")
    assert (result.code, result.err) == (0, "")
    assert result.out.count("\n") > 3
