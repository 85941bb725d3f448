"""What an edit changes on the simulated machines is told, whether or not a worked case sees it."""

from __future__ import annotations

from pathlib import Path

import pytest

from expert.engine.knowledge import knowledge_of
from expert.language.load import read_rules
from expert.language.reading.kept import Trees
from expert.workbench.case_runs.changed import changed_meanings, meanings_in
from expert.workbench.case_runs.remembered import Remembered

ROOT = Path(__file__).parents[2] / "rules"
RULES = {
    str(file.relative_to(ROOT)): file.read_text(encoding="utf-8")
    for file in ROOT.rglob("*.yaml")
    if file.relative_to(ROOT).parts[0] not in ("cases", "simulated")
}
FILL, GROUP = "circuits/boiler_fill.yaml", "circuits/brew_group.yaml"
TREES = Trees()
BEFORE = meanings_in(read_rules(RULES, TREES))
# The file, what is written, the edit, and what is told of it; nothing where the rules mean the same.
EDITS = [
    (FILL, "circuit: boiler_fill\n", "# one line more\ncircuit: boiler_fill\n", []),
    (
        FILL,
        "check: [water_tank.not_seated, fill_solenoid, level_probe.wire_off, level_probe.scaled]",
        "check: [level_probe.scaled, level_probe.wire_off, fill_solenoid, water_tank.not_seated]",
        [
            "note: board_is_locked no longer says 'check: water_tank.not_seated, fill_solenoid.coil_open, ",
        ],
    ),
    (
        GROUP,
        "    if: {pump_stops_lever_down: no, microswitch_lever_down: no}\n",
        "    if: {pump_stops_lever_down: no}\n",
        ["note: runs_on_but_microswitch_opens fires on"],
    ),
    (
        GROUP,
        "  runs_on_but_microswitch_opens:\n",
        "  microswitch_opens:\n",
        ["note: microswitch_opens is new; it fires on", "note: runs_on_but_microswitch_opens is gone"],
    ),
]

# What no worked case has to see: the record, the file, what is written in it, the edit, and the whole note.
OTHERWISE = [
    (
        "bench.yaml",
        "cautions: [mains_isolate]",
        "cautions: []",
        "move isolate no longer says 'cautions: mains_isolate'",
    ),
    (
        "circuits/mains_and_earth.yaml",
        "open: above 10 ohm",
        "open: above 100 ohm",
        "question earth_bond no longer says 'open on heat_exchanger_lever_tank: above 10 ohm', "
        "and says now 'open on heat_exchanger_lever_tank: above 100 ohm'",
    ),
    (
        "circuits/safety_looks.yaml",
        "    slip: opening temperature stamped on the safety thermostats\n",
        "",
        "question limit_stamp no longer says 'slip: in words'",
    ),
    (
        "circuits/steam_and_safety.yaml",
        "explains: [weak_wand, weak_steam]",
        "explains: [weak_wand]",
        "fault steam_wand.tip_blocked no longer says 'explains: weak_steam'",
    ),
    (
        "circuits/steam_and_safety.yaml",
        "explains: [weak_wand, weak_steam]",
        "explains: [weak_steam, weak_wand]",
        "fault steam_wand.tip_blocked says the same in another order, from 'explains: weak_steam' on",
    ),
]


@pytest.mark.parametrize(("file", "written", "edit", "told"), OTHERWISE)
def test_what_a_record_says_otherwise_is_told_at_its_place(file: str, written: str, edit: str, told: str) -> None:
    assert RULES[file].count(written) >= 1
    notes = list(changed_meanings(read_rules({**RULES, file: RULES[file].replace(written, edit, 1)}, TREES), BEFORE))
    assert [note.message for note in notes] == [f"note: {told}"]
    line = RULES[file][: RULES[file].index(written)].count("\n") + 1
    assert notes[0].at.path == file and 0 < line - notes[0].at.line < 20


@pytest.mark.parametrize(("file", "written", "edit", "told"), EDITS)
def test_an_edit_is_told_by_what_it_changes(file: str, written: str, edit: str, told: list[str]) -> None:
    assert written in RULES[file]
    base = read_rules({**RULES, file: RULES[file].replace(written, edit, 1)}, TREES)
    notes = list(changed_meanings(base, BEFORE))
    assert len(notes) == len(told), [str(note) for note in notes]
    for note, beginning in zip(notes, told, strict=True):
        assert note.message.startswith(beginning) and note.code == "means-otherwise"


def test_where_a_rule_fires_that_did_not_is_told_with_its_machines() -> None:
    text = RULES[GROUP].replace(
        "if: {pump_stops_lever_down: no, microswitch_lever_down: no}", "if: {pump_stops_lever_down: no}", 1
    )
    (note,) = changed_meanings(read_rules({**RULES, GROUP: text}, TREES), BEFORE)
    assert "where it did not" in note.message and "'brew switch: stuck closed'" in note.message


def test_what_rules_meant_is_remembered_with_the_cases(tmp_path: Path) -> None:
    knowledge, file = knowledge_of(read_rules(RULES, TREES)), tmp_path / "kept.json"
    Remembered(file, knowledge).keep([], BEFORE)
    assert Remembered(file, knowledge).meanings == BEFORE
    Remembered(file, knowledge).keep([])
    assert Remembered(file, knowledge).meanings == BEFORE
