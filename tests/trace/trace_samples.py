"""Records for the tests of the trace: made of the declared types, and a small invented job (demonstration only)."""

from __future__ import annotations

import types
import typing
from collections.abc import Mapping
from dataclasses import is_dataclass
from datetime import UTC, datetime, timedelta
from typing import Any

from hypothesis import strategies as st

from expert.trace.json_values import LARGEST_WHOLE_NUMBER, fields_of
from expert.trace.records import KINDS, CannotTell, Conflict, Moved, Opened, PromptPut, Record, Said, Sealed

NINE_O_CLOCK = datetime(2026, 1, 31, 9, 0, 0, tzinfo=UTC)


class SteadyClock:
    """Gives 09:00:00, 09:00:01 and so on."""

    def __init__(self, start: datetime = NINE_O_CLOCK) -> None:
        self.moment = start

    def __call__(self) -> datetime:
        self.moment += timedelta(seconds=1)
        return self.moment - timedelta(seconds=1)


def values_of(kind: Any) -> st.SearchStrategy[Any]:
    """Every value that a field of this declared type may have."""
    origin, parts = typing.get_origin(kind), typing.get_args(kind)
    if origin in (typing.Union, types.UnionType):
        return st.one_of([st.none() if part is type(None) else values_of(part) for part in parts])
    if origin is tuple and len(parts) == 2 and parts[1] is Ellipsis:
        return st.lists(values_of(parts[0]), max_size=3).map(tuple)
    if origin is tuple:
        return st.tuples(*map(values_of, parts))
    if origin is Mapping:
        return st.dictionaries(TEXTS, values_of(parts[1]), max_size=3)
    if origin is typing.Literal:
        return st.sampled_from(parts)
    if is_dataclass(kind):
        return st.builds(kind, **{field.name: values_of(field_type) for field, field_type in fields_of(kind)})
    return SIMPLE[kind]


TEXTS = st.text(st.characters(exclude_categories=["Cs"]), max_size=20)
SIMPLE: dict[Any, st.SearchStrategy[Any]] = {
    str: TEXTS,
    bool: st.booleans(),
    int: st.integers(-LARGEST_WHOLE_NUMBER, LARGEST_WHOLE_NUMBER),
    float: st.floats(allow_nan=False, allow_infinity=True),
}
ONE_OF_EACH_KIND = {kind: values_of(kind) for kind in KINDS}
RECORDS: st.SearchStrategy[Record] = st.one_of([ONE_OF_EACH_KIND[kind] for kind in KINDS if kind is not Sealed])

A_JOB: tuple[Record, ...] = (
    Opened("ab" * 32, "bench-expert 0.1.0", "2026-0007"),
    PromptPut("question", "fill_coil", "What does the meter read across the coil?"),
    Said("37,8 \u03a9\x1b[31m\u202e"),
    Moved("isolate", {"mains": "isolated"}, 1.5),
    Conflict("fill_coil", (1, 2)),
    CannotTell("pump_runs", ""),
)
