"""Slips of the pen, planted in the shipped rules: which kinds there are, and whether `expert check` sees one.

A slip is made in the data of one file; the file is then written anew, so that the place of the slip can be found again.
Kinds that follow from the key table (a key misspelt, a required key deleted, an id or outcome misspelt) are made from
it; what changes the meaning stands in `slips_of_meaning.py`.
"""

from __future__ import annotations

import copy
import random
import re
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from expert.language.keys import FILES, Shape, kinds
from expert.language.load import Trees, read_rules
from expert.language.problems import Problem, RulesRefused
from expert.language.yaml.nodes import Items, Node, Pairs
from expert.language.yaml.tree import read_nodes
from expert.language.yaml.writing import yaml_text
from expert.workbench.checks import advice
from expert.workbench.proofs import unproved

RULES = Path(__file__).parents[2] / "rules"
Files = dict[str, Any]  # path -> the file as plain data
Way = tuple[str | int, ...]  # how to get to a value within a file


@dataclass(frozen=True, slots=True)
class Place:
    """A record in a file: `way` leads to it, `shape` says what it is."""

    path: str
    way: Way
    shape: Shape

    def record(self, files: Files) -> dict[str, Any]:
        found = files[self.path]
        for step in self.way:
            found = found[step]
        assert isinstance(found, dict)
        return found


@dataclass(frozen=True, slots=True)
class Kind:
    """A kind of slip: where it can be made, and how. `make` changes the record; False: not here."""

    name: str
    shape: str
    make: Callable[[dict[str, Any], random.Random], bool]


@dataclass(frozen=True, slots=True)
class Slip:
    """One slip that was planted: the files with it, and the place of the record."""

    kind: Kind
    files: Mapping[str, str]
    place: Place


def plain(node: Node) -> Any:
    if isinstance(node, Items):
        return [plain(item) for item in node.items]
    if isinstance(node, Pairs):
        return {key: plain(value) for key, (_, value) in node.entries.items()}
    return node.text


def shipped_files() -> Files:
    found = {}
    for file in sorted(RULES.rglob("*.yaml")):
        inner = file.relative_to(RULES).as_posix()
        if inner.startswith(("machines/", "circuits/")) or "/" not in inner:
            root, problems = read_nodes(inner, file.read_text(encoding="utf-8"))
            assert root is not None and not problems
            found[inner] = plain(root)
    return found


def sort_of(path: str) -> str:
    folder, slash, _ = path.partition("/")
    return {"machines": "machine", "circuits": "circuit"}[folder] if slash else path.removesuffix(".yaml")


def places(files: Files) -> list[Place]:
    """Every record of every file."""
    return [place for path in files for place in _within(files[path], path, (), FILES[sort_of(path)])]


def _within(data: Any, path: str, way: Way, shape: Shape) -> Iterator[Place]:
    if not isinstance(data, dict):
        return
    yield Place(path, way, shape)
    for key in shape.keys:
        value = data.get(key.name)
        if value is None:
            continue
        match key.kind:
            case kinds.Named(_, Shape() as inner):
                for name in value if isinstance(value, dict) else ():
                    yield from _within(value[name], path, (*way, key.name, name), inner)
            case kinds.Listed(inner):
                for number, item in enumerate(value):
                    yield from _within(item, path, (*way, key.name, number), inner)
            case kinds.One(shapes):
                fitting = [s for s in shapes if isinstance(value, dict) and set(value) & set(s.by_name)]
                for inner in fitting[:1]:
                    yield from _within(value, path, (*way, key.name), inner)


# ---------------------------------------------------------------- kinds made from the key table


def table_kinds(files: Files) -> list[Kind]:
    """For each key that the shipped rules use: misspelt, deleted, and with an id or outcome in it misspelt."""
    used = {(place.shape, key) for place in places(files) for key in place.record(files)}
    found = []
    for shape in sorted({shape for shape, _ in used}, key=lambda shape: shape.what):
        for key in shape.keys:
            if (shape, key.name) not in used:
                continue
            found.append(Kind(f"{shape.what}: '{key.name}' misspelt", shape.what, _misspelt_key(key.name)))
            if key.required:
                found.append(Kind(f"{shape.what}: '{key.name}' deleted", shape.what, _deleted(key.name)))
            own = isinstance(key.kind, kinds.Id) and key.kind.own
            if isinstance(key.kind, _NAMES) and not own:
                name = f"{shape.what}: a name in '{key.name}' misspelt"
                found.append(Kind(name, shape.what, _misspelt_name(key.name)))
    return found


