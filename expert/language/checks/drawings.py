"""A drawing fits the narrowest screen, names parts that there are, and has each mark in one place."""

from __future__ import annotations

import re
from collections.abc import Iterable

from expert.language.model import Drawing
from expert.language.problems import Problem
from expert.language.reading.draft import Draft
from expert.language.sentences import checks as say

CODES = {
    "drawing-too-wide": say.DRAWING_TOO_WIDE,
    "unknown-part-in-drawing": say.UNKNOWN_PART_IN_DRAWING,
    "mark-not-in-drawing": say.MARK_NOT_IN_DRAWING,
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
            message = say.line_too_wide(len(line), WIDEST, line)
            yield "lines", message, "drawing-too-wide"
        for name in PART.findall(line):
            if parts is not None and name not in parts:
                message = say.no_part_of_that_name(name)
                yield "lines", message, "unknown-part-in-drawing"
    for mark in drawing.marks:
        found = sum(line.count(mark) for line in drawing.lines)
        if found != 1:
            where = say.NOT_IN_THE_DRAWING if not found else say.stands_several_times(found)
            yield "marks", say.mark_points_nowhere(mark, where), "mark-not-in-drawing"
