"""The rendering of a job names each phase where it begins."""

from __future__ import annotations

from datetime import UTC, datetime
from pathlib import Path

import pytest

from expert.desk.session import Session
from expert.terminal.demo import render
from expert.trace.reading import read_trace
from tests.dialogue.phases import PHASES, TO_THE_CLOSE, TO_THE_PROOF
from tests.dialogue.small_rules import small_knowledge, small_shop

COLD = "The machine stands safe: mains isolated, covers on."


def rendered(folder: Path, *lines: str) -> list[str]:
    path = folder / "7.jsonl"
    session, _ = Session.open(small_knowledge(), small_shop(), path, "7", lambda: datetime(2026, 1, 31, tzinfo=UTC))
    for line in lines:
        session.say(line)
    session.close()
    return render(read_trace(path), small_knowledge()).splitlines()


def phases(lines: list[str]) -> list[str]:
    return [line.split(": ")[1].removesuffix(" ---") for line in lines if line.startswith("--- ")]


@pytest.mark.parametrize(
    ("typed", "named"),
    [
        ((*TO_THE_CLOSE, "1", "ok", "ok", "no"), ["intake", "make safe", "find", "repair", "prove", "close"]),
        (PHASES["make safe"], ["intake", "make safe"]),
        ((*PHASES["make safe"], "yes"), ["intake", "make safe", "find"]),
        ((*PHASES["repair"], "take back 2", "yes"), ["intake", "make safe", "find", "repair", "find"]),
        ((*TO_THE_PROOF, "no"), ["intake", "make safe", "find", "repair", "prove", "find"]),
        (PHASES["stop"], ["intake", "make safe", "find"]),
    ],
    ids=["a whole job", "arrives plugged in", "made safe", "taken back", "the proof fails", "a danger"],
)
def test_each_phase_is_named_once_where_it_begins(tmp_path: Path, typed: tuple[str, ...], named: list[str]) -> None:
    assert phases(rendered(tmp_path, *typed)) == named


def test_a_phase_begins_with_what_is_to_be_done(tmp_path: Path) -> None:
    lines = rendered(tmp_path, *TO_THE_CLOSE)
    following = {line: lines[at + 2] for at, line in enumerate(lines) if line.startswith("--- ")}
    assert following == {
        "--- 1 of 6: intake ---": "Who is at the bench? Type your name.",
        "--- 2 of 6: make safe ---": COLD,
        "--- 3 of 6: find ---": "Switch on. (2 min)",
        "--- 4 of 6: repair ---": "Repair: fill valve: coil open. About 20 min.",
        "--- 5 of 6: prove ---": "Put the covers on. (4 min)",
        "--- 6 of 6: close ---": "! Mains kills. Pull the plug.",
    }
    assert lines[lines.index("--- 4 of 6: repair ---") - 2] == "Found.", "what was found belongs to the search"
    assert all(lines[at - 1] == lines[at + 1] == "" for at, line in enumerate(lines) if line.startswith("--- "))
    assert "\n\n\n" not in "\n".join(lines)
