"""A drawing as it is shown: plain lines, with arrows below the words at which is tested."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace

from expert.language.model import Drawing

WHOLE_UP_TO = 3  # lines


def drawn_on_screen(drawing: Drawing) -> Iterable[str]:
    """The lines in which is tested, of a drawing of many; the whole of it is told by the word how."""
    marked = tuple(line for line in drawing.lines if _arrows(line, drawing.marks))
    return drawn(replace(drawing, lines=marked) if len(drawing.lines) > WHOLE_UP_TO and marked else drawing)


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
