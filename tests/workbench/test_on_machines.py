"""What rules conclude on the simulated machines: a slip that condemns a sound part or clears a fault that is there."""

# ruff: noqa: E501  (each message stands whole beside its cause)

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from expert.language.load import read_rules
from expert.witness.record import SUFFIX, load_record, shipped_records
from expert.workbench.checks.on_machines import NO_FAULT, check
from expert.workbench.index import Index

ROOT = Path(__file__).parents[2] / "rules"
RULES = {
    str(file.relative_to(ROOT)): file.read_text(encoding="utf-8")
    for file in ROOT.rglob("*.yaml")
    if file.relative_to(ROOT).parts[0] not in ("cases", "simulated")
}
# The file, what is written, the slip, and what is said of it.
SLIPS = [
    (
        "circuits/boiler_fill.yaml",
        "    if: {pump_output_contact: closed}",
        "    if: {pump_output_contact: sound}",
        "pump_output_conducts_without_power confirms control_board.pump_output_stuck_on on heat_exchanger_lever_tank with 'no fault', 'mains lead: live core broken' and 124 more, where the part is in order",
    ),
    (
        "circuits/boiler_fill.yaml",
        "    if: {any: [{pump_output_contact: sound}, {pump_stops_lever_down: yes}]}",
        "    if: {any: [{pump_output_contact: sound}, {pump_stops_lever_down: no}]}",
        "pump_output_is_open_without_power clears control_board.pump_output_stuck_on on heat_exchanger_lever_tank with 'control board: pump output stuck on', which is just that",
    ),
]


@pytest.mark.parametrize(("file", "written", "slip", "message"), SLIPS)
def test_a_slip_that_shows_on_a_machine_is_named(file: str, written: str, slip: str, message: str) -> None:
    assert RULES[file].count(written) == 1
    base = read_rules({**RULES, file: RULES[file].replace(written, slip)})
    line = RULES[file][: RULES[file].index(written)].count("\n") + 2
    (problem,) = check(Index(base))
    assert problem.code == ("confirmed-on-machine" if " confirms " in message else "cleared-on-machine")
    assert problem.message == message and (problem.at.path, problem.at.line) == (file, line)


BOILER_HEATS = "    slip: the boiler heats\n    answer: yes_no\n    sound: yes\n"
# The file, what is written, the slip, where the message points, and the message.
OTHERWISE = [
    (
        "circuits/steam_and_safety.yaml",
        "explains: [weak_wand, weak_steam]",
        "explains: []",
        "      tip_blocked:",
        "the owner of heat_exchanger_lever_tank with 'steam tap: tip blocked' notices 'steam weak', and steam_wand.tip_blocked explains no weak_steam and no weak_wand [noticed-on-machine]",
    ),
    (
        "circuits/first_look.yaml",
        BOILER_HEATS,
        BOILER_HEATS.replace("sound: yes", "sound: no"),
        "  boiler_heats:",
        "a sound heat_exchanger_lever_tank answers boiler_heats with yes, and sound is no [unsound-on-machine]",
    ),
    (
        "circuits/boiler_heat.yaml",
        "          element_resistance: half_power\n",
        "          element_resistance: open\n",
        "      half_open:",
        "heating_element.half_open shows element_resistance: open; every heat_exchanger_lever_tank that has it answers half_power [shows-otherwise-on-machine]",
    ),
]
CODES = ("noticed-on-machine", "unsound-on-machine", "shows-otherwise-on-machine")


@pytest.mark.parametrize(("file", "written", "slip", "place", "message"), OTHERWISE)
def test_what_a_machine_shows_otherwise_is_named(file: str, written: str, slip: str, place: str, message: str) -> None:
    assert RULES[file].count(written) == 1
    base = read_rules({**RULES, file: RULES[file].replace(written, slip)})
    line = next(n for n, text in enumerate(RULES[file].splitlines(), 1) if text.startswith(place))
    found = [p for p in check(Index(base)) if p.code in CODES]
    assert [f"{p.message} [{p.code}]" for p in found] == [message]
    assert (found[0].at.path, found[0].at.line) == (file, line)


def test_a_known_difference_is_not_told_again_and_names_rules_and_faults_that_there_are() -> None:
    base = read_rules(RULES)
    assert list(check(Index(base))) == []
    for record in shipped_records():
        for rule, faults in record.differs.items():
            if rule in base.rules:
                assert set(faults) <= {getattr(said, "fact", "") for said in base.rules[rule].then}, rule
            elif rule in base.faults:
                assert set(faults) <= {*record.complains, *base.faults[rule].shows}, rule
            else:
                assert rule in base.questions and set(faults) == {NO_FAULT}, rule


def test_a_difference_without_a_reason_is_refused(tmp_path: Path) -> None:
    (shipped,) = (ROOT / "simulated").glob(f"*{SUFFIX}")
    file = tmp_path / shipped.name
    file.write_text(shipped.read_text(encoding="utf-8"), encoding="utf-8")
    (tmp_path / shipped.name.replace(SUFFIX, ".differs.yaml")).write_text("a_rule: [a.fault]\n", encoding="utf-8")
    with pytest.raises(ValueError, match="each fault has its reason beside it"):
        load_record(file)


def test_what_a_fault_shows_is_held_against_every_machine_with_it_and_each_difference_is_one() -> None:
    """No line of the file of differences is left behind by rules or machine that agree by now."""
    base = read_rules(RULES)
    index = Index(base)
    told = sum(len(fault.shows) for fault in base.faults.values() for seen in index.seen if seen.only(fault.id))
    assert told > 1_000
    for seen in index.seen:
        listed = {(f, q) for f, names in seen.record.differs.items() if f in base.faults for q in names}
        known = {(f, q) for f, q in listed if q in base.questions}
        seen.record = replace(seen.record, differs={})
        differs = {tuple(p.message.split()[0:3:2]) for p in check(index) if p.code == "shows-otherwise-on-machine"}
        assert {(fault, question.rstrip(":")) for fault, question in differs} == known
