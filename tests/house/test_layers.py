"""Imports between the packages run one way; and the test cannot pass by finding nothing to judge."""

from __future__ import annotations

import ast
from pathlib import Path

import pytest

EXPERT = Path(__file__).resolve().parents[2] / "expert"

MAY_IMPORT = {
    "trade": set(),
    "language": {"trade"},
    "engine": {"language", "trade"},
    "trace": {"engine", "language", "trade"},
    "dialogue": {"trace", "engine", "language", "trade"},
    "workbench": {"dialogue", "trace", "engine", "language", "trade"},
    "shop": {"dialogue", "trace", "engine", "language", "trade"},
    "cli": {"workbench", "shop", "dialogue", "trace", "engine", "language", "trade"},
}
PURE = ("engine", "dialogue/steps.py", "dialogue/job.py", "dialogue/searching.py", "dialogue/mending.py")
IMPURE_MODULES = {"time", "datetime", "random", "os", "pathlib", "socket", "subprocess", "secrets", "uuid"}


def package_of(file: Path) -> str:
    return file.relative_to(EXPERT).parts[0].removesuffix(".py")


def imports_of(file: Path) -> set[str]:
    """Full names of everything a module imports, also inside functions."""
    found: set[str] = set()
    for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            found |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{file}: relative imports hide where they lead"
            found.add(node.module or "")
    return found


@pytest.mark.parametrize("package", MAY_IMPORT)
def test_imports_run_one_way(package: str) -> None:
    files = [file for file in EXPERT.rglob("*.py") if package_of(file) == package]
    ours = {(file, name) for file in files for name in imports_of(file) if name.split(".")[0] == "expert"}
    assert files, f"no module of {package} was found"
    assert ours or package == "trade", f"{package} imports nothing of ours: is it judged at all?"
    wrong = [
        f"{file.relative_to(EXPERT)} imports {name}"
        for file, name in sorted(ours, key=str)
        if len(name.split(".")) > 1 and name.split(".")[1] not in MAY_IMPORT[package] | {package}
    ]
    assert not wrong


def test_every_package_is_in_the_table() -> None:
    present = {package_of(file) for file in EXPERT.rglob("*.py")} - {"__init__", "shipped"}
    assert present == set(MAY_IMPORT)


@pytest.mark.parametrize("place", PURE)
def test_engine_and_job_know_no_clock_no_files_no_chance(place: str) -> None:
    path = EXPERT / place
    files = [path] if path.is_file() else list(path.rglob("*.py"))
    assert files
    wrong = [f"{file.name} imports {name}" for file in files for name in imports_of(file) if name in IMPURE_MODULES]
    assert not wrong


def test_modules_are_short() -> None:
    long = {
        str(file.relative_to(EXPERT)): lines
        for file in EXPERT.rglob("*.py")
        if (lines := len(file.read_text(encoding="utf-8").splitlines())) > 300
    }
    assert not long


MAY_WRITE = {"cli/out.py"}


def test_commands_speak_through_one_way_out() -> None:
    """What is said may quote anybody's file: `cli/out.py` cleans it, so nothing in `cli` writes past it."""
    found = []
    for file in (EXPERT / "cli").glob("*.py"):
        if str(file.relative_to(EXPERT)) in MAY_WRITE:
            continue
        for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Call) and ast.unparse(node.func) in (
                "print",
                "click.echo",
                "click.secho",
                "sys.stdout.write",
                "sys.stderr.write",
            ):
                found.append(f"{file.name}:{node.lineno}")
    assert not found
