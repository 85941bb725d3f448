"""Worked readings: each limit of the shipped rules has one on either side, and a slip in a limit is named."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from click.testing import CliRunner

from expert.cli import main
from expert.language.load import load_rules, read_rules
from expert.language.worked.readings import load_readings
from expert.workbench.case_runs.meant import misread
from expert.workbench.cases import CODES
from tests.dialogue.command_line import Shop

ROOT = Path(__file__).parents[2] / "rules"
RULES = {
    str(file.relative_to(ROOT)): file.read_text(encoding="utf-8")
    for file in ROOT.rglob("*.yaml")
    if file.relative_to(ROOT).parts[0] not in ("cases", "simulated")
}
BASE = load_rules(ROOT)
READINGS = load_readings(ROOT, BASE)
# Rests on another reading, begins at the least that its gauge can tell, or is nothing with the strictest limits.
WITHOUT = {("high_limit_opens_at", name) for name in ("low", "sound", "late")} | {("pump_gauge_in_free_flow", "none")}
WITHOUT |= {(question.id, "weak") for question in BASE.questions.values() if "insulation" in question.id}


# A slip, and the outcome that a worked reading has then.
SLIPS = [
    (
        "circuits/boiler_fill.yaml",
        "open: above 100 kohm",
        "open: above 10 kohm",
        "94 kohm at fill_coil_resistance means open",
    ),
    (
        "circuits/boiler_fill.yaml",
        "open: above 100 kohm",
        "open: above 100 ohm",
        "446.5 ohm at fill_coil_resistance means open",
    ),
    (
        "circuits/boiler_fill.yaml",
        "doubtful: below 50 uS/cm",
        "doubtful: below 500 uS/cm",
        "53 \u00b5S/cm at water_conductivity means doubtful",
    ),
    (
        "circuits/boiler_heat.yaml",
        "shorted: below 1 kohm",
        "shorted: below 1 ohm",
        "940 ohm at relay_output means sound",
    ),
]


def test_every_reading_of_a_limit_is_worked() -> None:
    worked = {(one.question, one.outcome) for one in READINGS}
    limited = {(question.id, reading.name) for question in BASE.questions.values() for reading in question.readings}
    assert limited - worked <= WITHOUT


def test_every_worked_reading_means_what_it_says() -> None:
    assert list(misread(BASE, READINGS)) == [] and len(READINGS) > 250 and "case-reading" in CODES


@pytest.mark.parametrize(("file", "limit", "slip", "message"), SLIPS)
def test_a_slip_in_a_limit_is_named(file: str, limit: str, slip: str, message: str) -> None:
    assert limit in RULES[file]
    base = read_rules({**RULES, file: RULES[file].replace(limit, slip, 1)})
    assert any(problem.message.startswith(message) for problem in misread(base, READINGS))


def test_the_command_tells_it_at_the_place_of_the_reading(tmp_path: Path) -> None:
    shop = Shop.at(tmp_path)
    (shop.rules / "cases").mkdir(exist_ok=True)
    file = shop.rules / "cases" / "readings.yaml"
    file.write_text("readings:\n  coil: {open: [200 kohm, OL], sound: [200 kohm]}\n", "utf-8")
    result = CliRunner().invoke(main, ["cases", str(shop.rules)])
    assert result.exit_code == 1
    told = f"{file}:2:40: 200 kohm at coil means open on test_machine, expected sound [case-reading]"
    assert told in result.stderr and "3 worked readings, 2 as expected, 1 not" in result.stdout


def test_what_the_prompt_refuses_means_nothing() -> None:
    wrong = replace(next(one for one in READINGS if one.question == "fill_coil_resistance"), typed="950 volts")
    (problem,) = misread(BASE, [wrong])
    assert problem.message.startswith("950 volts at fill_coil_resistance means nothing: ")
