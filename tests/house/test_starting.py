"""A start of `expert bench` waits for nothing that its first question does not need."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

# Each a package that only other commands, or later moments of a job, have use for.
NOT_WANTED = (
    "duckdb",
    "jinja2",
    "yaml",
    "prompt_toolkit",
    "importlib.metadata",
    "cryptography",
    "expert.cli.practice",
    "expert.cli.shop",
    "expert.desk.playing",
    "expert.desk.profile.reading",
    "expert.desk.replay",
    "expert.job.commands",
    "expert.job.figures",
    "expert.job.search",
    "expert.job.steps",
    "expert.language.checks",
    "expert.language.keys",
    "expert.language.load",
    "expert.language.reading",
    "expert.language.records",
    "expert.machine",
    "expert.practice",
    "expert.shop",
    "expert.trade.figures",
    "expert.trade.physics",
    "expert.witness",
    "expert.workbench",
)
# What a start loads now, and a little. Whoever needs more first looks for what can wait until the question is shown.
MOST_OF_OURS = 180
MOST_IN_ALL = 365
PROGRAM = """
import sys
from expert.cli import main
sys.argv = ["expert", "bench", "--plain", "--jobs", sys.argv[1]]
from expert.terminal import plain_lines as plain
def shown(show=plain.show):
    def instead(*what):
        show(*what)
        print(*sorted(sys.modules), file=sys.stderr)
        sys.exit()
    return instead
plain.show = shown()
main()
"""


@pytest.fixture(scope="module")
def loaded(tmp_path_factory: pytest.TempPathFactory) -> frozenset[str]:
    """What is loaded when the second job of a shop without a profile waits for its first line."""
    folder = tmp_path_factory.mktemp("start")
    settings = os.environ | {"EXPERT_SHOP": str(folder / "none.yaml"), "XDG_CACHE_HOME": str(folder / "cache")}
    for _ in range(2):
        command = [sys.executable, "-c", PROGRAM, str(folder / "jobs")]
        ended = subprocess.run(
            command, env=settings, stdin=subprocess.DEVNULL, capture_output=True, text=True, timeout=60
        )
        assert "Who is at the bench?" in ended.stdout
    return frozenset(ended.stderr.split())


def test_the_list_of_what_is_loaded_is_one(loaded: frozenset[str]) -> None:
    assert {"expert.job.beginning", "expert.trace.writing", "click"} <= loaded


@pytest.mark.parametrize("name", NOT_WANTED)
def test_a_first_question_does_not_wait_for(name: str, loaded: frozenset[str]) -> None:
    assert not [module for module in loaded if module == name or module.startswith(name + ".")]


def test_a_first_question_waits_for_few_modules(loaded: frozenset[str]) -> None:
    ours = {name for name in loaded if name.split(".")[0] == "expert"}
    assert 100 < len(ours) < MOST_OF_OURS
    assert len(loaded) < MOST_IN_ALL


def test_all_that_is_named_exists() -> None:
    root = Path(__file__).resolve().parents[2]
    ours = [name.replace(".", "/") for name in NOT_WANTED if name.startswith("expert.")]
    assert [name for name in ours if not ((root / name).is_dir() or (root / f"{name}.py").is_file())] == []
