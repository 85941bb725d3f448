"""A record: one mapping, read by its shape, field by field; and the bench states that fields hold."""

from __future__ import annotations

import math
import re
from collections.abc import Iterable, Iterator, Mapping
from types import MappingProxyType

from expert.language.keys import CIRCUIT_FILE, YES_NO, Shape, kinds
from expert.language.reading.reader import Reader, shortened
from expert.language.sentences import reading as say
from expert.language.yaml.nodes import Items, Node, Pairs, Scalar

_PLAIN_NUMBER = re.compile(r"[0-9]+(?:\.[0-9]+)?\Z")
_NOTHING: Mapping[str, str] = MappingProxyType({})


class Record:
    """One mapping read by its shape. Unknown and missing keys are reported at once."""

    __slots__ = ("_entries", "node", "reader", "shape")

    def __init__(self, reader: Reader, node: Node, shape: Shape, at: Node | None = None) -> None:
        self.reader, self.node, self.shape = reader, node, shape
        self._entries = reader.pairs(node, shape.what)
        if not self._entries:
            return
        if at is not None and (stray := _stray(self._entries, at, shape)):
            self._entries = {}
            reader.refuse_once(at, "stands-elsewhere", stray)
            return
        meant = set()
        for key, (key_node, value) in self._entries.items():
            if key not in shape.by_name:
                near = reader.names.nearest(key, list(shape.names))
                meant.add(near)
                instead = say.did_you_mean_key(near) if near else say.may_have_keys(", ".join(shape.names))
                if not near and type(value) is Scalar and not value.text:
                    instead = say.several_in_brackets(shortened(key))
                reader.refuse(key_node, "unknown-key", say.is_no_key(shortened(key), shape.what, instead))
        for key in shape.required:
            if key not in self._entries and key not in meant:
                reader.refuse(at or node, "missing-key", say.must_have_key(shape.what, key))

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
        return tuple(self.reader.text(item, say.an_entry_of(key)) for item in self.list_of(key))

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

    def name(self, key: str, space: str) -> str:
        """The id of something given in a space, or nothing."""
        node = self.node_of(key)
        return "" if node is None else self.reader.name(node, space)

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
            message = say.number_is_wanted(key, shortened(text))
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
            self.reader.refuse(node, "not-yes-or-no", say.yes_or_no_is_wanted(key, shortened(text)))
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

    def combinations(self, key: str) -> tuple[Mapping[str, str], ...]:
        """A list of combinations of bench states; none if the key is not there."""
        node = self.node_of(key)
        if node is None:
            return ()
        if type(node) is not Items:
            self.reader.wrong_shape(node, f"'{key}'", say.A_LIST_OF_STATES)
            return ()
        return tuple(read_state(self.reader, item, say.an_entry_of(key)) for item in node.items)


def _stray(entries: Mapping[str, object], at: Node, shape: Shape) -> str:
    """What is wrong where a record stands among others of another kind; '' where it does not.

    Then it lacks what they must have, and has all that another kind must have; or its name is a key of theirs.
    """
    wanted = set(shape.required)
    if wanted <= entries.keys():
        return ""
    if type(at) is Scalar and at.text in shape.by_name and entries.keys().isdisjoint(wanted):
        return say.key_among_names(at.text, shape.what)
    for key in CIRCUIT_FILE.keys:
        other = key.kind.holds if isinstance(key.kind, kinds.Named) else None
        must = set(other.required) if isinstance(other, Shape) else set()
        if isinstance(other, Shape) and must <= entries.keys() and not must <= shape.by_name.keys():
            return say.line_above_is_missing(other.what, shape.what, key.name)
    return ""


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
            reader.wrong_shape(value, say.the_state_of(key), "one state")
    return MappingProxyType(state)


def _states(reader: Reader, node: Node, dimension: str) -> Iterator[str]:
    known = reader.names.states.get(dimension, ())
    for item in reader.distinct(reader.one_or_more(node, say.the_state_of(dimension))):
        text = reader.text(item, say.the_state_of(dimension))
        if known and text and text not in known:
            near = reader.names.did_you_mean(text, known)
            has = f"it has {', '.join(known)}{near}"
            reader.refuse(item, "unknown-outcome", say.is_no_state(shortened(text), dimension, has))
        yield text
