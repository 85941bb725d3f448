"""A line that lost or gained indentation, found where it stands: the parser notices it only where the block ends.

Each line of the block is tried with the indentation of its neighbours. Of those that make the block YAML again, the one
that leaves the fewest keys unknown is the one that was moved.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import yaml

from expert.language.keys import FILES, Shape, kinds

_AROUND = 12  # lines whose indentation may have been meant
_FARTHEST = 80  # lines above the place where the parser gave up
_Loader: Any = getattr(yaml, "CBaseLoader", yaml.BaseLoader)  # texts only: nothing is made of a tag


def moved_line(lines: list[str], line: int) -> int | None:
    """The line (from 0) whose indentation was changed, given where the parser gave up; None where it cannot be told."""
    start = next((n for n in range(min(line, len(lines) - 1), -1, -1) if _is_top(lines[n])), None)
    if start is None:
        return None
    end = next((n for n in range(max(start, line) + 1, len(lines)) if _is_top(lines[n])), len(lines))
    best: tuple[int, int] | None = None
    for number in range(min(line, end - 1), max(start, line - _FARTHEST), -1):
        for wanted in _neighbours(lines, number):
            found = _read([*lines[start:number], " " * wanted + lines[number].lstrip(" "), *lines[number + 1 : end]])
            if found is None:
                continue
            unknown = sum(1 for _ in _unknown(found))
            if best is None or unknown < best[0]:
                best = unknown, number
    return best[1] if best else None


def _is_top(line: str) -> bool:
    """Whether a block of the file begins here; another word in the first column may have lost its indentation."""
    return bool(line.strip()) and line[0] not in " #-" and line.partition(":")[0] in _BLOCKS


_BLOCKS = frozenset(name for shape in FILES.values() for name in shape.by_name)


def _neighbours(lines: list[str], number: int) -> list[int]:
    """The indentations that the line may have had: those of the lines around it, a step more or less."""
    if not lines[number].strip():
        return []
    near = range(max(0, number - _AROUND), min(len(lines), number + _AROUND))
    around = [lines[n] for n in near if n != number and lines[n].strip()]
    own = _indent(lines[number])
    return sorted({_indent(line) for line in around} - {own}, key=lambda indent: abs(indent - own))


def _indent(line: str) -> int:
    return len(line) - len(line.lstrip(" "))


def _read(lines: list[str]) -> Any:
    try:
        return yaml.load("\n".join(lines), Loader=_Loader)
    except yaml.YAMLError:
        return None


def _unknown(block: Any) -> Iterator[str]:
    """The keys of a block that are not in the language where they stand, and the records that are none."""
    if not isinstance(block, dict):
        yield "no mapping"
        return
    for name, value in block.items():
        key = next((shape.by_name[name] for shape in FILES.values() if name in shape.by_name), None)
        if key is None:
            yield name
        elif isinstance(key.kind, kinds.Named):
            yield from _of_records(value, key.kind.holds)


def _of_records(value: Any, holds: object) -> Iterator[str]:
    if not isinstance(holds, Shape):
        return
    if not isinstance(value, dict):
        yield "no mapping"
        return
    for record in value.values():
        yield from _of_record(record, holds)


def _of_record(record: Any, shape: Shape) -> Iterator[str]:
    if not isinstance(record, dict):
        yield "no mapping"
        return
    yield from (name for name in shape.required if name not in record)
    for name, value in record.items():
        key = shape.by_name.get(name)
        if key is None:
            yield name
        elif isinstance(key.kind, kinds.Named):
            yield from _of_records(value, key.kind.holds)
        elif isinstance(key.kind, kinds.One) and len(key.kind.shapes) == 1:
            yield from _of_record(value, key.kind.shapes[0])
