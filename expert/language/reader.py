"""Reading the fields of records: each call gives a typed value or reports a problem and gives a harmless stand-in.

A record whose reading reported anything is left out, and is known by name all the same: one mistake, one message.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterable, Iterator, Mapping
from types import MappingProxyType

from expert.language.model import Position
from expert.language.names import Names
from expert.language.nodes import Items, Node, Pairs, Scalar, place
from expert.language.problems import Problem
from expert.language.shapes import YES_NO, Shape

_SNAKE_CASE = re.compile(r"[a-z][a-z0-9]*(?:_[a-z0-9]+)*\Z")
_PLAIN_NUMBER = re.compile(r"[0-9]+(?:\.[0-9]+)?\Z")
_NOTHING: Mapping[str, str] = MappingProxyType({})


def is_snake_case(text: str) -> bool:
    """Small letters, digits and single underscores, a letter first.

    >>> is_snake_case("fill_coil"), is_snake_case("Fill-coil"), is_snake_case("2nd")
    (True, False, False)
    """
    return len(text) <= 80 and _SNAKE_CASE.match(text) is not None


def shape_of(node: Node) -> str:
    """What a node is, in the words of a message."""
    if type(node) is Scalar:
        return f"'{_shortened(node.text)}'"
    return "a list" if type(node) is Items else "a mapping"


def _shortened(text: str) -> str:
    return text if len(text) <= 60 else text[:57] + "..."


class Reader:
    """Reads one file: knows its path and all names, and collects problems. `refusals` only ever grows."""

    __slots__ = ("names", "path", "problems", "refusals")

    def __init__(self, path: str, names: Names, problems: list[Problem]) -> None:
        self.path, self.names, self.problems = path, names, problems
        self.refusals = 0

    def at(self, node: Node) -> Position:
        return place(self.path, node)

    def refuse(self, node: Node, code: str, message: str) -> None:
        """Report a problem, unless the node has been reported already."""
        self.refusals += 1
        if not (type(node) is Scalar and node.unreadable):
            self.problems.append(Problem(place(self.path, node), message, code))

    def refuse_within(self, node: Scalar, offset: int, code: str, message: str) -> None:
        """Report a problem at a place within a text, if the text stands in the file as it is read."""
        column = node.column + offset if node.straight else node.column
        self.refuse(Scalar(node.text, node.line, column, unreadable=node.unreadable), code, message)

    def pairs(self, node: Node, what: str) -> dict[str, tuple[Scalar, Node]]:
        """The entries of a mapping that must not be empty."""
        if type(node) is not Pairs:
            self.wrong_shape(node, what, "a mapping (key: value)")
            return {}
        if not node.entries:
            self.refuse(node, "empty-value", f"{what} is empty")
        return node.entries

    def items(self, node: Node, what: str) -> list[Node]:
        """The items of a list that must not be empty."""
        if type(node) is not Items:
            self.wrong_shape(node, what, "a list ([one, two])")
            return []
        if not node.items:
            self.refuse(node, "empty-value", f"{what} is empty")
        return node.items

    def one_or_more(self, node: Node, what: str) -> list[Node]:
        """A list's items, or the one value that stands there without brackets."""
        return [node] if type(node) is Scalar else self.items(node, what)

    def text(self, node: Node, what: str) -> str:
        """A text that must not be empty."""
        if type(node) is not Scalar:
            self.wrong_shape(node, what, "a text")
            return ""
        text = node.text.strip()
        if not text:
            self.refuse(node, "empty-value", f"{what} is empty")
        return text

    def wrong_shape(self, node: Node, what: str, wanted: str) -> None:
        if type(node) is Scalar and not node.text.strip():
            self.refuse(node, "empty-value", f"{what} is empty; {wanted} is wanted")
        else:
            self.refuse(node, "wrong-shape", f"{what} is {shape_of(node)}; {wanted} is wanted")

    def word(self, node: Node, what: str, words: Iterable[str]) -> str:
        """One of a closed set of words."""
        text = self.text(node, what)
        choices = tuple(words)
        if text and text not in choices:
            near = self.names.did_you_mean(text, choices)
            self.refuse(node, "unknown-word", f"{what} is '{_shortened(text)}'; it may be {', '.join(choices)}{near}")
        return text if text in choices else ""

    def name(self, node: Node, space: str) -> str:
        """An id that must have been given in a space (question, complaint ...); nothing if it is not known."""
        text = self.text(node, f"the name of a {space}")
        known = self.names.places[space]
        if text in known:
            return text
        if text and space in self.names.incomplete:
            self.refusals += 1
        elif space == "fault" and text in self.names.faults_of:
            faults = ", ".join(f"{text}.{fault}" for fault in self.names.faults_of[text])
            self.refuse(node, "unknown-name", f"'{text}' is a part; one of its faults is wanted here: {faults}")
        elif text:
            instead = self.names.instead(text, known)
            self.refuse(node, "unknown-name", f"there is no {space} '{_shortened(text)}'{instead}")
        return ""

    def distinct(self, nodes: Iterable[Node]) -> Iterator[Node]:
        """The nodes whose text did not stand before; the others are reported."""
        seen: set[str] = set()
        for node in nodes:
            if type(node) is Scalar and node.text in seen:
                self.refuse(node, "said-twice", f"'{_shortened(node.text)}' stands twice in this list")
                continue
            if type(node) is Scalar:
                seen.add(node.text)
            yield node

    def outcomes(self, node: Node, fact: str) -> tuple[str, ...]:
        """One outcome of a known fact, or a list of them."""
        known = self.names.outcomes.get(fact)
        found = []
        for item in self.distinct(self.one_or_more(node, f"the outcome of {fact}")):
            text = self.text(item, f"the outcome of {fact}")
            if not text:
                continue
            if known is not None and text not in known:
                near = self.names.did_you_mean(text, known)
                has = f"it has {', '.join(known)}{near}"
                self.refuse(item, "unknown-outcome", f"'{_shortened(text)}' is not an outcome of {fact}; {has}")
            found.append(text)
        if known is None:
            self.refusals += 1
        return tuple(found)


