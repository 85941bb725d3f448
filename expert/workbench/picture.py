"""A picture of the rules as nodes and arrows, written for Graphviz or as Mermaid text."""

from __future__ import annotations

import re
import textwrap
from collections.abc import Iterator
from dataclasses import dataclass, field
from itertools import cycle

_WIDEST = 28  # characters in a line of a node


@dataclass(frozen=True, slots=True)
class Node:
    """`sort` decides the form: complaint, part, fault, question, rule, finding. `group`: the box it stands in."""

    id: str
    label: str
    sort: str
    group: str = ""


@dataclass(slots=True)
class Picture:
    """Nodes by id, arrows with their labels, and the titles of the boxes; in the order in which they were put in."""

    title: str
    nodes: dict[str, Node] = field(default_factory=dict)
    arrows: dict[tuple[str, str], str] = field(default_factory=dict)
    groups: dict[str, str] = field(default_factory=dict)

    def put(self, node: Node) -> str:
        self.nodes.setdefault(node.id, node)
        return node.id

    def arrow(self, start: str, end: str, label: str = "") -> None:
        there = self.arrows.get((start, end))
        self.arrows[start, end] = label if not there else ", ".join(dict.fromkeys([*there.split(", "), label]))


_GRAPHVIZ = {
    "complaint": 'shape=box style="rounded,filled" fillcolor="#fbe3d6"',
    "part": 'shape=box style=filled fillcolor="#dae9f8"',
    "fault": 'shape=box style="rounded,filled" fillcolor="#f6c6ad"',
    "question": 'shape=hexagon style=filled fillcolor="#e8f5d9"',
    "rule": 'shape=note style=filled fillcolor="#fff8d6"',
    "finding": 'shape=ellipse style=filled fillcolor="#efe6f7"',
    "feed": 'shape=cds style=filled fillcolor="#e6e6e6"',
}

# Arrows that leave one thing have one colour, so that the eye can follow them where many cross. Dark enough on white.
_ARROWS = ("#1b4f8a", "#a23b00", "#3a6b1f", "#7a2a8c", "#8a6d00", "#00697a", "#a0184a", "#555555")


def graphviz(picture: Picture) -> str:
    """The picture for `dot`."""
    lines = [
        "digraph rules {",
        f"  graph [rankdir=LR label={_quoted(picture.title)} labelloc=t fontname=Helvetica ranksep=0.9 nodesep=0.15]",
        "  node [fontname=Helvetica fontsize=10 margin=0.08]",
        '  edge [fontname=Helvetica fontsize=8 color="#666666"]',
    ]
    for number, (group, title) in enumerate(picture.groups.items()):
        lines += [f"  subgraph cluster_{number} {{", f'    label={_quoted(title)} style=rounded color="#999999"']
        lines += [f"    {_dot_node(node)}" for node in picture.nodes.values() if node.group == group]
        lines.append("  }")
    lines += [f"  {_dot_node(node)}" for node in picture.nodes.values() if not node.group]
    colours = dict(zip(dict.fromkeys(start for start, _ in picture.arrows), cycle(_ARROWS), strict=False))
    for (start, end), label in picture.arrows.items():
        told = f"label={_quoted(label)} " if label else ""
        lines.append(f'  {_quoted(start)} -> {_quoted(end)} [{told}color="{colours[start]}"]')
    return "\n".join([*lines, "}"])


def _dot_node(node: Node) -> str:
    return f"{_quoted(node.id)} [label={_quoted(_wrapped(node.label, chr(10)))} {_GRAPHVIZ[node.sort]}]"


def _quoted(text: str) -> str:
    inner = text.replace("\\", "\\\\").replace('"', '\\"').replace("\n", "\\n")
    return f'"{inner}"'


def _wrapped(text: str, newline: str) -> str:
    return newline.join(line for part in text.split("\n") for line in textwrap.wrap(part, _WIDEST) or [""])


_MERMAID = {
    "complaint": ("(", ")"),
    "part": ("[", "]"),
    "fault": ("([", "])"),
    "question": ("{{", "}}"),
    "rule": ("[/", "/]"),
    "finding": ("((", "))"),
    "feed": (">", "]"),
}


def mermaid(picture: Picture) -> str:
    """The picture as a Mermaid flowchart."""
    return "\n".join(_mermaid_lines(picture))


def _mermaid_lines(picture: Picture) -> Iterator[str]:
    yield "---"
    yield f"title: {_plain(picture.title)}"
    yield "---"
    yield "flowchart LR"
    names = {node: f"n{number}" for number, node in enumerate(picture.nodes)}
    for number, (group, title) in enumerate(picture.groups.items()):
        yield f'  subgraph g{number}["{_plain(title)}"]'
        for node in picture.nodes.values():
            if node.group == group:
                yield f"    {_mermaid_node(names[node.id], node)}"
        yield "  end"
    for node in picture.nodes.values():
        if not node.group:
            yield f"  {_mermaid_node(names[node.id], node)}"
    for (start, end), label in picture.arrows.items():
        yield f"  {names[start]} -->" + (f'|"{_plain(label)}"| ' if label else " ") + names[end]


def _mermaid_node(name: str, node: Node) -> str:
    left, right = _MERMAID[node.sort]
    return f'{name}{left}"{_plain(_wrapped(node.label, "<br>"))}"{right}'


def _plain(text: str) -> str:
    """Without the signs that Mermaid takes for its own."""
    return re.sub(r'["#;]', lambda found: {'"': "'", "#": "no.", ";": ","}[found[0]], text)
