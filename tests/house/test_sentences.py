"""What a package says stands in its `sentences` and nowhere else.

Engine, machine and witness speak to no user: what they refuse is a fault of the program that called them.
"""

from __future__ import annotations

import ast
import re
from collections.abc import Collection, Iterator
from fnmatch import fnmatch
from pathlib import Path

import pytest

EXPERT = Path(__file__).resolve().parents[2] / "expert"
MOST_WORDS = 3  # a literal of more is something that is said
# Package -> sentences that there are at least, so that no rule is held by finding none.
PACKAGES = {
    "job": 200,
    "desk": 50,
    "terminal": 30,
    "cli": 20,
    "trace": 90,
    "shop": 90,
    "practice": 60,
    "workbench": 200,
    "language": 200,
    "trade": 40,
}
SPEAK_TO_NO_USER = {"engine", "machine", "witness"}
# Said by nobody: words of customers that are looked for; names of the simulated machine's faults and signs; keys
# of a file and calculations of the trade, each with its one sentence; a fault of the program; columns of a database;
# lines of a drawing.
NOT_SAID = {
    "language/keys/*.py",
    "job/answers/complaint_search.py",
    "desk/profile/keys.py",
    "desk/compiled.py",
    "practice/levels.py",
    "practice/told.py",
    "trace/schema.py",
    "shop/sums/tables.py",
    "shop/sums/names.py",
    "trade/figures/of_*.py",
    "workbench/picture.py",
}
# A plain text beside a calculation names a value or its source; only what is put together is said.
BESIDE_A_CALCULATION = ("trade/physics/*.py", "trade/sensors/*.py", "trade/limits/*.py")
QUERY = re.compile(r"\s*(SELECT|CREATE|INSERT|WITH|UPDATE|DELETE|COPY|FROM|WHERE|coalesce)\b")


def not_said(tree: ast.AST) -> set[int]:
    """Docstrings, patterns, types, and the help of an option, which stands beside it as a command's docstring does."""
    found = set()
    for node in ast.walk(tree):
        if isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant):
            found.add(id(node.value))
        if isinstance(node, ast.AnnAssign) and ast.unparse(node.annotation) == "TypeAlias":
            found.add(id(node.value))
        if isinstance(node, ast.Call) and ast.unparse(node.func) == "re.compile":
            found |= {id(part) for argument in node.args for part in ast.walk(argument)}
        if isinstance(node, ast.keyword) and node.arg == "help":
            found |= {id(part) for part in ast.walk(node.value)}
    return found


def lies_in(patterns: Collection[str], name: str) -> bool:
    return any(fnmatch(name, pattern) for pattern in patterns)


def sentences_in(source: str, plain_too: bool = True) -> Iterator[tuple[int, str]]:
    """The literals of more than a few words, each with its line; what is put in counts as a word."""
    tree = ast.parse(source)
    left_out = not_said(tree)
    for node in ast.walk(tree):
        if isinstance(node, ast.JoinedStr):
            left_out |= {id(part) for part in node.values}
    for node in ast.walk(tree):
        if id(node) in left_out:
            continue
        text = ""
        if plain_too and isinstance(node, ast.Constant) and isinstance(node.value, str):
            text = node.value
        elif isinstance(node, ast.JoinedStr):
            text = "".join(str(part.value) if isinstance(part, ast.Constant) else "X" for part in node.values)
        if len(text.split()) > MOST_WORDS and not QUERY.match(text):
            yield getattr(node, "lineno", 0), text


def sentence_files(package: str) -> list[Path]:
    """One module, or a folder of them."""
    folder = EXPERT / package
    return [file for file in (folder / "sentences.py", *sorted((folder / "sentences").glob("*.py"))) if file.is_file()]


ALL_SENTENCE_FILES = [file for package in PACKAGES for file in sentence_files(package)]


@pytest.mark.parametrize("package", PACKAGES)
def test_no_sentence_stands_outside(package: str) -> None:
    modules = sorted(set((EXPERT / package).rglob("*.py")) - set(sentence_files(package)))
    assert len(modules) > 10
    found = [
        f"{name}:{line}: {text}"
        for file in modules
        if not lies_in(NOT_SAID, name := file.relative_to(EXPERT).as_posix())
        for line, text in sentences_in(file.read_text("utf-8"), not lies_in(BESIDE_A_CALCULATION, name))
    ]
    assert not found


def test_no_package_is_forgotten() -> None:
    assert {file.parent.name for file in EXPERT.glob("*/__init__.py")} == set(PACKAGES) | SPEAK_TO_NO_USER


def test_a_sentence_would_be_found() -> None:
    lines = (
        '"""What this is about here."""',
        'say("Pull the plug now.")',
        'say(f"The {part} is too hot.")',
        "re.compile('a b c d')",
        "option(help='What it is good for.')",
        'ask("SELECT one FROM the others")',
    )
    source = "\n".join(lines)
    assert list(sentences_in(source)) == [(2, "Pull the plug now."), (3, "The X is too hot.")]


@pytest.mark.parametrize("name", sorted(NOT_SAID))
def test_what_is_left_out_is_needed(name: str) -> None:
    assert any(list(sentences_in(file.read_text("utf-8"))) for file in EXPERT.glob(name))


@pytest.mark.parametrize("file", ALL_SENTENCE_FILES, ids=lambda file: file.relative_to(EXPERT).as_posix())
def test_sentences_decide_nothing(file: Path) -> None:
    """They may be translated by whoever knows no program: names and functions of one return, no import of ours."""
    for node in ast.parse(file.read_text("utf-8")).body:
        match node:
            case ast.FunctionDef(body=[ast.Return()]) | ast.Assign() | ast.AnnAssign() | ast.Expr():
                continue
            case ast.ImportFrom(module=("__future__" | "collections.abc")):
                continue
        pytest.fail(f"{file.name}:{node.lineno}: {ast.unparse(node)}")


@pytest.mark.parametrize("package", PACKAGES)
def test_every_sentence_is_said(package: str) -> None:
    """A sentence that nobody says any more is thrown away."""
    said = {
        node.attr if isinstance(node, ast.Attribute) else node.id
        for file in (EXPERT / package).rglob("*.py")
        for node in ast.walk(ast.parse(file.read_text("utf-8")))
        if isinstance(node, ast.Attribute) or (isinstance(node, ast.Name) and isinstance(node.ctx, ast.Load))
    }
    named = {
        name
        for file in sentence_files(package)
        for node in ast.parse(file.read_text("utf-8")).body
        for name in (
            [node.name]
            if isinstance(node, ast.FunctionDef)
            else [node.target.id]
            if isinstance(node, ast.AnnAssign) and isinstance(node.target, ast.Name)
            else [target.id for target in node.targets if isinstance(target, ast.Name)]
            if isinstance(node, ast.Assign)
            else []
        )
    }
    assert len(named) >= PACKAGES[package]
    assert named - said == set()
