"""Every figure's help ends in an example, and the command line works it out as it stands there."""

from __future__ import annotations

import shlex

import pytest
from click.testing import CliRunner

from expert.cli import main
from expert.trade.figures.register import FIGURES


@pytest.mark.parametrize("name", sorted(FIGURES))
def test_the_example_in_the_help_works(name: str) -> None:
    helped = CliRunner().invoke(main, ["figure", name, "--help"])
    example = helped.stdout.splitlines()[-1]
    assert example.startswith(f"Example: expert figure {name}")
    words = shlex.split(example.removeprefix("Example: "))[1:]
    worked = CliRunner().invoke(main, words)
    assert (worked.exit_code, worked.stderr) == (0, ""), worked.stderr
    assert worked.stdout.startswith(f"{FIGURES[name].title}: ")
    as_data = CliRunner().invoke(main, [*words, "--json"])
    assert as_data.exit_code == 0 and as_data.stdout.startswith("{")
