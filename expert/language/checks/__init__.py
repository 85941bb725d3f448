"""Checks on the rule base as a whole, run after every record has been read. One idea, one file.

Each module holds its problem code with its meaning, and one function `(Draft) -> Iterable[Problem]`. A record that
was itself broken is not in the draft, so a check never complains about the same mistake again.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from types import MappingProxyType

from expert.language.checks import (
    bench_reach,
    drawings,
    feed_cycles,
    forbidden_steps,
    formula_cycles,
    guarded_states,
    hazards,
    instrument_kinds,
    live_tests,
    machine_features,
    plate_values,
    reading_order,
    rule_cycles,
    values_in_texts,
)
from expert.language.problems import Problem
from expert.language.reading.draft import Draft
from expert.language.sentences import codes

Check = Callable[[Draft], Iterable[Problem]]

_MODULES = (
    rule_cycles,
    feed_cycles,
    formula_cycles,
    reading_order,
    instrument_kinds,
    machine_features,
    plate_values,
    bench_reach,
    values_in_texts,
    forbidden_steps,
    guarded_states,
    live_tests,
    hazards,
    drawings,
)
CHECKS: tuple[Check, ...] = tuple(module.check for module in _MODULES)
CODES: Mapping[str, str] = MappingProxyType(
    {**codes.OF_READING, **{code: meaning for module in _MODULES for code, meaning in module.CODES.items()}}
)
