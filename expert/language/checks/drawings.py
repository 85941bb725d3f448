"""A drawing fits the narrowest screen, names parts that there are, and has each mark in one place."""

from __future__ import annotations

import re
from collections.abc import Iterable

from expert.language.model import Drawing
from expert.language.problems import Problem
from expert.language.reading.draft import Draft

CODES = {
    "drawing-too-wide": "A line of the drawing is wider than the narrowest screen leaves room for.",
    "unknown-part-in-drawing": "The drawing names a part in brackets that there is not.",
    "mark-not-in-drawing": "The words that a mark points to do not stand in the drawing, or stand there twice.",
}
WIDEST = 57  # of the 60 columns of the narrowest screen
PART = re.compile(r"\[([^\]]*)\]")


def check(draft: Draft) -> Iterable[Problem]:
    """What is wrong with each drawing."""
    # A part that was itself refused, or stands in a file that could not be read, proves nothing.
    lost = "part" in draft.names.incomplete or bool(draft.names.places["part"].keys() - draft.parts.keys())
    parts = None if lost else {part.name for part in draft.parts.values()}
    for question in draft.questions.values():
        if question.drawing is None:
            continue
        for within, message, code in _wrong(question.drawing, parts):
            at = draft.place("question", question.id, "drawing", within)
            yield Problem(at, message, code)


def _wrong(drawing: Drawing, parts: set[str] | None) -> Iterable[tuple[str, str, str]]:
    for line in drawing.lines:
        if len(line) > WIDEST:
            message = f"the line is {len(line)} columns wide; a drawing may have {WIDEST}: {line}"
            yield "lines", message, "drawing-too-wide"
        for name in PART.findall(line):
            if parts is not None and name not in parts:
                message = f"'[{name}]' is no part's name; without brackets it is plain text"
                yield "lines", message, "unknown-part-in-drawing"
    for mark in drawing.marks:
        found = sum(line.count(mark) for line in drawing.lines)
        if found != 1:
            where = "does not stand in the drawing" if not found else f"stands {found} times in the drawing"
            yield "marks", f"'{mark}' {where}; a mark points to one place", "mark-not-in-drawing"
