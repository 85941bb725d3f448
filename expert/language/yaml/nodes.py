"""The light nodes of a rule file: texts, lists and mappings, each with its place. Made by `tree.py`."""

from __future__ import annotations

from expert.language.model import Position


class Scalar:
    """A text.

    `straight`: written on one line without quotes, so that a place within it can be told.
    `unreadable`: an alias stood here, already reported, so nothing more is to be said about it.
    `path`: the file it stands in, where that is another than the one that is being read (an entry of a named list).
    """

    __slots__ = ("column", "line", "path", "straight", "text", "unreadable")

    def __init__(self, text: str, line: int, column: int, straight: bool = False, unreadable: bool = False) -> None:
        self.text, self.line, self.column, self.straight, self.unreadable = text, line, column, straight, unreadable
        self.path = ""


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
    own = node.path if type(node) is Scalar else ""
    return Position(own or path, node.line + 1, node.column + 1)