class Record:
    """One mapping read by its shape. Unknown and missing keys are reported at once."""

    __slots__ = ("_entries", "node", "reader", "shape")

    def __init__(self, reader: Reader, node: Node, shape: Shape, at: Node | None = None) -> None:
        self.reader, self.node, self.shape = reader, node, shape
        self._entries = reader.pairs(node, shape.what)
        if not self._entries:
            return
        meant = set()
        for key, (key_node, _) in self._entries.items():
            if key not in shape.required and key not in shape.optional:
                near = reader.names.nearest(key, list(shape.keys))
                meant.add(near)
                instead = f"did you mean {near}?" if near else f"it may have {', '.join(shape.keys)}"
                reader.refuse(key_node, "unknown-key", f"'{_shortened(key)}' is not a key of {shape.what}; {instead}")
        for key in shape.required:
            if key not in self._entries and key not in meant:
                reader.refuse(at or node, "missing-key", f"{shape.what} must have '{key}'")

    def node_of(self, key: str) -> Node | None:
        entry = self._entries.get(key)
        return entry[1] if entry else None

    def key_node(self, key: str) -> Node:
        entry = self._entries.get(key)
        return entry[0] if entry else self.node

    @property
    def written(self) -> Iterable[str]:
        """The keys that are there, in the author's order."""
        return self._entries

    def text(self, key: str) -> str:
        node = self.node_of(key)
        return self.reader.text(node, f"'{key}'") if node is not None else ""

    def texts(self, key: str) -> tuple[str, ...]:
        """A list of texts, or one text; none if the key is not there. An empty list is a list."""
        return tuple(self.reader.text(item, f"an entry of '{key}'") for item in self.list_of(key))

    def list_of(self, key: str) -> list[Node]:
        """The values under a key: several in a list, or one without brackets, or none."""
        node = self.node_of(key)
        if node is None or (type(node) is Items and not node.items):
            return []
        return self.reader.one_or_more(node, f"'{key}'")

    def names(self, key: str, space: str) -> tuple[str, ...]:
        """Ids that must have been given in a space."""
        found = [self.reader.name(item, space) for item in self.reader.distinct(self.list_of(key))]
        return tuple(name for name in found if name)

    def word(self, key: str, words: Iterable[str]) -> str:
        node = self.node_of(key)
        return self.reader.word(node, f"'{key}'", words) if node is not None else ""

    def number(self, key: str) -> float | None:
        """A plain number, 0 or above, with a decimal point if need be; None if the key is not there."""
        node = self.node_of(key)
        if node is None:
            return None
        text = self.reader.text(node, f"'{key}'")
        if text and (len(text) > 20 or not _PLAIN_NUMBER.match(text) or not math.isfinite(float(text))):
            message = f"'{key}' is '{_shortened(text)}'; a plain number is wanted, as in 2 or 2.5"
            self.reader.refuse(node, "not-a-number", message)
            return 0.0
        return float(text) if text else 0.0

    def yes(self, key: str) -> bool:
        """Yes or no; no if the key is not there."""
        node = self.node_of(key)
        if node is None:
            return False
        text = self.reader.text(node, f"'{key}'")
        if text and text not in YES_NO:
            self.reader.refuse(node, "not-yes-or-no", f"'{key}' is '{_shortened(text)}'; write yes or no")
        return text == "yes"

    def state(self, key: str) -> Mapping[str, str]:
        """Bench dimensions, each with one of its states; empty if the key is not there."""
        node = self.node_of(key)
        if node is None or (type(node) is Pairs and not node.entries):
            return _NOTHING
        return read_state(self.reader, node, f"'{key}'")

    def states(self, key: str) -> Mapping[str, tuple[str, ...]]:
        """Bench dimensions, each with the states of which any will do; empty if the key is not there."""
        node = self.node_of(key)
        if node is None or (type(node) is Pairs and not node.entries):
            return MappingProxyType({})
        return read_states(self.reader, node, f"'{key}'")


def read_states(reader: Reader, node: Node, what: str) -> Mapping[str, tuple[str, ...]]:
    """A mapping of bench dimensions, each to one of its states or a list of them."""
    found = {}
    for key, (key_node, value) in reader.pairs(node, what).items():
        if reader.name(key_node, "bench dimension"):
            found[key] = tuple(_states(reader, value, key))
    return MappingProxyType(found)


def read_state(reader: Reader, node: Node, what: str) -> Mapping[str, str]:
    """A mapping of bench dimensions, each to one of its states."""
    state: dict[str, str] = {}
    for key, (key_node, value) in reader.pairs(node, what).items():
        if not reader.name(key_node, "bench dimension"):
            continue
        if type(value) is Scalar:
            state.update((key, found) for found in _states(reader, value, key))
        else:
            reader.wrong_shape(value, f"the state of {key}", "one state")
    return MappingProxyType(state)


def _states(reader: Reader, node: Node, dimension: str) -> Iterator[str]:
    known = reader.names.states.get(dimension, ())
    for item in reader.distinct(reader.one_or_more(node, f"the state of {dimension}")):
        text = reader.text(item, f"the state of {dimension}")
        if known and text and text not in known:
            near = reader.names.did_you_mean(text, known)
            has = f"it has {', '.join(known)}{near}"
            reader.refuse(item, "unknown-outcome", f"'{_shortened(text)}' is not a state of {dimension}; {has}")
        yield text
