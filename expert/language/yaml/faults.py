"""What is wrong with a text that is no YAML, told at the place where its author went wrong.

The parser notices some slips far below: a quote that is not closed runs on to the next quote. On an error the text is
looked through once more for such a cause.
"""

from __future__ import annotations

import re
from typing import Any as Untyped

import yaml

from expert.language.model import Position
from expert.language.problems import Problem
from expert.language.yaml.indentation import moved_line
from expert.language.yaml.nodes import Scalar, place

_NOT_IN_LINE = "the line does not line up with those above it"
_BRACKET = "a bracket or a comma is missing, or a text with ': ' or a bracket in it must stand in quotes"
_HINTS = (
    ("mapping values are not allowed", "a text with ': ' in it must stand in quotes"),
    ("did not find expected ',' or", _BRACKET),
    ("expected ',' or", _BRACKET),
    ("did not find expected key", _NOT_IN_LINE),
    ("expected <block end>", _NOT_IN_LINE),
    ("did not find expected '-'", _NOT_IN_LINE),
    ("could not find expected ':'", "a colon is missing, or a text over several lines must stand in quotes"),
    ("unexpected end of stream", "a quote is opened and not closed"),
    ("mapping keys are not allowed", "a text that begins with ? must stand in quotes"),
    ("cannot start any token", "a text that begins with this character must stand in quotes"),
    ("expected node content", "a value is missing here, or a bracket above is not closed"),
    ("block sequence entries are not allowed", "a list with dashes begins on a line of its own"),
    ("expected comment or line break", "a text that begins with > or | must stand in quotes"),
)
_KEY_ONLY = re.compile(r"\s*(?:- )?[A-Za-z0-9_.]+\Z")
_NO_SPACE = re.compile(r"\s*(?:- )?[A-Za-z0-9_.]+:[^\s:]")


def not_yaml(path: str, text: str, error: yaml.YAMLError, deepest: int) -> Problem:
    """The problem with a text that the parser refused."""
    mark = getattr(error, "problem_mark", None) or getattr(error, "context_mark", None)
    what = getattr(error, "problem", None) or getattr(error, "reason", None) or "it cannot be read"
    line, column = (mark.line, mark.column) if mark else (0, 0)
    at = place(path, Scalar("", line, column))
    if "nesting depth" in what:  # libyaml has a limit of its own, and meets it before we see the events.
        return Problem(at, f"nested more than {deepest} deep", "too-deep")
    lines = text.splitlines()
    started = getattr(error, "context_mark", None) if "expected ':'" in what else None
    fault = _quote_fault(path, text, line, column) or (
        _line_fault(path, lines, what, line, column) if started is None else _key_fault(path, lines, started.line)
    )
    if "expected key" in what or "block end" in what:
        fault = _moved(path, lines, line) or fault
    if fault is not None:
        return Problem(*fault, "not-yaml")
    hint = next((f"; {say}" for part, say in _HINTS if part in what), "")
    return Problem(at, f"this is not YAML: {what}{hint}{_opened(error, line)}", "not-yaml")


def _opened(error: Untyped, line: int) -> str:
    """Where the bracket stands that the parser was still in, if that is another line."""
    context, start = getattr(error, "context", None) or "", getattr(error, "context_mark", None)
    if "flow" not in context or start is None or start.line == line:
        return ""
    return f"; the bracket was opened on line {start.line + 1}, column {start.column + 1}"


def _quote_fault(path: str, text: str, line: int, column: int) -> tuple[Position, str] | None:
    """A quote that is not closed, or one within quotes; None when neither is the cause."""
    opened = last_quoted = None
    try:
        for token in yaml.scan(text, getattr(yaml, "CSafeLoader", yaml.SafeLoader)):
            if isinstance(token, yaml.ScalarToken) and token.style in ("'", '"'):
                last_quoted = token
            elif isinstance(token, yaml.StreamEndToken) or token.start_mark.line > line:
                break
    except yaml.YAMLError as error:
        if "quoted scalar" in (getattr(error, "context", None) or ""):
            opened = getattr(error, "context_mark", None)
    if opened is not None:
        at = place(path, Scalar("", opened.line, opened.column))
        return at, "this is not YAML: the quote opened here is not closed"
    if last_quoted is None or (last_quoted.end_mark.line, last_quoted.end_mark.column) > (line, column):
        return None
    start, end = last_quoted.start_mark, last_quoted.end_mark
    if end.line != line or text.splitlines()[line][end.column : column].strip():
        return None
    at = place(path, Scalar("", start.line, start.column))
    if start.line != end.line:
        ends = f"the quote opened here runs on to line {end.line + 1}, column {end.column}"
        return at, f"this is not YAML: {ends}; the closing quote is missing"
    return at, (
        f"this is not YAML: the text in quotes ends in column {end.column}, and more follows; "
        "put quotes of the other sort around it"
    )


def _line_fault(path: str, lines: list[str], what: str, line: int, column: int) -> tuple[Position, str] | None:
    """A colon or its space missing on the line above, or a line that is indented wrongly; None for anything else."""
    above = _above(lines, line) if line < len(lines) else None
    if above is None:
        return None
    if "mapping values are not allowed" in what and _KEY_ONLY.match(lines[line][:column]):
        return _key_fault(path, lines, above) or _out_of_line(path, lines, line, above)
    if "expected key" in what and _indent(lines[line]) == column > _indent(lines[above]):
        return _out_of_line(path, lines, line, above)
    return None


def _moved(path: str, lines: list[str], line: int) -> tuple[Position, str] | None:
    """The line that lost its indentation, often far above the place where the parser notices."""
    moved = moved_line(lines, line)
    if moved is None or moved == line:
        return None
    at = place(path, Scalar("", moved, _indent(lines[moved])))
    return at, "this is not YAML: this line does not line up with those around it"


def _out_of_line(path: str, lines: list[str], line: int, above: int) -> tuple[Position, str]:
    """Of a line and the one above it, that which stands out from those around it."""
    before = _above(lines, above)
    wrong = above if before is not None and _indent(lines[before]) == _indent(lines[line]) else line
    at = place(path, Scalar("", wrong, _indent(lines[wrong])))
    return at, "this is not YAML: this line does not line up with those around it"


def _key_fault(path: str, lines: list[str], line: int) -> tuple[Position, str] | None:
    """The colon after a key, or the space after it, that is missing on this line; None if both are there."""
    at = place(path, Scalar("", line, _indent(lines[line])))
    if _NO_SPACE.match(lines[line]):
        return at, "this is not YAML: the space after the colon is missing"
    if ":" not in lines[line] and not lines[line].lstrip().startswith("-"):
        return at, "this is not YAML: the colon after the key is missing"
    return None


def _indent(line: str) -> int:
    return len(line) - len(line.lstrip(" "))


def _above(lines: list[str], line: int) -> int | None:
    """The nearest line above that says something."""
    return next((number for number in range(line - 1, -1, -1) if lines[number].split("#")[0].strip()), None)
