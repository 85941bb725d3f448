"""Whoever leaves a job is told the command that goes on with it, whatever folders and machine it was opened with."""

from __future__ import annotations

import shlex
from pathlib import Path

import pytest

from expert.desk.opening import resume_command
from expert.language.shipped import shipped
from expert.trace.places import jobs_folder
from expert.trace.reading import read_trace
from expert.trace.records import Opened, PromptPut
from tests.dialogue.command_line import AT_THE_PUMP, HERE, PUMP_QUESTION, STANDS, Shop, run
from tests.trace.power_cut import power_cut

OWN_MACHINE = """\
machine: own_machine
title: A machine of the shop's own
layout: Like the test machine.
features: {fill: automatic}
plate: {rated_voltage: 230 V, fill_coil: 470 ohm}
"""
ANSWERS = """\
machine: own_machine.yaml
complaints: [will_not_fill]
answers: {pump_runs: yes, water_arrives: no, coil: 470 ohm, water_before_valve: yes}
"""


@pytest.fixture
def shop(tmp_path: Path) -> Shop:
    return Shop.at(tmp_path)


def test_the_command_names_only_the_folders_that_need_it(tmp_path: Path) -> None:
    usual = jobs_folder() / "7.jsonl"
    assert resume_command(shipped("rules"), usual) == "expert resume 7"
    assert resume_command(tmp_path, usual) == f"expert resume --rules {tmp_path} 7"
    assert resume_command(shipped("rules"), tmp_path / "my jobs" / "7.jsonl") == (
        f"expert resume --jobs '{tmp_path}/my jobs' 7"
    )


@pytest.mark.parametrize("left", ["pause\n", ""], ids=["paused", "lines ended"])
def test_the_command_that_is_shown_goes_on_with_the_job(shop: Shop, left: str) -> None:
    out = run(
        *("bench", "--plain", "--rules", shop.rules, "--jobs", shop.jobs, "--job", "7"), typed=AT_THE_PUMP + left
    ).out
    program, *words = shlex.split(out.splitlines()[-1])
    assert program == "expert"
    assert run(*words, "--plain", typed=HERE + "yes\n").out.startswith(STANDS + PUMP_QUESTION)


def played_with_its_own_machine(shop: Shop) -> Path:
    """The trace of a job with a machine file that is gone afterwards."""
    machine = shop.rules.parent / "own_machine.yaml"
    machine.write_text(OWN_MACHINE, "utf-8")
    assert shop.play(ANSWERS).code == 0
    machine.unlink()
    return next(shop.jobs.glob("*.jsonl"))


def test_a_job_with_a_machine_file_of_its_own_goes_on_after_a_crash(shop: Shop) -> None:
    path = played_with_its_own_machine(shop)
    lines = path.read_bytes().splitlines(keepends=True)
    recorded = read_trace(path).recorded
    asked = next(r.line for r in recorded if isinstance(r.record, PromptPut) and r.record.question == "coil")
    power_cut(path, b"".join(lines[:asked]))
    again = shop.resume(HERE + "yes\n470\n", number=path.stem)
    assert (again.code, again.err) == (0, "")
    assert "470 ohm: sound (352 ohm to 588 ohm).\n" in again.out


def test_the_trace_of_such_a_job_can_be_run_again_without_the_file(shop: Shop) -> None:
    path = played_with_its_own_machine(shop)
    opened = read_trace(path).records[0]
    assert isinstance(opened, Opened) and opened.machine_file.startswith("machine: own_machine\n")
    again = run("audit", path, "--rules", shop.rules, "--rerun")
    assert (again.code, again.out.splitlines()[-2:]) == (
        0,
        [
            "Reproduced exactly.",
            "Verdict: nothing was changed: the chain is whole, and the folder's register agrees.",
        ],
    )


def test_rules_that_such_a_machine_does_not_fit_are_named(shop: Shop) -> None:
    path = played_with_its_own_machine(shop)
    shop.edit_rules("values: [automatic, none]", "values: [by_hand, none]", "features.yaml")
    shop.edit_rules("{fill: automatic}", "{fill: by_hand}", "machines/test_machine.yaml")
    again = run("audit", path, "--rules", shop.rules, "--rerun")
    assert again.code == 1
    assert again.err.startswith(f"{path}:1:1: the machine type of the job does not fit these rules: ")
