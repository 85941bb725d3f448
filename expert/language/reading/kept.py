"""What the files of a folder were read as, kept from one reading to the next: only what an edit touches is read anew.

The records of a circuit's file rest on its own text, on the names that all files give, on the text of the cautions and
on the head of its circuit. As long as these are the same, and nothing was wrong with any of it, they are used again.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable
from dataclasses import dataclass, field, fields
from pathlib import PurePosixPath
from typing import Any as Untyped

from expert.language.model import Circuit, Position
from expert.language.problems import Problem
from expert.language.reading.draft import Draft
from expert.language.reading.names import Names
from expert.language.reading.reader import Reader
from expert.language.yaml.nodes import Node

Read = Callable[[Reader, Node, Draft], None]


@dataclass(slots=True)
class Trees:
    """By path: a file's text with what it was parsed as, and the records that it was read as."""

    parsed: dict[str, tuple[str, str, Node | None, tuple[Problem, ...]]] = field(default_factory=dict)
    read: dict[str, Records] = field(default_factory=dict)

    def copy(self) -> Trees:
        """The same, to be kept up to date by itself."""
        return Trees(dict(self.parsed), dict(self.read))


@dataclass(frozen=True, slots=True)
class Records:
    """The records of one file, and all that the reading rested on.

    `mentions`: where it names conditions and lists; `mentioned`: what these were, node by node.
    """

    root: Node
    footing: Untyped
    draft: Draft
    mentions: dict[tuple[str, str], list[Position]]
    mentioned: dict[tuple[str, str], Untyped]

    def hold(self, root: Node, footing: Untyped, names: Names) -> bool:
        """Whether all that they rest on is as it was: then they would be read the same again."""
        return (
            self.root is root
            and self.footing == footing
            and all(_named(names, *key) == nodes for key, nodes in self.mentioned.items())
        )


def read_circuit_file(read: Read, path: str, root: Node, draft: Draft, problems: list[Problem], kept: Trees) -> None:
    """Read one file of a circuit into the draft, or take what is kept of it."""
    before = kept.read.get(path)
    footing = _footing(draft, draft.circuit_of.get(str(PurePosixPath(path).parent)))
    if before is None or not before.hold(root, footing, draft.names):
        so_far = len(problems)
        before = _read_anew(read, path, root, draft, problems, footing)
        kept.read.pop(path, None)
        if len(problems) == so_far:
            kept.read[path] = before
    for name in _OF_A_CIRCUIT:
        getattr(draft, name).update(getattr(before.draft, name))
    for named, places in before.mentions.items():
        draft.names.mentions[named] += places


def _read_anew(read: Read, path: str, root: Node, draft: Draft, problems: list[Problem], footing: Untyped) -> Records:
    names, told = draft.names, draft.names.mentions
    names.mentions = defaultdict(list)
    own = Draft(names, cautions=draft.cautions, circuit_of=dict(draft.circuit_of))
    read(Reader(path, names, problems), root, own)
    mentions, names.mentions = names.mentions, told
    return Records(root, footing, own, mentions, {key: _named(names, *key) for key in mentions})


def _footing(draft: Draft, circuit: Circuit | None) -> Untyped:
    """All that the reading of a sound file rests on beside its text."""
    names: Names = draft.names
    return (
        {space: set(places) for space, places in names.places.items()},
        *(dict(getattr(names, name)) for name in ("outcomes", "faults_of", "states", "kinds", "words")),
        set(names.incomplete),
        {name: caution.text for name, caution in draft.cautions.items()},
        circuit,
    )


def _named(names: Names, space: str, name: str) -> Untyped:
    return names.conditions.get(name) if space == "condition" else list(names.lists.get(name, ()))


# What a file of a circuit adds to; the rest of a draft comes from other files.
_OF_A_CIRCUIT = tuple(f.name for f in fields(Draft) if f.name not in ("names", "cautions", "bench"))
