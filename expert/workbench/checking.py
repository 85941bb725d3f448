"""One look at a rule base: what refuses it, or the advice on it; in words, as data, and again after each edit."""

from __future__ import annotations

import gc
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from expert.language.folder import files_in
from expert.language.load import load_rules
from expert.language.model import RuleBase
from expert.language.problems import Problem, RulesRefused
from expert.language.reading.kept import Trees
from expert.trade.counting import counted
from expert.workbench.checks import CODES, advice
from expert.workbench.checks.machines import way_to
from expert.workbench.index import Index
from expert.workbench.proofs import unproved
from expert.workbench.sentences import rules as say
from expert.workbench.ways import answers_of


@dataclass(frozen=True, slots=True)
class Look:
    """What was found. `base` is None where rules are refused; `problems` says why, or which confirm is not proved."""

    base: RuleBase | None
    problems: tuple[Problem, ...]
    advice: tuple[Problem, ...]


def look_at(folder: Path, with_advice: bool = True, trees: Trees | None = None) -> Look:
    """Read and check a folder of rule files. `trees`: what was read before; only edits are parsed anew."""
    try:
        base = load_rules(folder, trees)
    except RulesRefused as refused:
        return Look(None, refused.problems, ())
    index = Index(base)
    return Look(base, tuple(unproved(base, index.opener)), advice(base, index) if with_advice else ())


def in_a_line(look: Look) -> str:
    """The sum of it."""
    if look.base is None:
        return say.rules_not_used(counted(len(look.problems), "problem"))
    base = look.base
    return say.checked(
        counted(len(base.rules), "rule"),
        counted(len(base.questions), "question"),
        counted(len(base.faults), "fault"),
        counted(len(base.parts), "part"),
        counted(len(look.problems), "problem") if look.problems else "no problem",
        counted(len(look.advice), "piece of advice", "pieces of advice"),
    )


def as_data(look: Look) -> dict[str, Any]:
    """For other programs: `refused`, `problems` and `advice` (path, line, column, code, message), and `counts`."""
    base = look.base
    counted_kinds = ("rules", "questions", "faults", "parts", "findings", "machines", "circuits")
    return {
        "refused": base is None,
        "problems": [_problem_data(problem) for problem in look.problems],
        "advice": [_problem_data(problem) for problem in look.advice],
        "counts": {} if base is None else {kind: len(getattr(base, kind)) for kind in counted_kinds},
    }


def _problem_data(problem: Problem) -> dict[str, Any]:
    at = problem.at
    return {
        "path": at.path,
        "line": at.line,
        "column": at.column,
        "code": problem.code,
        "message": problem.message,
        "is_advice": problem.code in CODES,
    }


def witnesses(base: RuleBase) -> Iterator[str]:
    """For each machine and fault, the answers that find it, or that there are none."""
    index = Index(base)
    for machine in base.machines.values():
        yield f"{machine.id}:"
        for fault in index.faults_on(machine):
            way = way_to(index, machine, fault.id)
            answers = {} if way is None else {f: o for f, o in way.items() if not f.startswith("machine.")}
            yield f"  {fault.id}: {say.NO_ANSWERS_LEAD_TO_IT if way is None else answers_of(answers)}"


def looks(folder: Path, with_advice: bool, wait: Callable[[], None]) -> Iterator[Look]:
    """A look now, and one after every edit of a file in the folder; `wait` is called between two glances."""
    trees = Trees()
    before: dict[str, tuple[int, int]] | None = None
    while True:
        now = _stamps(folder)
        if now != before:
            before = now
            with _uncollected():
                look = look_at(folder, with_advice, trees)
            yield look
        wait()


@contextmanager
def _uncollected() -> Iterator[None]:
    """Without the collector of unused objects: all that a look makes is in use to its end."""
    was = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was:
            gc.enable()


def _stamps(folder: Path) -> dict[str, tuple[int, int]]:
    """When each file was last written, and its size."""
    found = {}
    for inner in files_in(folder, []) if folder.is_dir() else ():
        try:
            stat = (folder / inner).stat()
        except OSError:  # an editor that writes by renaming: the file is back at the next glance
            continue
        found[inner] = (stat.st_mtime_ns, stat.st_size)
    return found
