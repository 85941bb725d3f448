"""What the README shows is what the program does."""

from __future__ import annotations

import doctest
import re
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
README = (ROOT / "README.md").read_text(encoding="utf-8")


def block_after(mark: str) -> str:
    """The fenced block that follows a mark."""
    found = re.search(rf"<!-- {mark} -->\n```\w+\n(.*?)```\n", README, re.DOTALL)
    assert found, f"README.md has no block marked {mark}"
    return found.group(1)


def test_the_dialogue_is_a_piece_of_a_saved_job() -> None:
    shown = block_after("dialogue")
    assert len(shown.splitlines()) > 15
    assert shown in (ROOT / "transcripts_demo" / "demo-1-straight.txt").read_text(encoding="utf-8")


def test_each_command_line_is_one_line() -> None:
    for mark, end in (("run command", ".venv/bin/expert bench"), ("test command", ".venv/bin/python -m pytest")):
        command = block_after(mark)
        assert command.count("\n") == 1 and command.rstrip().endswith(end)


def test_ci_runs_the_readme_s_test_command() -> None:
    script = (ROOT / ".ci" / "run").read_text(encoding="utf-8")
    assert "<!-- test command -->" in script and "pytest" not in script


def test_every_path_that_is_named_is_there() -> None:
    for path in re.findall(r"\]\((\w[\w./]*)\)", README):
        assert (ROOT / path).exists(), path


def test_the_top_level_is_as_laid_down() -> None:
    allowed = {
        "README.md",
        "DEVELOPERS.md",
        "LICENSE",
        "pyproject.toml",
        "expert",
        "rules",
        "tests",
        "transcripts_demo",
    }
    seen = {path.name for path in ROOT.iterdir() if not path.name.startswith(".")}
    assert seen - {"build", "dist"} == allowed


def test_the_worked_example_of_the_developers_page_runs() -> None:
    page = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    example = doctest.DocTestParser().get_doctest(page, {}, "DEVELOPERS.md", None, 0)
    assert len(example.examples) > 8
    told: list[str] = []
    assert doctest.DocTestRunner().run(example, out=told.append).failed == 0, "".join(told)


def test_every_folder_of_the_map_is_there() -> None:
    page = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    named = re.findall(r"^\| `([\w/.]+)` \|", page, re.MULTILINE)
    assert len(named) > 8
    assert [path for path in named if not (ROOT / path).exists()] == []
