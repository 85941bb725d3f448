"""Plain data (mappings, lists, texts) to YAML text that our own reader takes back unchanged."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator, Mapping, Sequence
from typing import TypeAlias

Data: TypeAlias = "str | Sequence[Data] | Mapping[str, Data]"

# What needs no quotes, also inside brackets: nothing that YAML could take for a sign of its own.
_PLAIN = re.compile(r"[A-Za-z0-9][A-Za-z0-9_./()+*^%°ΩµÀ-ÿ -]*\Z")
_WIDEST = 100


def yaml_text(data: Data) -> str:
    """The data as a YAML document in block form, short lists and mappings on one line.

    >>> print(yaml_text({"name": "coil: open", "steps": ["Isolate.", "Measure."], "bench": {"mains": "off"}}), end="")
    name: "coil: open"
    steps: [Isolate., Measure.]
    bench: {mains: off}
    """
    return "".join(f"{line}\n" for line in _lines(data, 0))


def _lines(data: Data, depth: int) -> Iterator[str]:
    space = "  " * depth
    if isinstance(data, Mapping):
        for key, value in data.items():
            short = _short(value)
            if short is not None:
                yield f"{space}{_scalar(key)}: {short}"
            else:
                yield f"{space}{_scalar(key)}:"
                yield from _lines(value, depth + 1)
    elif not isinstance(data, str):
        for item in data:
            short = _short(item)
            if short is not None:
                yield f"{space}- {short}"
            else:
                yield f"{space}-"
                yield from _lines(item, depth + 1)


def _short(data: Data) -> str | None:
    """The data on one line, or None if it is too long or too deep for that."""
    if isinstance(data, str):
        return _scalar(data)
    if not data:
        return "{}" if isinstance(data, Mapping) else "[]"
    inner = list(data.values()) if isinstance(data, Mapping) else list(data)
    if not all(isinstance(value, str) for value in inner):
        return None
    if isinstance(data, Mapping):
        line = "{" + ", ".join(f"{_scalar(key)}: {_scalar(str(value))}" for key, value in data.items()) + "}"
    else:
        line = "[" + ", ".join(_scalar(str(value)) for value in inner) + "]"
    return line if len(line) <= _WIDEST else None


def _scalar(text: str) -> str:
    if _PLAIN.match(text) and not text.endswith(" "):
        return text
    return json.dumps(text, ensure_ascii=False)
