"""What `expert check` refuses of rules that would put somebody in danger: each is planted in the shipped rules once."""

from __future__ import annotations

from pathlib import Path

import pytest

from expert.language.checks import CODES
from expert.language.load import read_rules
from expert.language.problems import RulesRefused

RULES = Path(__file__).parents[2] / "rules"
TEXTS = {
    str(path.relative_to(RULES)): path.read_text(encoding="utf-8")
    for path in sorted(RULES.rglob("*.yaml"))
    if path.relative_to(RULES).parts[0] not in ("cases", "simulated")
}
LOOKS, FILL = "circuits/safety_looks.yaml", "circuits/boiler_fill.yaml"
LAST_STEP = "            - Tell the customer in writing that the machine was unsafe.\n"
LOOK_AT_THE_FUSE = 'how: "Plug out. Look on the board'
HOW_LIVE = 'how: "Tank full. Switch on, lift the lever by its handle, and read with the pump connected'
LOOKED_AT = "- tests: {lead_looks: [sound, no_earth_pin]}\n  customer"
TOLD = "    while: {told_of_danger: [shock, burnt, tripped, wet, burst, repaired, nobody_knows]}\n"

SLIPS = [
    pytest.param(
        LOOKS,
        LAST_STEP,
        "            - Watch a full heat-up.\n",
        "step-energises",
        "Watch a full heat-up",
        id="repair heats",
    ),
    pytest.param(
        FILL,
        LOOK_AT_THE_FUSE,
        'how: "Plug out. Then switch it on. Look on the board',
        "step-energises",
        "switch it on",
        id="how",
    ),
    pytest.param(
        LOOKS,
        LAST_STEP,
        "            - Bridge the high limits with a wire.\n",
        "defeats-protection",
        "Bridge the high limits",
        id="repair bridges",
    ),
    pytest.param(
        "bench.yaml",
        "      - Prove dead at the terminals of the main switch.\n",
        "      - Block the safety valve with a plug.\n",
        "defeats-protection",
        "Block the safety valve",
        id="move blocks",
    ),
    pytest.param(
        FILL,
        "cautions: [mains_isolate, live_work, water_near_mains]",
        "cautions: [mains_isolate, water_near_mains]",
        "caution-missing",
        "the caution live_work must be shown",
        id="live without its caution",
    ),
    pytest.param(
        "bench.yaml",
        "    cautions: [mains_isolate, capacitor_charge]\n    word: dead\n",
        "    word: dead\n",
        "caution-missing",
        "the caution mains_isolate must be shown",
        id="move without its caution",
    ),
    pytest.param(
        "circuits/boiler_heat.yaml",
        "cautions: [mains_isolate, burn, boiler_pressure, descaler, never_dry]",
        "cautions: [mains_isolate, burn, boiler_pressure, never_dry]",
        "caution-missing",
        "with 'descaler' the caution descaler must be shown",
        id="descaler without its caution",
    ),
    pytest.param(
        "bench.yaml",
        "qualified_only:\n  - {mains: on, covers: off}\n",
        "",
        "state-unguarded",
        "live_work is for the qualified only",
        id="no qualified_only",
    ),
    pytest.param(
        "bench.yaml",
        "passing_only:\n  - {mains: isolated, covers: off, pressure: some}\n",
        "",
        "state-unguarded",
        "nobody works in mains isolated, covers off, pressure some",
        id="no passing_only",
    ),
    pytest.param(
        "bench.yaml",
        "    needs: {mains: isolated, pressure: none, covers: on}\n    makes: {covers: off}\n",
        "    needs: {mains: isolated, covers: on}\n    makes: {covers: off}\n",
        "move-into-danger",
        "covers_off may lead into",
        id="covers off under pressure",
    ),
    pytest.param(
        FILL,
        HOW_LIVE,
        'how: "Clip the meter to the output terminal and read',
        "hand-on-live-part",
        "in a live, open machine",
        id="hand on a live terminal",
    ),
    pytest.param(
        "hazards.yaml",
        LOOKED_AT,
        "- tests: {lamp_lights: yes}\n  customer",
        "release-not-dead",
        "lamp_lights cannot release lead_not_looked_at",
        id="released by a live test",
    ),
    pytest.param(
        "hazards.yaml",
        "      - tests: {inside_looks: sound, earth_bond: sound, insulation_at_plug: [sound, weak]}\n",
        "      - tests: {told_of_danger: nothing}\n",
        "release-by-itself",
        "told_of_danger opens told_of_danger",
        id="asked once more",
    ),
    pytest.param(
        "hazards.yaml",
        TOLD,
        "    while: {not: {told_of_danger: nothing}}\n",
        "not-in-hazard",
        "'while' of told_of_danger contains 'not'",
        id="not",
    ),
    pytest.param(
        LOOKS,
        "\nrules:\n",
        "\nrules:\n  planted:\n    if: {lamp_lights: no}\n    then: {stop_work: Leave it.}\n    because: It is dark.\n",
        "stop-without-hazard",
        "planted stops the work",
        id="stop that holds nothing",
    ),
    pytest.param(
        "hazards.yaml",
        ", {safety_valve_outlet.closed: present}",
        "",
        "danger-unguarded",
        "safety_valve_outlet.closed is dangerous and opens no hazard",
        id="danger that forbids nothing",
    ),
    pytest.param(
        LOOKS,
        "        dangerous: yes\n",
        "",
        "danger-not-marked",
        "safety_valve_outlet.closed opens a hazard",
        id="danger mark deleted",
    ),
]


def refused(path: str, old: str, new: str) -> list[str]:
    """What is said of the shipped rules with the first such text of a file put otherwise."""
    assert old in TEXTS[path], "the shipped rules read otherwise now"
    with pytest.raises(RulesRefused) as caught:
        read_rules({**TEXTS, path: TEXTS[path].replace(old, new, 1)})
    return [str(problem) for problem in caught.value.problems]


@pytest.mark.parametrize(("path", "old", "new", "code", "words"), SLIPS)
def test_a_planted_danger_is_refused_where_it_stands(path: str, old: str, new: str, code: str, words: str) -> None:
    found = [problem for problem in refused(path, old, new) if problem.endswith(f"[{code}]")]
    assert any(words in problem for problem in found), found
    assert all(problem.split(":")[1].isdecimal() and problem.split(":")[2].isdecimal() for problem in found)


def test_the_manual_explains_each_of_them() -> None:
    manual = (RULES / "README.md").read_text(encoding="utf-8")
    planted = {slip.values[3] for slip in SLIPS}
    assert planted <= set(CODES) and all(f"| `{code}` |" in manual for code in planted)


def test_no_repair_no_move_and_no_test_as_shipped_is_refused() -> None:
    assert read_rules(TEXTS).hazards
