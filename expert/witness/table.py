"""Reading the table of observations: which question is answered by what is done to and seen of the machine."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from expert.language.problems import Problem, RulesRefused
from expert.language.yaml.nodes import Items, Node, Pairs, Scalar, place
from expert.language.yaml.tree import read_nodes
from expert.machine import Action
from expert.witness.phrases import Asked, BadPhrase, action_of, observation_of

TAKES = ("highest", "lowest", "difference", "first", "rise", "swing", "last", "pair", "differs", "change")


@dataclass(frozen=True, slots=True)
class Line:
    """How one question is answered. `says`: the word, event or range seen -> outcome; empty: the number is typed.

    `track`: for a watch, the number of the machine that is followed. `until`: the event whose second is the answer.
    `take`: which of several numbers counts. `between`: done between two readings, for a change. `keep`: what was done
    stays; `undo`: nothing of it does, as drained water is poured back. `then`: another line, where this says nothing.
    `types`: what is typed whatever the machine, as what is stamped on a part. `at_most`: where a test is stopped.
    """

    do: tuple[Action, ...]
    observe: tuple[Asked, ...]
    says: Mapping[str, str]
    track: str = ""
    until: str = ""
    take: str = ""
    times: float = 1.0
    keep: bool = False
    between: tuple[Action, ...] = ()
    undo: bool = False
    then: tuple[Line, ...] = ()
    types: str = ""
    at_most: float = math.inf


@dataclass(frozen=True, slots=True)
class Table:
    """The table of one layout: `machine` is its type in the rules; lines by question.

    `faults`: by the machine's name of a fault, the rules' ids for it. `parts`: by a part of the rules, what is mended
    in the machine when that part is repaired. `complaints`: what is complained of where the rules have no such fault.
    `complains`: by the machine's word for what its owner notices, the complaints of the rules of which one says so.
    """

    machine: str
    lines: Mapping[str, Line]
    faults: Mapping[str, tuple[str, ...]]
    parts: Mapping[str, tuple[str, ...]]
    complaints: Mapping[str, tuple[str, ...]]
    complains: Mapping[str, tuple[str, ...]]


def load_table(file: Path) -> Table:
    """The table in a file. Raises RulesRefused with every problem."""
    problems: list[Problem] = []
    root, found = read_nodes(str(file), file.read_text(encoding="utf-8"))
    problems += found
    table = _Reader(str(file), problems).table(root) if root is not None else None
    if problems or table is None:
        raise RulesRefused(problems)
    return table


class _Reader:
    def __init__(self, path: str, problems: list[Problem]) -> None:
        self.path, self.problems = path, problems

    def refuse(self, node: Node, message: str) -> None:
        self.problems.append(Problem(place(self.path, node), message, "observation"))

    def table(self, root: Node) -> Table:
        entries = self.pairs(root)
        lines = {key: self.line(node) for key, node in self.pairs(entries.get("observations")).items()}
        faults = {key: self.texts(node) for key, node in self.pairs(entries.get("faults")).items()}
        parts = {key: self.texts(node) for key, node in self.pairs(entries.get("parts")).items()}
        complaints = {key: self.texts(node) for key, node in self.pairs(entries.get("complaints")).items()}
        complains = {key: self.texts(node) for key, node in self.pairs(entries.get("complains")).items()}
        machine = entries.get("machine")
        return Table(machine.text if isinstance(machine, Scalar) else "", lines, faults, parts, complaints, complains)

    def pairs(self, node: Node | None) -> dict[str, Node]:
        if isinstance(node, Pairs):
            return {key: value for key, (_, value) in node.entries.items()}
        if node is not None:
            self.refuse(node, "a mapping is wanted here")
        return {}

    def texts(self, node: Node | None) -> tuple[str, ...]:
        if isinstance(node, Items):
            return tuple(item.text for item in node.items if isinstance(item, Scalar))
        return (node.text,) if isinstance(node, Scalar) else ()

    def actions(self, node: Node | None) -> tuple[Action, ...]:
        made = []
        for phrase in self.texts(node):
            try:
                made.append(action_of(phrase))
            except BadPhrase as problem:
                assert node is not None
                self.refuse(node, str(problem))
        return tuple(made)

    def line(self, node: Node) -> Line:
        entries = self.pairs(node)
        observe = []
        for phrase in self.texts(entries.get("observe")):
            try:
                observe.append(observation_of(phrase))
            except BadPhrase as problem:
                self.refuse(node, str(problem))
        says = {key: value.text for key, value in self.pairs(entries.get("says")).items() if isinstance(value, Scalar)}

        def text(key: str) -> str:
            value = entries.get(key)
            return value.text if isinstance(value, Scalar) else ""

        take, then = text("take"), entries.get("then")
        if take and take not in TAKES:
            self.refuse(node, f"'{take}' is not a way to take a number; it is one of {', '.join(TAKES)}")
        if not observe and not text("types"):
            self.refuse(node, "a line observes something")
        return Line(
            self.actions(entries.get("do")),
            tuple(observe),
            says,
            text("track"),
            text("until"),
            take,
            float(text("times") or 1.0),
            text("keep") == "true",
            self.actions(entries.get("between")),
            text("undo") == "true",
            tuple(self.line(item) for item in then.items) if isinstance(then, Items) else (),
            text("types"),
            float(text("at_most") or math.inf),
        )
