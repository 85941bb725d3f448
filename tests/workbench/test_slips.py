"""A slip of the pen in a rule file: `expert check` names the place, what was found and what would do; one slip, one message."""
# ruff: noqa: E501  (each message stands whole beside its cause)

from __future__ import annotations

from pathlib import Path

import pytest

from tests.dialogue.command_line import Ran, Shop, run

# What was slipped, the file, the text as it was, the text with the slip, the message.
SLIPS = [
    (
        "a key",
        "circuits/fill.yaml",
        "how: Pull one lead off.",
        "hwo: Pull one lead off.",
        "62:5: 'hwo' is not a key of a question; did you mean how? [unknown-key]",
    ),
    (
        "a question",
        "circuits/fill.yaml",
        "if: {pump_runs: no}",
        "if: {pump_run: no}",
        "86:23: there is no question or finding 'pump_run'; did you mean pump_runs? [unknown-name]",
    ),
    (
        "an outcome",
        "circuits/fill.yaml",
        "if: {coil: open}",
        "if: {coil: opne}",
        "90:29: 'opne' is not an outcome of coil; it has open, shorted, sound, off_value; did you mean open? [unknown-outcome]",
    ),
    (
        "a fault",
        "circuits/fill.yaml",
        "confirm: valve.coil_open",
        "confirm: valve.coil_opn",
        "90:52: there is no fault 'valve.coil_opn'; did you mean valve.coil_open? [unknown-name]",
    ),
    (
        "a part",
        "circuits/fill.yaml",
        "clear: valve}",
        "clear: vlave}",
        "89:57: there is no part 'vlave'; did you mean valve? [unknown-name]",
    ),
    (
        "a conclusion",
        "circuits/fill.yaml",
        "then: {clear: hose.split}",
        "then: {clera: hose.split}",
        "95:49: 'clera' is not a key of a conclusion; did you mean clear? [unknown-key]",
    ),
    (
        "a complaint",
        "circuits/fill.yaml",
        "explains: [leaks]",
        "explains: [leeks]",
        "37:20: there is no complaint 'leeks'; did you mean leaks? [unknown-name]",
    ),
    (
        "an instrument",
        "circuits/fill.yaml",
        "with: ohms",
        "with: ohm",
        "57:41: there is no instrument 'ohm'; did you mean ohms? [unknown-name]",
    ),
    (
        "a plate value",
        "circuits/fill.yaml",
        "formula: plate.fill_coil",
        "formula: plate.fil_coil",
        "84:79: there is no value 'plate.fil_coil'; did you mean plate.fill_coil? [unknown-name]",
    ),
    (
        "a unit in a limit",
        "circuits/fill.yaml",
        "above 100 kohm",
        "above 100 kohn",
        "58:32: 'kohn' is not a unit; did you mean kohm? [wrong-unit]",
    ),
    (
        "a unit of another kind",
        "circuits/fill.yaml",
        "above 1.6 bar",
        "above 1.6 ohm",
        "78:28: this gives a resistance; a gauge pressure is wanted [wrong-kind]",
    ),
    (
        "no unit",
        "circuits/fill.yaml",
        "above 1.6 bar",
        "above 1.6",
        "78:28: 1.6 is a plain number; a gauge pressure is wanted, as in '1.6 bar' [wrong-kind]",
    ),
    (
        "the unit of a question",
        "circuits/fill.yaml",
        "with: gauge, unit: bar",
        "with: gauge, unit: bra",
        "77:58: 'bra' is no unit of a gauge pressure; it may be bar, psi, kPa, mbar, hPa, MPa, Pa, atm, kgf/cm2, inHg, mmHg; did you mean bar? [wrong-unit]",
    ),
    (
        "the kind of a question",
        "circuits/fill.yaml",
        "{measure: gauge_pressure, with: gauge",
        "{measure: guage_pressure, with: gauge",
        "77:23: 'guage_pressure' is no kind of quantity; did you mean gauge_pressure? [unknown-kind]",
    ),
    (
        "the form of an answer",
        "circuits/fill.yaml",
        "{ask: Does the pump run?, answer: yes_no",
        "{ask: Does the pump run?, answer: yesno",
        "52:48: 'answer' may be yes_no, {one_of: {outcome: label}} or {measure: kind, with: instrument}; did you mean yes_no? [wrong-shape]",
    ),
    (
        "a bench state",
        "circuits/fill.yaml",
        "how: Listen., bench: {mains: on",
        "how: Listen., bench: {mains: onn",
        "52:97: 'onn' is not a state of mains; it has isolated, on; did you mean on? [unknown-outcome]",
    ),
    (
        "how often it is seen",
        "circuits/fill.yaml",
        "seen: occasional",
        "seen: ocasional",
        "16:15: 'seen' is 'ocasional'; it may be common, occasional, rare; did you mean occasional? [unknown-word]",
    ),
    (
        "a rule without because",
        "circuits/fill.yaml",
        ", because: It runs.}",
        "}",
        "87:3: a rule must have 'because' [missing-key]",
    ),
    (
        "a rule without if",
        "circuits/fill.yaml",
        "{if: {pump_runs: yes}, then",
        "{then",
        "87:3: a rule must have 'if' [missing-key]",
    ),
    (
        "the same rule twice",
        "circuits/fill.yaml",
        "  pump_is_alive:",
        "  pump_is_dead:",
        "87:3: 'pump_is_dead' stands twice in this mapping; it is already on line 86 [duplicate-key]",
    ),
    (
        "two entries without brackets",
        "circuits/fill.yaml",
        "confirm: valve.coil_open}",
        "confirm: valve.coil_open, hose.split}",
        "90:69: 'hose.split' is not a key of a conclusion; several under one key stand in brackets, as in [..., hose.split] [unknown-key]",
    ),
    ("a tab", "circuits/fill.yaml", "    sound: click", "\tsound: click", "70:1: a tab stands here; use spaces [tab]"),
    (
        "a line too far in",
        "circuits/fill.yaml",
        "    minutes: 3\n",
        "     minutes: 3\n",
        "64:6: this is not YAML: this line does not line up with those around it [not-yaml]",
    ),
    (
        "a quote not closed",
        "circuits/fill.yaml",
        'source: "common practice, no source"',
        'source: "common practice, no source',
        "84:104: this is not YAML: the quote opened here runs on to line 92, column 119; the closing quote is missing [not-yaml]",
    ),
    (
        "a quote not opened",
        "circuits/fill.yaml",
        "because: It is wet.}",
        'because: It is wet."}',
        "94:77: 'because' ends with a quote, but none opens it [stray-quote]",
    ),
    (
        "a colon in a text",
        "circuits/fill.yaml",
        "because: It is wet.}",
        "because: It is: wet.}",
        "94:82: this is not YAML: did not find expected ',' or '}'; a bracket or a comma is missing, or a text with ': ' or a bracket in it must stand in quotes [not-yaml]",
    ),
    (
        "a bracket not closed",
        "circuits/fill.yaml",
        "explains: [blows]",
        "explains: [blows",
        "48:18: this is not YAML: did not find expected ',' or ']'; a bracket or a comma is missing, or a text with ': ' or a bracket in it must stand in quotes; the bracket was opened on line 47, column 19 [not-yaml]",
    ),
    (
        "a capital",
        "circuits/fill.yaml",
        "if: {pump_runs: no}",
        "if: {pump_runs: No}",
        "86:34: 'No' is not an outcome of pump_runs; it has yes, no; did you mean no? [unknown-outcome]",
    ),
    (
        "a feature of the machine",
        "machines/test_machine.yaml",
        "fill: automatic",
        "fill: automatick",
        "4:18: 'automatick' is not an outcome of machine.fill; it has automatic, none; did you mean automatic? [unknown-outcome]",
    ),
    (
        "a plate's unit",
        "machines/test_machine.yaml",
        "950 ohm",
        "950 onm",
        "5:42: '950 onm' has the unknown unit 'onm' (did you mean ohm?); a resistance is wanted, in ohm, kohm or Mohm, or OL [not-a-quantity]",
    ),
    (
        "minutes in words",
        "circuits/fill.yaml",
        "minutes: 10",
        "minutes: ten",
        "39:27: 'minutes' is 'ten'; a plain number is wanted, as in 2 or 2.5 [not-a-number]",
    ),
]


@pytest.mark.parametrize(
    ("file", "old", "new", "message"), [slip[1:] for slip in SLIPS], ids=[slip[0] for slip in SLIPS]
)
def test_a_slip_is_named_where_it_was_made(tmp_path: Path, file: str, old: str, new: str, message: str) -> None:
    shop = Shop.at(tmp_path)
    path = shop.rules / file
    text = path.read_text("utf-8")
    assert old in text
    path.write_text(text.replace(old, new, 1), "utf-8")
    assert run("check", shop.rules) == Ran(2, "", f"{path}:{message}\n1 problem: the rules are not used\n")
