"""What the job says stands in `job/sentences/` and nowhere else."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest

JOB = Path(__file__).resolve().parents[2] / "expert" / "job"
SENTENCES = JOB / "sentences"
MOST_WORDS = 3  # a literal of more is something that is said
# Words that a customer may use, which are looked for and never said.
LISTS_OF_WORDS = {"answers/complaint_search.py"}


def not_said(tree: ast.AST) -> set[int]:
    """Docstrings and patterns."""
    found = set()
    for node in ast.walk(tree):
        if isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant):
            found.add(id(node.value))
        if isinstance(node, ast.Call) and ast.unparse(node.func) == "re.compile":
            found |= {id(part) for argument in node.args for part in ast.walk(argument)}
    return found


def sentences_in(source: str) -> Iterator[tuple[int, str]]:
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
        if isinstance(node, ast.Constant) and isinstance(node.value, str):
            text = node.value
        elif isinstance(node, ast.JoinedStr):
            text = "".join(str(part.value) if isinstance(part, ast.Constant) else "X" for part in node.values)
        if len(text.split()) > MOST_WORDS:
            yield node.lineno, text


def modules() -> list[Path]:
    return sorted(file for file in JOB.rglob("*.py") if SENTENCES not in file.parents)


def test_no_sentence_stands_outside() -> None:
    assert len(modules()) > 50
    found = [
        f"{name}:{line}: {text}"
        for file in modules()
        if (name := file.relative_to(JOB).as_posix()) not in LISTS_OF_WORDS
        for line, text in sentences_in(file.read_text("utf-8"))
    ]
    assert not found


def test_a_sentence_would_be_found() -> None:
    lines = (
        '"""What this is about here."""',
        'say("Pull the plug now.")',
        'say(f"The {part} is too hot.")',
        "re.compile('a b c d')",
    )
    source = "\n".join(lines)
    assert list(sentences_in(source)) == [(2, "Pull the plug now."), (3, "The X is too hot.")]


@pytest.mark.parametrize("file", sorted(SENTENCES.glob("[a-z]*.py")), ids=lambda file: file.stem)
def test_sentences_decide_nothing(file: Path) -> None:
    """They may be translated by whoever knows no program: names and functions of one return, no import of ours."""
    for node in ast.parse(file.read_text("utf-8")).body:
        match node:
            case ast.FunctionDef(body=[ast.Return()]) | ast.Assign() | ast.AnnAssign() | ast.Expr():
                continue
            case ast.ImportFrom(module=("__future__" | "collections.abc")):
                continue
        pytest.fail(f"{file.name}:{node.lineno}: {ast.unparse(node)}")


def test_every_sentence_is_said() -> None:
    """A sentence that nobody says any more is thrown away."""
    said = {
        node.attr if isinstance(node, ast.Attribute) else node.id
        for file in JOB.rglob("*.py")
        for node in ast.walk(ast.parse(file.read_text("utf-8")))
        if isinstance(node, ast.Attribute) or (isinstance(node, ast.Name) and isinstance(node.ctx, ast.Load))
    }
    named = {
        name
        for file in SENTENCES.glob("*.py")
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
    assert len(named) > 200
    assert named - said == set()
