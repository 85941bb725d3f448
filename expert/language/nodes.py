"""YAML text to light nodes with their places, straight from libyaml's events.

Every scalar stays text: `no`, `012`, `12:30` and `1e3` mean what the author sees. Nothing is ever constructed from a
tag. What YAML offers beyond plain lists, mappings and texts is refused here, each with its place.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any as Untyped

import yaml

from expert.language.model import Position
from expert.language.problems import Problem
from expert.language.text_check import forbidden_in, name_of

DEEPEST = 20
MOST_VALUES = 500_000

# libyaml where it is there, else the same events from the pure parser. Only the events are used, never a value.
_EventSource: Untyped = getattr(yaml, "CSafeLoader", yaml.SafeLoader)


class Scalar:
    """A text.

    `straight`: written on one line without quotes, so that a place within it can be told.
    `unreadable`: an alias stood here, already reported, so nothing more is to be said about it.
    """

    __slots__ = ("column", "line", "straight", "text", "unreadable")

    def __init__(self, text: str, line: int, column: int, straight: bool = False, unreadable: bool = False) -> None:
        self.text, self.line, self.column, self.straight, self.unreadable = text, line, column, straight, unreadable


class Items:
    """A list."""

    __slots__ = ("column", "items", "line")

    def __init__(self, line: int, column: int) -> None:
        self.items: list[Node] = []
        self.line, self.column = line, column


class Pairs:
    """A mapping; `entries` keeps each key's own node beside the value, for its place."""

    __slots__ = ("column", "entries", "line")

    def __init__(self, line: int, column: int) -> None:
        self.entries: dict[str, tuple[Scalar, Node]] = {}
        self.line, self.column = line, column


Node = Scalar | Items | Pairs


def place(path: str, node: Node) -> Position:
    """Where a node stands, counted from 1. Nodes count from 0 as YAML does; the 1 is added here and nowhere else."""
    return Position(path, node.line + 1, node.column + 1)


_HINTS = (
    ("mapping values are not allowed", "a text with ': ' in it must stand in quotes"),
    ("did not find expected ',' or", "a bracket is not closed, or a comma is missing"),
    ("expected ',' or", "a bracket is not closed, or a comma is missing"),
    ("did not find expected key", "the line does not line up with those above it"),
    ("expected <block end>", "the line does not line up with those above it"),
    ("did not find expected '-'", "the line does not line up with those above it"),
    ("could not find expected ':'", "a colon is missing, or a text over several lines must stand in quotes"),
    ("unexpected end of stream", "a quote is opened and not closed"),
    ("cannot start any token", "a text that begins with this character must stand in quotes"),
)


def read_nodes(path: str, text: str) -> tuple[Node | None, list[Problem]]:
    """The file's one document as nodes, with every problem found. None if it cannot be read as a whole."""
    grower = _Grower(path)
    try:
        grower.grow(text)
    except yaml.YAMLError as error:
        grower.problems.append(_not_yaml(path, error))
        return None, grower.problems
    if grower.given_up:
        return None, grower.problems
    if grower.root is None and not grower.problems:
        grower.problems.append(Problem(Position(path, 1, 1), "the file is empty", "empty-file"))
    return grower.root, grower.problems


def _not_yaml(path: str, error: yaml.YAMLError) -> Problem:
    mark = getattr(error, "problem_mark", None) or getattr(error, "context_mark", None)
    what = getattr(error, "problem", None) or getattr(error, "reason", None) or "it cannot be read"
    hint = next((f"; {say}" for part, say in _HINTS if part in what), "")
    line, column = (mark.line, mark.column) if mark else (0, 0)
    return Problem(place(path, Scalar("", line, column)), f"this is not YAML: {what}{hint}", "not-yaml")


