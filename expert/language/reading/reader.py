"""Reading the fields of records: each call gives a typed value or reports a problem and gives a harmless stand-in.

A record whose reading reported anything is left out, and is known by name all the same: one mistake, one message.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from types import MappingProxyType

from expert.language.model import Position
from expert.language.problems import Problem
from expert.language.reading.names import Names
from expert.language.sentences import reading as say
from expert.language.yaml.nodes import Items, Node, Pairs, Scalar, place

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
        return f"'{shortened(node.text)}'"
    return "a list" if type(node) is Items else "a mapping"


def shortened(text: str) -> str:
    """The text, cut to a length that a message can bear."""
    return text if len(text) <= 60 else text[:57] + "..."


class Reader:
    """Reads one file: knows its path and all names, and collects problems. `refusals` only ever grows.

    `within`: the named conditions that are being read, each used by the one before it.
    """

    __slots__ = ("names", "path", "problems", "refusals", "within")

    def __init__(self, path: str, names: Names, problems: list[Problem], within: tuple[str, ...] = ()) -> None:
        self.path, self.names, self.problems, self.within = path, names, problems, within
        self.refusals = 0

    def at(self, node: Node) -> Position:
        return place(self.path, node)

    def refuse(self, node: Node, code: str, message: str) -> None:
        """Report a problem, unless the node has been reported already."""
        self.refusals += 1
        if not (type(node) is Scalar and node.unreadable):
            self.problems.append(Problem(place(self.path, node), message, code))

    def refuse_once(self, node: Node, code: str, message: str) -> None:
        """Report a problem; where the same was said of this file, its first place is enough."""
        self.refusals += 1
        if not any(
            told.at.path == self.path and (told.code, told.message) == (code, message) for told in self.problems
        ):
            self.problems.append(Problem(place(self.path, node), message, code))

    def refuse_within(self, node: Scalar, offset: int, code: str, message: str) -> None:
        """Report a problem at a place within a text, if the text stands in the file as it is read."""
        column = node.column + offset if node.straight else node.column
        self.refuse(Scalar(node.text, node.line, column, unreadable=node.unreadable), code, message)

    def pairs(self, node: Node, what: str) -> dict[str, tuple[Scalar, Node]]:
        """The entries of a mapping that must not be empty."""
        if type(node) is not Pairs:
            self.wrong_shape(node, what, say.A_MAPPING)
            return {}
        if not node.entries:
            self.refuse(node, "empty-value", f"{what} is empty")
        return node.entries

    def items(self, node: Node, what: str) -> list[Node]:
        """The items of a list that must not be empty; a named list in it stands for its own."""
        if type(node) is not Items:
            self.wrong_shape(node, what, say.A_LIST)
            return []
        if not node.items:
            self.refuse(node, "empty-value", f"{what} is empty")
        if not any(type(item) is Pairs and "list" in item.entries for item in node.items):
            return node.items
        return [found for item in node.items for found in self._unfolded(item)]

    def one_or_more(self, node: Node, what: str) -> list[Node]:
        """A list's items, or the one value that stands there without brackets."""
        if type(node) is Scalar:
            return [node]
        return self._unfolded(node) if type(node) is Pairs and "list" in node.entries else self.items(node, what)

    def _unfolded(self, node: Node) -> list[Node]:
        """The entries of the list that `{list: NAME}` names; another node as it is."""
        if type(node) is not Pairs or list(node.entries) != ["list"]:
            return [node]
        named = node.entries["list"][1]
        name = self.name(named, "list")
        if not name:
            return []
        self.names.mentions["list", name].append(self.at(named))
        return list(self.names.lists[name])

    def text(self, node: Node, what: str) -> str:
        """A text that must not be empty."""
        if type(node) is not Scalar:
            self.wrong_shape(node, what, "a text")
            return ""
        text = node.text.strip()
        if not text:
            self.refuse(node, "empty-value", f"{what} is empty")
        elif node.straight and text.endswith('"') and text.count('"') == 1 and not text[-2:-1].isdecimal():
            # After a digit it is a sign for inches.
            self.refuse(node, "stray-quote", say.quote_never_opened(what))
        return text

    def wrong_shape(self, node: Node, what: str, wanted: str) -> None:
        if type(node) is Scalar and not node.text.strip():
            self.refuse(node, "empty-value", say.is_empty(what, wanted))
        else:
            self.refuse(node, "wrong-shape", say.is_not_as_wanted(what, shape_of(node), wanted))

    def word(self, node: Node, what: str, words: Iterable[str]) -> str:
        """One of a closed set of words."""
        text = self.text(node, what)
        choices = tuple(words)
        if text and text not in choices:
            near = self.names.did_you_mean(text, choices)
            self.refuse(node, "unknown-word", say.may_be_one_of(what, shortened(text), ", ".join(choices), near))
        return text if text in choices else ""

    def name(self, node: Node, space: str) -> str:
        """An id that must have been given in a space (question, complaint ...); nothing if it is not known."""
        text = self.text(node, say.the_name_of(space))
        known = self.names.places[space]
        if text in known:
            return text
        if text and space in self.names.incomplete:
            self.refusals += 1
        elif space == "fault" and text in self.names.faults_of:
            faults = ", ".join(f"{text}.{fault}" for fault in self.names.faults_of[text])
            self.refuse(node, "unknown-name", say.part_for_a_fault(text, faults))
        elif text:
            instead = self.names.instead(text, known)
            self.refuse(node, "unknown-name", say.there_is_no(space, shortened(text), instead))
            if not known:  # Their file is missing or empty: saying so once is enough.
                self.names.incomplete.add(space)
        return ""

    def names_of_any(self, nodes: Iterable[Node], spaces: tuple[str, ...]) -> tuple[str, ...]:
        """Ids of which each was given in one of these spaces."""
        found = []
        for node in self.distinct(nodes):
            text = self.text(node, say.the_name_of(" or ".join(spaces)))
            if any(text in self.names.places[space] for space in spaces):
                found.append(text)
            elif text and any(space in self.names.incomplete for space in spaces):
                self.refusals += 1
            elif text:
                known = {name for space in spaces for name in self.names.places[space]}
                what, instead = " or ".join(spaces), self.names.instead(text, known)
                self.refuse(node, "unknown-name", say.there_is_no(what, shortened(text), instead))
        return tuple(found)

    def distinct(self, nodes: Iterable[Node]) -> Iterator[Node]:
        """The nodes whose text did not stand before; the others are reported."""
        seen: set[str] = set()
        for node in nodes:
            if type(node) is Scalar and node.text in seen:
                self.refuse(node, "said-twice", say.stands_twice(shortened(node.text)))
                continue
            if type(node) is Scalar:
                seen.add(node.text)
            yield node

    def outcomes(self, node: Node, fact: str) -> tuple[str, ...]:
        """One outcome of a known fact, or a list of them."""
        known = self.names.outcomes.get(fact)
        found = []
        for item in self.distinct(self.one_or_more(node, say.the_outcome_of(fact))):
            text = self.text(item, say.the_outcome_of(fact))
            if not text:
                continue
            if known is not None and text not in known:
                near = self.names.did_you_mean(text, known)
                has = f"it has {', '.join(known)}{near}"
                self.refuse(item, "unknown-outcome", say.is_no_outcome(shortened(text), fact, has))
            found.append(text)
        if known is None:
            self.refusals += 1
        return tuple(found)
