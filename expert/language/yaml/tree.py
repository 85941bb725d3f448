"""YAML text to light nodes with their places, straight from libyaml's events.

Every scalar stays text: `no`, `012`, `12:30` and `1e3` mean what the author sees. Nothing is ever constructed from a
tag. What YAML offers beyond plain lists, mappings and texts is refused here, each with its place.
"""

from __future__ import annotations

import re
from typing import Any as Untyped

import yaml

from expert.language.model import Position
from expert.language.problems import Problem
from expert.language.sentences import files as say
from expert.language.yaml.faults import not_yaml
from expert.language.yaml.nodes import Items, Node, Pairs, Scalar, place
from expert.language.yaml.text_check import forbidden_in, name_of

_GLUED = re.compile(r" *-[A-Za-z\"'{\[]")
DEEPEST = 20
MOST_VALUES = 500_000

# libyaml where it is there, else the same events from the pure parser. Only the events are used, never a value.
_EventSource: Untyped = getattr(yaml, "CSafeLoader", yaml.SafeLoader)


def read_nodes(path: str, text: str) -> tuple[Node | None, list[Problem]]:
    """The file's one document as nodes, with every problem found. None if it cannot be read as a whole."""
    grower = _Grower(path)
    try:
        grower.grow(text)
    except yaml.YAMLError as error:
        glued = _glued_dashes(path, text, _items_above(text, error))
        grower.problems += glued or [not_yaml(path, text, error, DEEPEST)]
        return None, grower.problems
    if grower.given_up:
        return None, grower.problems
    grower.problems += _glued_dashes(path, text, grower.run_on)
    if grower.root is None and not grower.problems:
        grower.problems.append(Problem(Position(path, 1, 1), say.EMPTY_FILE, "empty-file"))
    return grower.root, grower.problems


def _glued_dashes(path: str, text: str, run_on: list[tuple[int, int]]) -> list[Problem]:
    """List items whose dash has no space after it: YAML takes them for more of the text above."""
    lines = text.splitlines() if run_on else []
    found = [
        (number, len(line) - len(line.lstrip(" ")))
        for first, last in run_on
        for number, line in enumerate(lines[first : last + 1], first)
        if _GLUED.match(line)
    ]
    message = say.SPACE_AFTER_DASH_MISSING
    return [Problem(place(path, Scalar("", *at)), message, "glued-dash") for at in found]


def _items_above(text: str, error: yaml.YAMLError) -> list[tuple[int, int]]:
    """The items of the list in which the reading broke off: first and last line; none where it was in no list.

    A text that runs on from a glued dash breaks at the first item below it that is not plain.
    """
    mark = getattr(error, "problem_mark", None)
    lines = text.splitlines()
    if mark is None or mark.line >= len(lines):
        return []
    indent = _indent(lines[mark.line])
    first = mark.line
    while first > 0 and _indent(lines[first - 1]) == indent and lines[first - 1].lstrip().startswith("-"):
        first -= 1
    return [(first, mark.line)] if first < mark.line else []


def _indent(line: str) -> int:
    return len(line) - len(line.lstrip(" "))


class _GivenUp(Exception):
    """The file goes beyond a limit; what was read of it is of no use."""


