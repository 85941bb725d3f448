"""Bytes to text that is safe to read and to show: UTF-8, no tabs, no control characters, no bidirectional marks."""

from __future__ import annotations

import re

from expert.language.model import Position
from expert.language.problems import Problem
from expert.language.sentences import files as say

LARGEST_FILE = 4_000_000  # bytes

# C0 and C1 controls but for tab and newline, Unicode line breaks, marks that change the direction of reading (they can
# make a rule look different from what it says), whatever is not seen (zero width, soft hyphens, fillers, variation
# selectors, tags), halves of surrogate pairs.
_FORBIDDEN = re.compile(
    "[\x00-\x08\x0b-\x1f\x7f-\x9f\u00ad\u034f\u061c\u115f\u1160\u17b4\u17b5\u180b-\u180f\u200b-\u200f\u2028-\u202e"
    "\u2060-\u206f\u3164\ufe00-\ufe0f\ufeff\uffa0\ufff0-\uffff\ud800-\udfff\U000e0000-\U000e0fff]"
)
_FORBIDDEN_OR_TAB = re.compile(f"\t|{_FORBIDDEN.pattern}")


def decoded(path: str, data: bytes) -> tuple[str, list[Problem]]:
    """The text of a rule file; on a problem the text is empty."""
    if len(data) > LARGEST_FILE:
        return "", [_too_large(path, len(data))]
    try:
        return data.decode("utf-8-sig"), []
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        column = error.start - data.rfind(b"\n", 0, error.start)
        message = say.not_utf8(data[error.start])
        return "", [Problem(Position(path, line, column), message, "not-utf-8")]


def cleaned(path: str, text: str) -> tuple[str, list[Problem]]:
    """The text with plain line ends, and with a space for each character that must not stand in it.

    The spaces keep every other character in its place, so that reading can go on and find more.
    """
    if len(text) > LARGEST_FILE:
        return "", [_too_large(path, len(text))]
    text = text.removeprefix("\ufeff").replace("\r\n", "\n")
    if not _FORBIDDEN_OR_TAB.search(text):
        return text, []
    problems = []
    for number, line in enumerate(text.split("\n"), start=1):
        found = _FORBIDDEN_OR_TAB.search(line)
        if found:  # One per line will do: the next run shows the next.
            problems.append(_forbidden(Position(path, number, found.start() + 1), found.group()))
    return _FORBIDDEN_OR_TAB.sub(" ", text), problems


def forbidden_in(text: str) -> str:
    """The first character of a value that must not stand in it (written there as an escape), or nothing."""
    found = _FORBIDDEN_OR_TAB.search(text)
    return found.group() if found else ""


def name_of(character: str) -> str:
    """How a message names a character that cannot be seen."""
    return f"U+{ord(character):04X}"


def _too_large(path: str, size: int) -> Problem:
    message = say.file_too_large(size, LARGEST_FILE)
    return Problem(Position(path, 1, 1), message, "too-large")


def _forbidden(at: Position, character: str) -> Problem:
    if character == "\t":
        return Problem(at, say.A_TAB, "tab")
    return Problem(at, say.invisible_character(name_of(character)), "control-character")
