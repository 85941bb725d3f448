"""A drawing as it is shown: plain lines, with arrows below the words at which is tested."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from expert.language.model import Drawing


def drawn(drawing: Drawing) -> Iterable[str]:
    """The lines; below each one with a mark a line with the arrows.

    >>> for line in drawn(Drawing(("tank > filter > pump", "pump > group"), ("filter",))):
    ...     print(line)
    tank > filter > pump
           ^^^^^^
    pump > group
    """
    for line in drawing.lines:
        yield line
        if arrows := _arrows(line, drawing.marks):
            yield arrows


def _arrows(line: str, marks: Sequence[str]) -> str:
    below = [" "] * len(line)
    for mark in marks:
        start = line.find(mark)
        if start >= 0:
            below[start : start + len(mark)] = "^" * len(mark)
    return "".join(below).rstrip()
