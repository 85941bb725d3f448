"""Types, lint and format, as DEVELOPERS.md promises them."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]


@pytest.mark.parametrize(
    "arguments",
    [["mypy", "--strict", "expert"], ["ruff", "check", "."], ["ruff", "format", "--check", "."]],
    ids=["types", "lint", "format"],
)
def test_the_tool_finds_nothing(arguments: list[str]) -> None:
    done = subprocess.run([sys.executable, "-m", *arguments], cwd=ROOT, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stdout + done.stderr
