"""Values in sentences: `{plate.rated_power}` or `{element_expected}` stands for the value on the machine at hand."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from typing import Any

from expert.language.model import RuleBase

_VALUE = re.compile(r"\{([a-z][a-z0-9_]*(?:\.[a-z][a-z0-9_]*)?)\}")
_NO_TEXT = frozenset({"id", "at", "circuit", "part", "when", "only_if", "unless", "tree"})

_FIELDS: dict[type, tuple[str, ...]] = {}


def named_in(text: str) -> tuple[str, ...]:
    """The values that a sentence names.

    >>> named_in("About {element_expected} for {plate.element_power}.")
    ('element_expected', 'plate.element_power')
    """
    return tuple(_VALUE.findall(text)) if "{" in text else ()


def with_values(text: str, told: Callable[[str], str]) -> str:
    """The sentence with each value in words. `told`: a value by its name."""
    return _VALUE.sub(lambda found: told(found[1]), text) if "{" in text else text


def sentences(record: object) -> Iterator[str]:
    """Every text of a record of the rules, in whatever field, but for its ids and what it tests."""
    waiting: list[Any] = [record]
    while waiting:  # every record of the base is walked through after each edit
        value = waiting.pop()
        if isinstance(value, str):
            yield value
        elif isinstance(value, tuple):
            waiting += reversed(value)
        else:
            waiting += [getattr(value, name) for name in _with_text(type(value))]


def _with_text(kind: type) -> tuple[str, ...]:
    """The fields of a kind of record in which a text may stand, the last first."""
    if kind not in _FIELDS:
        fields = getattr(kind, "__dataclass_fields__", ())
        _FIELDS[kind] = tuple(name for name in reversed(tuple(fields)) if name not in _NO_TEXT)
    return _FIELDS[kind]


def in_words(base: RuleBase, name: str) -> str:
    """What a value is called, where the machine at hand does not say what it is."""
    rating = base.plate_values.get(name.removeprefix("plate."))
    if name.startswith("plate.") and rating is not None:
        return f"the {rating.name}"
    return f"the {base.work_outs[name].name}" if name in base.work_outs else name