class _Grower:
    """Builds the tree from the events of one file."""

    def __init__(self, path: str) -> None:
        self.path = path
        self.problems: list[Problem] = []
        self.root: Node | None = None
        self.given_up = False
        self.containers: list[Items | Pairs] = []
        self.keys: list[Scalar | None] = []  # per container: the key that waits for its value

    def refuse(self, node: Node, code: str, message: str) -> None:
        self.problems.append(Problem(place(self.path, node), message, code))

    def grow(self, text: str) -> None:
        values, documents = 0, 0
        for event in _events(text):
            kind = type(event)
            if kind is yaml.MappingEndEvent or kind is yaml.SequenceEndEvent:
                self.containers.pop()
                self.keys.pop()
                continue
            if kind is yaml.DocumentStartEvent:
                documents += 1
                if documents == 2:
                    self.refuse(_spot(event), "several-documents", "a second document starts here; one file is one")
                    return
                continue
            node = self.node_of(event, kind)
            if node is None:
                continue
            values += 1
            self.put(node)
            if kind is not yaml.ScalarEvent and kind is not yaml.AliasEvent:
                self.containers.append(node)  # type: ignore[arg-type]
                self.keys.append(None)
            if values > MOST_VALUES or len(self.containers) > DEEPEST:
                self.give_up(node, values)
                return

    def give_up(self, node: Node, values: int) -> None:
        self.given_up = True
        if values > MOST_VALUES:
            self.refuse(node, "too-many-values", f"the file holds more than {MOST_VALUES} values: split it")
        else:
            self.refuse(node, "too-deep", f"nested more than {DEEPEST} deep")

    def node_of(self, event: Untyped, kind: type) -> Node | None:
        mark = event.start_mark
        node: Node
        if kind is yaml.ScalarEvent:
            node = Scalar(event.value, mark.line, mark.column, not event.style and event.end_mark.line == mark.line)
            if event.style == '"' and (character := forbidden_in(event.value)):
                code = "tab" if character == "\t" else "control-character"
                self.refuse(node, code, f"the text holds the character {name_of(character)}; remove it")
        elif kind is yaml.MappingStartEvent:
            node = Pairs(mark.line, mark.column)
        elif kind is yaml.SequenceStartEvent:
            node = Items(mark.line, mark.column)
        elif kind is yaml.AliasEvent:
            node = Scalar("", mark.line, mark.column, unreadable=True)
            self.refuse(node, "alias", f"'*{event.anchor}' is an alias; write the value out")
            return node
        else:
            return None
        if event.anchor is not None:
            self.refuse(node, "anchor", f"'&{event.anchor}' is an anchor; write the value out where it is wanted")
        if event.tag is not None:
            self.refuse(node, "tag", f"'{_short_tag(event.tag)}' is a tag; leave it out")
        return node

    def put(self, node: Node) -> None:
        """Hang the node where it belongs: as root, list item, key, or the value of the key that waits."""
        if not self.containers:
            self.root = node
            return
        parent = self.containers[-1]
        if type(parent) is Items:
            parent.items.append(node)
            return
        key = self.keys[-1]
        if key is None:
            self.keys[-1] = self.as_key(node)
            return
        self.keys[-1] = None
        assert type(parent) is Pairs
        if key.text in parent.entries:
            first = parent.entries[key.text][0].line + 1
            message = f"'{key.text}' stands twice in this mapping; it is already on line {first}"
            self.refuse(key, "duplicate-key", message)
        elif not key.unreadable:
            parent.entries[key.text] = (key, node)

    def as_key(self, node: Node) -> Scalar:
        if type(node) is Scalar:
            return node
        self.refuse(node, "not-a-key", "a list or a mapping stands where a key is wanted")
        return Scalar("", node.line, node.column, unreadable=True)


def _events(text: str) -> Iterator[Untyped]:
    source = _EventSource(text)
    try:
        while (event := source.get_event()) is not None:
            yield event
            if type(event) is yaml.StreamEndEvent:
                return
    finally:
        source.dispose()


def _spot(event: Untyped) -> Scalar:
    return Scalar("", event.start_mark.line, event.start_mark.column)


def _short_tag(tag: str) -> str:
    return tag.replace("tag:yaml.org,2002:", "!!")
