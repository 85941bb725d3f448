"""Limits as numbers, on a machine as its plate says, with what formulas assume for readings that were not taken."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

from expert.language.formulas.formula import CannotWorkOut, Formula, NotKnown, evaluate
from expert.language.model import Machine, Question, Reading, RuleBase
from expert.trade.errors import OutOfRange, WrongArguments
from expert.trade.quantities.units import Quantity


@dataclass(frozen=True, slots=True)
class Span:
    """A reading with its limits in base units; infinite where it has none."""

    reading: Reading
    low: float
    high: float

    @property
    def takes_the_rest(self) -> bool:
        return self.reading.low is None and self.reading.high is None


def spans_on(base: RuleBase, machine: Machine, question: Question) -> tuple[Span, ...] | None:
    """The readings of a measured question on this machine; None where they rest on a reading without a stand-in."""
    if not question.readings:
        return None
    try:
        return tuple(
            Span(
                reading,
                -math.inf if reading.low is None else number(base, machine, reading.low).value,
                math.inf if reading.high is None else number(base, machine, reading.high).value,
            )
            for reading in question.readings
        )
    except (NotKnown, CannotWorkOut, OutOfRange, WrongArguments):
        return None


def number(
    base: RuleBase, machine: Machine, formula: Formula, assume: Mapping[str, Quantity | str] | None = None
) -> Quantity:
    """A formula's value on a machine. Raises NotKnown, CannotWorkOut, or what a trade function refuses."""

    def look_up(name: str) -> Quantity | str:
        kind, dot, inner = name.partition(".")
        if dot:
            known: Mapping[str, Quantity | str] = machine.plate if kind == "plate" else machine.features
            if inner not in known:
                raise NotKnown(name)
            return known[inner]
        if name in base.work_outs:
            return number(base, machine, base.work_outs[name].formula, base.work_outs[name].assume)
        assumed = (assume or {}).get(name)
        if assumed is None:
            raise NotKnown(name)
        return look_up(assumed) if isinstance(assumed, str) else assumed

    return evaluate(formula, look_up)
