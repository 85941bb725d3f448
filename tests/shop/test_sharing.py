"""Copies for sharing, one conclusion of an audit, the audit on one screen, and frequencies proposed from jobs."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from expert.cli import main
from expert.language.load import load_rules
from expert.shop.redacting import REMOVED, redacted
from expert.shop.sums.frequencies import as_edit, proposals
from expert.shop.sums.gather import gather
from expert.trace.errors import TraceDamaged
from expert.trace.reading import read_trace
from expert.trace.records import Answered, Fired, Moved, Narrowed, Noted, Opened
from expert.trace.skimming import skim_bytes
from expert.trace.verifying import verify
from tests.shop.test_audit import COIL_JOB, job_at

ROOT = Path(__file__).resolve().parents[2]
DEMOS = sorted((ROOT / "transcripts_demo").glob("*.jsonl"))


def expert(*arguments: object) -> Result:
    return CliRunner().invoke(main, list(map(str, arguments)))


@pytest.mark.parametrize("path", DEMOS, ids=lambda path: path.stem)
def test_a_copy_is_whole_and_tells_the_same_job_without_names_and_notes(path: Path, tmp_path: Path) -> None:
    original = read_trace(path)
    copy = tmp_path / path.name
    copy.write_bytes(redacted(original))
    read = read_trace(copy)
    assert [problem for problem in verify(read) if problem.grade == "damage"] == []
    kept = (Answered, Fired, Narrowed, Moved)
    assert [r for r in read.records if isinstance(r, kept)] == [r for r in original.records if isinstance(r, kept)]
    opened = read.records[0]
    assert isinstance(opened, Opened) and opened.redacted_from == original.lines[-1].digest
    content = copy.read_text("ascii")
    assert not any(word in content for word in ("Ines", "Tomo", "bottled"))
    before, after = (
        gather(skim_bytes(p.read_bytes(), {"closed": b"", "answered": b"", "found": b""})) for p in (path, copy)
    )
    assert (before.outcome, before.minutes, before.faults) == (after.outcome, after.minutes, after.faults)


def test_what_was_noted_is_gone_and_a_changed_trace_is_not_passed_on(tmp_path: Path) -> None:
    path = job_at(tmp_path / "7.jsonl", COIL_JOB)
    copy = tmp_path / "copy.jsonl"
    copy.write_bytes(redacted(read_trace(path)))
    assert [r.text for r in read_trace(copy).records if isinstance(r, Noted)] == [REMOVED]
    assert b"scale in the valve" not in copy.read_bytes() and b"Ann" not in copy.read_bytes()
    path.write_bytes(path.read_bytes().replace(b'"text":"950"', b'"text":"960"'))
    with pytest.raises(TraceDamaged):
        redacted(read_trace(path))


def test_the_command_copies_a_folder_and_overwrites_nothing(tmp_path: Path) -> None:
    jobs, out = tmp_path / "jobs", tmp_path / "out"
    jobs.mkdir()
    shutil.copy(DEMOS[2], jobs)
    done = expert("shop", jobs, "--redact", out)
    assert done.stdout == f"1 trace in {out}, without notes and names. Read them before you pass them on.\n"
    assert expert("audit", out / DEMOS[2].name).exit_code == 0
    again = expert("shop", jobs, "--redact", out)
    assert (again.exit_code, again.stderr) == (
        2,
        f"{out / DEMOS[2].name} is there already: name a folder of its own\n",
    )


def test_the_audit_on_one_screen(tmp_path: Path) -> None:
    for path in DEMOS:
        lines = expert("audit", path, "--short").stdout.splitlines()
        assert len(lines) < 24 and max(map(len, lines)) < 80
    assert "FOUND: vibration pump: worn out" in lines
    assert lines[-1].endswith("compare the seal's digest with the one noted.")


def test_the_tree_of_one_conclusion(tmp_path: Path) -> None:
    lines = expert("audit", DEMOS[0], "--of", "fill_solenoid.coil_open").stdout.splitlines()
    assert lines == [
        "FOUND: fill solenoid valve: coil open",
        "  because: A coil without continuity draws no current and cannot lift its",
        "    plunger. [fill_coil_is_open]",
        "    answer 11: What does the meter read across the fill solenoid's coil, one",
        "      lead pulled off? OL (open)",
    ]
    refused = expert("audit", DEMOS[0], "--of", "nonsense")
    assert refused.exit_code == 2
    assert refused.stderr.startswith("'nonsense' is nothing that was concluded; there is: ")


def test_frequencies_are_proposed_as_an_edit_that_the_rules_take(tmp_path: Path) -> None:
    rules = Path(shutil.copytree(ROOT / "rules", tmp_path / "rules"))
    base = load_rules(rules)
    rare = next(fault.id for fault in base.faults.values() if fault.seen == "rare")
    common = next(fault.id for fault in base.faults.values() if fault.seen == "common")
    # By hand: 200 of 320 is the first half, so common; 10 comes behind nine tenths, so rare.
    times = {rare: 200, "over_pressure_valve.held_open": 110, common: 10}
    found = {one.fault: (one.now, one.proposed) for one in proposals(base, times)}
    assert found[rare] == ("rare", "common") and found[common] == ("common", "rare")
    assert proposals(base, {rare: 4}) == ()
    edit = as_edit(base, rules, proposals(base, {rare: 20})).splitlines()
    assert [line for line in edit if line[0] in "+-"][2:] == ["-        seen: rare", "+        seen: common"]
    # Applied by hand, at the line that the edit names: the rules take it, and that fault alone is changed.
    file = Path(edit[0].removeprefix("--- "))
    first = int(edit[2].partition("-")[2].partition(",")[0])
    lines = file.read_text("utf-8").splitlines(keepends=True)
    lines[first] = lines[first].replace("rare", "common")
    file.write_text("".join(lines), "utf-8")
    changed = {f.id for f in load_rules(rules).faults.values() if f.seen != base.faults[f.id].seen}
    assert changed == {rare}
