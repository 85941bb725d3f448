"""What `expert check` finds beyond what refuses a rule base: allowed, and yet probably not what its author meant.

One idea, one module; each has its codes with their meaning and one function `(Index) -> Iterable[Problem]`. Nothing
here refuses a rule base: `expert.language` has done that already.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from types import MappingProxyType

from expert.language.model import RuleBase
from expert.language.problems import Problem
from expert.workbench.checks import (
    alike,
    ambivalence,
    faults,
    machines,
    numbers,
    on_machines,
    orders,
    pairs,
    questions,
    redundancy,
    weights,
    wording,
)
from expert.workbench.index import Index

Check = Callable[[Index], Iterable[Problem]]

_MODULES = (
    *(
        redundancy,
        ambivalence,
        faults,
        questions,
        numbers,
        alike,
        machines,
        on_machines,
        orders,
        pairs,
        weights,
        wording,
    ),
)
CHECKS: tuple[Check, ...] = tuple(module.check for module in _MODULES)
CODES: Mapping[str, str] = MappingProxyType(
    {code: meaning for module in _MODULES for code, meaning in module.CODES.items()}
)


def advice(base: RuleBase, index: Index | None = None) -> tuple[Problem, ...]:
    """Everything that deserves a second look, sorted by place; one index serves all checks."""
    index = index or Index(base)
    return tuple(sorted({problem for check in CHECKS for problem in check(index)}))