class _Grower:
    """Builds the tree from the events of one file."""

    def __init__(self, path: str) -> None:
        self.path = path
        self.problems: list[Problem] = []
        self.root: Node | None = None
        self.given_up = False
        self.run_on: list[tuple[int, int]] = []  # plain texts over several lines: first and last line
        # The containers that are open, each with the key that waits for its value (mappings only).
        self.open: list[tuple[Items | Pairs, Scalar | None]] = []

    def refuse(self, node: Node, code: str, message: str) -> None:
        self.problems.append(Problem(place(self.path, node), message, code))

    def grow(self, text: str) -> None:
        source = _EventSource(text)
        try:
            self.follow(source.get_event)
        except _GivenUp:
            self.given_up = True
        finally:
            source.dispose()

    def follow(self, get_event: Untyped) -> None:
        """Walk through the events. Scalars, by far the most, are dealt with here; this loop is the reading time."""
        scalar, values = yaml.ScalarEvent, 0
        parent: Items | Pairs | None = None
        key: Scalar | None = None
        while True:
            event = get_event()
            kind = type(event)
            if kind is scalar:
                mark, style = event.start_mark, event.style
                line = mark.line
                node = Scalar(event.value, line, mark.column, not style and event.end_mark.line == line)
                if not style and event.end_mark.line != line:
                    self.run_on.append((line, event.end_mark.line))
                if style == '"' or event.anchor is not None or event.tag is not None:
                    self.inspect(event, node)
                values += 1
                if values > MOST_VALUES:
                    self.give_up(node, "too-many-values", say.too_many_values(MOST_VALUES))
                if type(parent) is not Pairs:
                    self.put(parent, None, node)
                elif key is None:
                    key = node
                else:
                    if key.text in parent.entries or key.unreadable:
                        self.put(parent, key, node)
                    else:
                        parent.entries[key.text] = (key, node)
                    key = None
            elif kind is yaml.MappingStartEvent or kind is yaml.SequenceStartEvent:
                parent, key = self.opened(event, parent, key)
            elif kind is yaml.MappingEndEvent or kind is yaml.SequenceEndEvent:
                parent, key = self.closed()
            elif kind is yaml.AliasEvent:
                key = self.alias(event, parent, key)
            elif kind is yaml.DocumentStartEvent and self.root is not None:
                self.refuse(_spot(event), "several-documents", say.SECOND_DOCUMENT)
                return
            elif kind is yaml.StreamEndEvent:
                return

    def opened(
        self, event: Untyped, parent: Items | Pairs | None, key: Scalar | None
    ) -> tuple[Items | Pairs, Scalar | None]:
        """A list or mapping begins: hang it in its parent and go on inside it."""
        mark = event.start_mark
        make = Pairs if type(event) is yaml.MappingStartEvent else Items
        node: Items | Pairs = make(mark.line, mark.column)
        self.inspect(event, node)
        if len(self.open) >= DEEPEST:
            self.give_up(node, "too-deep", say.too_deep(DEEPEST))
        if type(parent) is Pairs and key is None:
            self.refuse(node, "not-a-key", say.KEY_IS_NO_TEXT)
            key = Scalar("", node.line, node.column, unreadable=True)
            self.open.append((parent, key))
        else:
            self.put(parent, key, node)
            if parent is not None:
                self.open.append((parent, None))
            else:
                self.open.append((node, None))
        return node, None

    def closed(self) -> tuple[Items | Pairs, Scalar | None]:
        """A list or mapping ends: go on in its parent."""
        return self.open.pop()

    def alias(self, event: Untyped, parent: Items | Pairs | None, key: Scalar | None) -> Scalar | None:
        """An alias stands for a value, or for a key; gives the key that waits after it."""
        mark = event.start_mark
        node = Scalar("", mark.line, mark.column)
        self.refuse(node, "alias", say.is_an_alias(event.anchor))
        node.unreadable = True
        if type(parent) is Pairs and key is None:
            return node
        self.put(parent, key, node)
        return None

    def put(self, parent: Items | Pairs | None, key: Scalar | None, node: Node) -> None:
        """Hang a node where it belongs: as root, list item, or the value of a key."""
        if parent is None:
            self.root = node
        elif type(parent) is Items:
            parent.items.append(node)
        elif type(parent) is Pairs and key is not None and not key.unreadable:
            if key.text in parent.entries:
                first = parent.entries[key.text][0].line + 1
                message = say.key_stands_twice(key.text, first)
                self.refuse(key, "duplicate-key", message)
            else:
                parent.entries[key.text] = (key, node)

    def inspect(self, event: Untyped, node: Node) -> None:
        """Refuse anchors, tags, and characters that an escape in double quotes would smuggle in."""
        if event.anchor is not None:
            self.refuse(node, "anchor", say.is_an_anchor(event.anchor))
        if event.tag is not None:
            tag = event.tag.replace("tag:yaml.org,2002:", "!!")
            self.refuse(node, "tag", say.is_a_tag(tag))
        if type(node) is Scalar and (character := forbidden_in(node.text)):
            code = "tab" if character == "\t" else "control-character"
            self.refuse(node, code, say.forbidden_character(name_of(character)))

    def give_up(self, node: Node, code: str, message: str) -> None:
        self.refuse(node, code, message)
        raise _GivenUp


def _spot(event: Untyped) -> Scalar:
    return Scalar("", event.start_mark.line, event.start_mark.column)