_NAMES = (kinds.Ids, kinds.Id, kinds.Outcomes, kinds.Holds, kinds.Machines, kinds.State)


def typo(word: str, chance: random.Random) -> str:
    """Two letters swapped, one left out, or one doubled; never the word itself."""
    if len(word) < 2:
        return word + word
    at = chance.randrange(len(word) - 1)
    made = chance.choice(
        [word[:at] + word[at + 1] + word[at] + word[at + 2 :], word[:at] + word[at + 1 :], word[: at + 1] + word[at:]]
    )
    return made if made != word else word + word[-1]


def _misspelt_key(key: str) -> Callable[[dict[str, Any], random.Random], bool]:
    def make(record: dict[str, Any], chance: random.Random) -> bool:
        wrong = typo(key, chance)
        if key not in record or wrong in record:
            return False
        entries = [(wrong if name == key else name, value) for name, value in record.items()]
        record.clear()
        record.update(entries)
        return True

    return make


def _deleted(key: str) -> Callable[[dict[str, Any], random.Random], bool]:
    return lambda record, chance: record.pop(key, None) is not None


def _misspelt_name(key: str) -> Callable[[dict[str, Any], random.Random], bool]:
    def make(record: dict[str, Any], chance: random.Random) -> bool:
        value = record.get(key)
        if isinstance(value, str) and value:
            record[key] = typo(value, chance) + "x"
        elif isinstance(value, list) and value and isinstance(value[0], str):
            at = chance.randrange(len(value))
            record[key] = [*value[:at], typo(value[at], chance) + "x", *value[at + 1 :]]
        elif isinstance(value, dict) and value:
            name = chance.choice(list(value))
            record[key] = {(typo(n, chance) + "x" if n == name else n): v for n, v in value.items()}
        else:
            return False
        return True

    return make


# ---------------------------------------------------------------- planting and judging


def planted(files: Files, kind: Kind, chance: random.Random, where: list[Place]) -> Slip | None:
    """One slip of the kind, somewhere; None when no place will do."""
    fitting = [place for place in where if place.shape.what == kind.shape]
    chance.shuffle(fitting)
    for place in fitting:
        changed = {**files, place.path: copy.deepcopy(files[place.path])}
        if kind.make(place.record(changed), chance) and changed[place.path] != files[place.path]:
            return Slip(kind, {path: yaml_text(data) for path, data in changed.items()}, place)
    return None


class Judge:
    """Tells what `expert check` says of a slip that it does not say of the shipped rules."""

    def __init__(self, files: Files) -> None:
        self.trees: Trees = {}
        self.before = {_without_places(problem) for problem in self._found(texts_of(files))}

    def new(self, slip: Slip) -> list[Problem]:
        return [problem for problem in self._found(slip.files) if _without_places(problem) not in self.before]

    def at_its_place(self, slip: Slip, problems: list[Problem]) -> bool:
        """Whether one of them points into the record that was changed, or names it."""
        first, last = lines_of(slip)
        name = next((step for step in reversed(slip.place.way) if isinstance(step, str)), "")
        return any(
            (problem.at.path == slip.place.path and first <= problem.at.line <= last) or f"{name}" in problem.message
            for problem in problems
        )

    def _found(self, texts: Mapping[str, str]) -> tuple[Problem, ...]:
        try:
            base = read_rules(texts, self.trees)
            return (*unproved(base), *advice(base))
        except RulesRefused as refused:
            return refused.problems


def texts_of(files: Files) -> dict[str, str]:
    return {path: yaml_text(data) for path, data in files.items()}


def _without_places(problem: Problem) -> tuple[str, str]:
    return problem.code, re.sub(r"\S+\.yaml:\d+:\d+", "", problem.message)


def lines_of(slip: Slip) -> tuple[int, int]:
    """The lines that the changed record takes up."""
    root, _ = read_nodes(slip.place.path, slip.files[slip.place.path])
    node: Node | None = root
    end = slip.files[slip.place.path].count("\n") + 1
    start = 1
    for step in slip.place.way:
        if isinstance(node, Pairs) and step in node.entries:
            names = list(node.entries)
            at = names.index(str(step))
            start = node.entries[str(step)][0].line + 1
            end = node.entries[names[at + 1]][0].line if at + 1 < len(names) else end
            node = node.entries[str(step)][1]
        elif isinstance(node, Items) and isinstance(step, int):
            start = node.items[step].line + 1
            end = node.items[step + 1].line if step + 1 < len(node.items) else end
            node = node.items[step]
    return start, max(start, end)
