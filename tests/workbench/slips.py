"""Slips of the pen, planted in the shipped rules: which kinds there are, and how one is planted.

A slip is made in the data of one file; the file is then written anew, so that the place of the slip can be found again.
Kinds that follow from the key table (a key misspelt, a required key deleted, an id or outcome misspelt) are made from
it; what changes the meaning stands in `slips_of_meaning.py`, and who sees them in `judging.py`.
"""

from __future__ import annotations

import copy
import difflib
import random
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from expert.language.keys import FILES, Shape, kinds
from expert.language.yaml.nodes import Items, Node, Pairs
from expert.language.yaml.tree import read_nodes
from expert.language.yaml.writing import yaml_text

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
    """One slip that was planted: the files with it, the place of the record, and the lines that read otherwise now."""

    kind: Kind
    files: Mapping[str, str]
    place: Place
    change: str = ""


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


# ---------------------------------------------------------------- planting


def planted(files: Files, texts: Mapping[str, str], kind: Kind, chance: random.Random) -> Slip | None:
    """One slip of the kind, somewhere; None when no place will do. `texts`: the files as they are written."""
    fitting = [place for place in places(files) if place.shape.what == kind.shape]
    chance.shuffle(fitting)
    for place in fitting:
        changed = {**files, place.path: copy.deepcopy(files[place.path])}
        if kind.make(place.record(changed), chance) and changed[place.path] != files[place.path]:
            text = yaml_text(changed[place.path])
            return Slip(kind, {**texts, place.path: text}, place, _difference(texts[place.path], text))
    return None


def _difference(before: str, after: str) -> str:
    """What was written and what stands there now, in one line."""
    lines = [line for line in difflib.ndiff(before.splitlines(), after.splitlines()) if line[0] in "+-"]
    return " ".join(f"{line[0]} {line[1:].strip()}" for line in lines[:6])


def texts_of(files: Files) -> dict[str, str]:
    return {path: yaml_text(data) for path, data in files.items()}


NAMED = ("rules", "questions", "faults", "parts", "findings", "feeds", "work_out", "moves", "cautions", "hazards")


def of_named(way: Way) -> Way:
    """The way to the record with an id that this one belongs to: a conclusion's rule, a repair's fault."""
    ends = [place + 2 for place, step in enumerate(way[:-1]) if step in NAMED]
    return way[: ends[-1]] if ends else way


def named_by(way: Way) -> str:
    """The id of that record."""
    return str(way[-1]) if (way := of_named(way)) else ""


def lines_of(slip: Slip) -> tuple[int, int]:
    """The lines that the record takes up to which the changed one belongs."""
    root, _ = read_nodes(slip.place.path, slip.files[slip.place.path])
    node: Node | None = root
    end = slip.files[slip.place.path].count("\n") + 1
    start = 1
    for step in of_named(slip.place.way):
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
