"""Every command has help, stands in the README, keeps the exit codes, and never shows a Python traceback."""

from __future__ import annotations

from pathlib import Path

import click
import pytest
from click.testing import CliRunner

from expert.cli import COMMANDS, main

ROOT = Path(__file__).resolve().parents[2]
README = (ROOT / "README.md").read_text(encoding="utf-8")


@pytest.mark.parametrize("name", sorted(COMMANDS))
def test_every_command_has_help_and_stands_in_the_readme(name: str) -> None:
    command = main.get_command(click.Context(main), name)
    assert command is not None and command.name == name
    assert command.help and len(command.help.splitlines()[0]) > 20
    result = CliRunner().invoke(main, [name, "--help"])
    assert result.exit_code == 0
    assert f"expert {name}" in README
    for parameter in command.params:
        if isinstance(parameter, click.Option):
            assert parameter.help, f"expert {name}: {parameter.opts[0]} has no help"


NOT_A_JOB_NUMBER = (
    "'../x' is not a job number: letters a to z, digits, '-', '.' and '_' will do, 1 to 40 of them, "
    "the first a letter or a digit\n"
)
NO_FOLDER = "no/such/folder:1:1: there is no such folder [no-rules]\n1 problem: the rules are not used\n"


@pytest.mark.parametrize(
    ("arguments", "message"),
    [
        (["bench", "--json"], "--json goes with --answers FILE\n"),
        (["bench", "--job", "../x"], NOT_A_JOB_NUMBER),
        (["check", "no/such/folder"], NO_FOLDER),
    ],
    ids=["json-alone", "job-number", "no-rules"],
)
def test_bad_usage_says_why_and_leaves_with_2(arguments: list[str], message: str) -> None:
    result = CliRunner().invoke(main, arguments)
    assert (result.exit_code, result.stderr) == (2, message)


def test_a_missing_answers_file_is_bad_input(tmp_path: Path) -> None:
    result = CliRunner().invoke(main, ["bench", "--answers", str(tmp_path / "none.yaml"), "--jobs", str(tmp_path)])
    assert result.exit_code == 2
    assert "none.yaml" in result.stderr and "Traceback" not in result.stderr
