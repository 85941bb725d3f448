"""A reply that is longer than the screen, in pages: nothing that has to be read scrolls away unread."""

from __future__ import annotations

from collections.abc import Sequence

# A line of the screen: its manner, and its text.
Line = tuple[str, str]
PROMPT_LINES = 4  # what stands below a page: the prompt, and the bottom lines
LEAST = 5  # lines on a page, on however small a screen


def pages(lines: Sequence[Line], rows: int) -> list[Sequence[Line]]:
    """The lines, page by page for a screen of so many rows; a question is not parted from its choices.

    >>> [len(page) for page in pages([("plain", "x")] * 30, 24)]
    [20, 10]
    >>> [len(page) for page in pages([("plain", "x")] * 18 + [("question", "?")] * 4, 24)]
    [18, 4]
    """
    room = max(rows - PROMPT_LINES, LEAST)
    found: list[Sequence[Line]] = []
    start = 0
    while len(lines) - start > room:
        end = _where_to_part(lines, start, start + room)
        found.append(lines[start:end])
        start = end
    return [*found, lines[start:]]


def _where_to_part(lines: Sequence[Line], start: int, end: int) -> int:
    """Before the question, or the line of which the rest would not fit, where a good part of the page is left."""
    at = end
    while at > start and lines[at][0] == "question" and lines[at - 1][0] == "question":
        at -= 1
    if lines[at][0] != "question":
        while at > start and lines[at][1].startswith("  "):
            at -= 1
    return at if at - start > (end - start) // 2 else end
