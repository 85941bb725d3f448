"""Every kind of prompt has one owner, and nobody else asks what kind a prompt is."""

from __future__ import annotations

import ast
import inspect
from pathlib import Path
from typing import get_args

import pytest

from expert.job.prompts.owner import NOBODY, Owner
from expert.job.prompts.registry import OWNERS, owner_of
from expert.job.state.job import PHASES, Phase, PromptName
from expert.trace.records import PromptKind

EXPERT = Path(__file__).resolve().parents[2] / "expert"
# An unattended run names the prompt that refused a line; the witness stands in for hands, senior and workshop.
MAY_READ_THE_KIND = {"desk/unattended.py", "witness/playing.py"}
SUBJECTS = {"intake": "plate", "close": "note"}


def kinds() -> list[str]:
    names = [name for part in get_args(PromptName) for name in (get_args(part) or (part,))]
    assert set(get_args(PromptKind)) < set(names)
    return names


def readers_of_the_kind(source: str) -> int:
    """How often `....prompt.kind` is read."""
    return sum(
        isinstance(node, ast.Attribute)
        and node.attr == "kind"
        and (node.value.attr if isinstance(node.value, ast.Attribute) else getattr(node.value, "id", "")) == "prompt"
        for node in ast.walk(ast.parse(source))
    )


@pytest.mark.parametrize("kind", kinds())
def test_every_kind_has_its_owner(kind: str) -> None:
    owner = owner_of(kind, SUBJECTS.get(kind, ""))  # type: ignore[arg-type]
    assert owner in (*OWNERS, NOBODY)
    assert (owner is NOBODY) == (kind in ("", "done"))


def test_every_owner_stands_in_the_registry() -> None:
    def below(owner: type[Owner]) -> set[type[Owner]]:
        return {owner}.union(*(below(sub) for sub in owner.__subclasses__()))

    concrete = {owner for owner in below(Owner) if not inspect.isabstract(owner)}
    assert concrete == {type(owner) for owner in (*OWNERS, NOBODY)}


def test_an_owner_that_lacks_something_cannot_be_made() -> None:
    class Photo(Owner):
        def why(self, job: object) -> tuple[str, ...]:
            return ()

    with pytest.raises(TypeError, match="abstract method"):
        Photo()  # type: ignore[abstract]


def test_nobody_else_reads_what_kind_a_prompt_is() -> None:
    readers = {
        str(file.relative_to(EXPERT))
        for file in EXPERT.rglob("*.py")
        if readers_of_the_kind(file.read_text(encoding="utf-8"))
    }
    assert readers == MAY_READ_THE_KIND


def test_a_reader_would_be_found() -> None:
    assert readers_of_the_kind("if job.prompt.kind == 'move' or prompt.kind == 'repair': pass") == 2


def test_the_phases_stand_in_one_list_only() -> None:
    assert [phase.value for phase in PHASES] == ["intake", "make safe", "find", "repair", "prove", "close"]
    listed = {
        str(file.relative_to(EXPERT)): node.lineno
        for file in EXPERT.rglob("*.py")
        for node in ast.walk(ast.parse(file.read_text(encoding="utf-8")))
        if isinstance(node, ast.Tuple | ast.List | ast.Dict | ast.Set)
        and sum(
            isinstance(part, ast.Attribute) and part.attr in Phase.__members__ for part in ast.iter_child_nodes(node)
        )
        > 2
    }
    assert not listed


# Who declares a measurement, who reads it from a file, and who looks at nothing but measurements.
MAY_LOOK_FOR_A_MEASURE = {
    "language/model/questions.py",
    "language/records/questions.py",
    "language/checks/instrument_kinds.py",
    "workbench/checks/numbers.py",
    "witness/answering.py",
}


def measures_looked_for(source: str) -> int:
    return sum(isinstance(node, ast.Attribute) and node.attr == "measure" for node in ast.walk(ast.parse(source)))


def test_everybody_else_matches_the_form_of_a_question() -> None:
    """So that the type checker names every place that a new form has to reach."""
    looking = {
        str(file.relative_to(EXPERT))
        for file in EXPERT.rglob("*.py")
        if measures_looked_for(file.read_text(encoding="utf-8"))
    }
    assert looking <= MAY_LOOK_FOR_A_MEASURE
    assert measures_looked_for("if question.measure is None: pass") == 1
