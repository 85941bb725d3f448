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
from expert.language.sentences import files as say
from expert.language.yaml.indentation import moved_line
from expert.language.yaml.nodes import Scalar, place

_VALUE_NOT_ALLOWED = re.compile("mapping values are not allowed")
_KEY_ONLY = re.compile(r"\s*(?:- )?[A-Za-z0-9_.]+\Z")
_NO_SPACE = re.compile(r"\s*(?:- )?[A-Za-z0-9_.]+:[^\s:]")


def not_yaml(path: str, text: str, error: yaml.YAMLError, deepest: int) -> Problem:
    """The problem with a text that the parser refused."""
    mark = getattr(error, "problem_mark", None) or getattr(error, "context_mark", None)
    what = getattr(error, "problem", None) or getattr(error, "reason", None) or say.CANNOT_BE_READ
    line, column = (mark.line, mark.column) if mark else (0, 0)
    at = place(path, Scalar("", line, column))
    if "nesting depth" in what:  # libyaml has a limit of its own, and meets it before we see the events.
        return Problem(at, say.too_deep(deepest), "too-deep")
    lines = text.splitlines()
    started = getattr(error, "context_mark", None) if "expected ':'" in what else None
    fault = _quote_fault(path, text, line, column) or (
        _line_fault(path, lines, what, line, column) if started is None else _key_fault(path, lines, started.line)
    )
    if "expected key" in what or "block end" in what:
        fault = _moved(path, lines, line) or fault
    if fault is not None:
        return Problem(*fault, "not-yaml")
    hint = next((f"; {hint}" for part, hint in say.HINTS if part in what), "")
    return Problem(at, say.not_yaml(what, hint, _opened(error, line)), "not-yaml")


def _opened(error: Untyped, line: int) -> str:
    """Where the bracket stands that the parser was still in, if that is another line."""
    context, start = getattr(error, "context", None) or "", getattr(error, "context_mark", None)
    if "flow" not in context or start is None or start.line == line:
        return ""
    return say.bracket_was_opened(start.line + 1, start.column + 1)


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
        return at, say.QUOTE_NOT_CLOSED
    if last_quoted is None or (last_quoted.end_mark.line, last_quoted.end_mark.column) > (line, column):
        return None
    start, end = last_quoted.start_mark, last_quoted.end_mark
    if end.line != line or text.splitlines()[line][end.column : column].strip():
        return None
    at = place(path, Scalar("", start.line, start.column))
    if start.line != end.line:
        ends = say.quote_runs_on(end.line + 1, end.column)
        return at, say.closing_quote_missing(ends)
    return at, (say.quote_within_quotes(end.column))


def _line_fault(path: str, lines: list[str], what: str, line: int, column: int) -> tuple[Position, str] | None:
    """A colon or its space missing on the line above, or a line that is indented wrongly; None for anything else."""
    above = _above(lines, line) if line < len(lines) else None
    if above is None:
        return None
    if _VALUE_NOT_ALLOWED.search(what) and _KEY_ONLY.match(lines[line][:column]):
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
    return at, say.LINE_OUT_OF_LINE


def _out_of_line(path: str, lines: list[str], line: int, above: int) -> tuple[Position, str]:
    """Of a line and the one above it, that which stands out from those around it."""
    before = _above(lines, above)
    wrong = above if before is not None and _indent(lines[before]) == _indent(lines[line]) else line
    at = place(path, Scalar("", wrong, _indent(lines[wrong])))
    return at, say.LINE_OUT_OF_LINE


def _key_fault(path: str, lines: list[str], line: int) -> tuple[Position, str] | None:
    """The colon after a key, or the space after it, that is missing on this line; None if both are there."""
    at = place(path, Scalar("", line, _indent(lines[line])))
    if _NO_SPACE.match(lines[line]):
        return at, say.SPACE_AFTER_COLON_MISSING
    if ":" not in lines[line] and not lines[line].lstrip().startswith("-"):
        return at, say.COLON_MISSING
    return None


def _indent(line: str) -> int:
    return len(line) - len(line.lstrip(" "))


def _above(lines: list[str], line: int) -> int | None:
    """The nearest line above that says something."""
    return next((number for number in range(line - 1, -1, -1) if lines[number].split("#")[0].strip()), None)
