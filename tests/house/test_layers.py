"""Imports between the packages run one way; and the test cannot pass by finding nothing to judge."""

from __future__ import annotations

import ast
from collections.abc import Iterable, Mapping
from pathlib import Path

import pytest

EXPERT = Path(__file__).resolve().parents[2] / "expert"

JOB = {"trace", "engine", "language", "trade"}
DESK = {"job"} | JOB
MAY_IMPORT: dict[str, set[str]] = {
    "trade": set(),
    "language": {"trade"},
    "engine": {"language", "trade"},
    "trace": {"engine", "language", "trade"},
    "job": JOB,
    "desk": DESK,
    "terminal": {"desk"} | DESK,
    "machine": {"trade"},
    "witness": {"machine", "desk"} | DESK,
    "workbench": {"witness", "machine", "desk"} | DESK,
    "shop": {"terminal", "desk"} | DESK,
    "practice": {"witness", "machine", "terminal", "desk"} | DESK,
    "cli": {"practice", "witness", "workbench", "shop", "machine", "terminal", "desk"} | DESK,
}
TO_COME = {"practice"}  # may be missing; are held to the table from their first module on
# Folders of the job, each may import those before it.
IN_THE_JOB = (
    "sentences",
    "state",
    "wording",
    "answers",
    "bench",
    "search",
    "prompts",
    "figures",
    "commands",
    "beginning",
    "steps",
)
PURE = ("engine", "job", "machine")
IMPURE_MODULES = {
    "time",
    "datetime",
    "random",
    "os",
    "pathlib",
    "socket",
    "subprocess",
    "secrets",
    "uuid",
    "tempfile",
    "shutil",
    "threading",
    "io",
    "sys",
    "importlib",
}
MODULES = {
    ".".join(("expert", *file.relative_to(EXPERT).with_suffix("").parts)).removesuffix(".__init__"): file
    for file in EXPERT.rglob("*.py")
}


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


def ours_among(file: Path) -> set[str]:
    """The modules of ours that a module imports, down to the very module where a package's name alone is given."""
    found: set[str] = set()
    for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            found |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom) and node.module:
            inside = {f"{node.module}.{alias.name}" for alias in node.names}
            found |= (inside & set(MODULES)) or {node.module}
    return found & set(MODULES)


IMPORTS = {name: ours_among(file) for name, file in MODULES.items()}


def reached_from(names: Iterable[str], imports: Mapping[str, set[str]]) -> set[str]:
    """These modules and all that they import, and what those import."""
    seen: set[str] = set()
    waiting = list(names)
    while waiting:
        name = waiting.pop()
        if name not in seen:
            seen.add(name)
            waiting += imports[name]
    return seen


def circles(imports: Mapping[str, set[str]]) -> list[str]:
    """The modules that lead back to themselves."""
    return sorted(name for name in imports if name in reached_from(imports[name], imports))


@pytest.mark.parametrize("package", MAY_IMPORT)
def test_imports_run_one_way(package: str) -> None:
    files = [file for file in MODULES.values() if package_of(file) == package]
    ours = {(file, name) for file in files for name in imports_of(file) if name.split(".")[0] == "expert"}
    if package in TO_COME and not files:
        pytest.skip("not there yet")
    assert files, f"no module of {package} was found"
    assert ours or package == "trade", f"{package} imports nothing of ours: is it judged at all?"
    wrong = [
        f"{file.relative_to(EXPERT)} imports {name}"
        for file, name in sorted(ours, key=str)
        if len(name.split(".")) > 1 and name.split(".")[1] not in MAY_IMPORT[package] | {package}
    ]
    assert not wrong


@pytest.mark.parametrize("folder", IN_THE_JOB)
def test_inside_the_job_imports_run_one_way_too(folder: str) -> None:
    allowed = IN_THE_JOB[: IN_THE_JOB.index(folder) + 1]
    names = [name for name in MODULES if name.startswith(f"expert.job.{folder}")]
    assert names
    wrong = [
        f"{name} imports {other}"
        for name in names
        for other in IMPORTS[name]
        if other.startswith("expert.job.") and other.split(".")[2] not in allowed
    ]
    assert not wrong
    assert {name.split(".")[2] for name in MODULES if name.startswith("expert.job.")} == set(IN_THE_JOB)


def test_no_imports_run_in_a_circle_not_even_inside_functions() -> None:
    assert circles(IMPORTS) == []


def test_a_circle_would_be_found() -> None:
    assert circles({"a": {"b"}, "b": {"c"}, "c": {"b"}, "d": set()}) == ["b", "c"]


def test_every_package_is_in_the_table() -> None:
    present = {package_of(file) for file in EXPERT.rglob("*.py")} - {"__init__", "shipped"}
    assert set(MAY_IMPORT) - TO_COME <= present <= set(MAY_IMPORT)


def impurities(names: Iterable[str]) -> list[str]:
    return [
        f"{name} imports {other}" for name in names for other in imports_of(MODULES[name]) if other in IMPURE_MODULES
    ]


@pytest.mark.parametrize("package", PURE)
def test_engine_job_and_machine_know_no_clock_no_files_no_chance(package: str) -> None:
    """Nor does anything that they import."""
    names = [name for name in MODULES if package_of(MODULES[name]) == package]
    if package in TO_COME and not names:
        pytest.skip("not there yet")
    assert names
    assert impurities(sorted(reached_from(names, IMPORTS))) == []


def test_impure_imports_would_be_found() -> None:
    assert impurities(reached_from(["expert.desk.pinning"], IMPORTS))


def test_modules_are_short() -> None:
    long = {
        str(file.relative_to(EXPERT)): lines
        for file in EXPERT.rglob("*.py")
        if (lines := len(file.read_text(encoding="utf-8").splitlines())) > 300
    }
    assert not long


def test_commands_speak_through_one_way_out() -> None:
    """What is said may quote anybody's file: `terminal/out.py` cleans it, so nothing in `cli` writes past it."""
    found = []
    for file in (EXPERT / "cli").glob("*.py"):
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
