"""What is typed at a question, read by the rules' limits on one machine; no job is needed for it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from math import isinf
from typing import assert_never

from expert.language.formulas.formula import CannotWorkOut, Formula, NotKnown, evaluate
from expert.language.model import Choice, Machine, Measure, Question, RuleBase, YesNo
from expert.trade.errors import OutOfRange, WrongArguments
from expert.trade.quantities.units import KindsDiffer, NotAQuantity, Quantity, read_quantity
from expert.trade.sensors.instruments import Band, still_possible, uncertainty
from expert.workbench.sentences import cases as say


class NotRead(ValueError):
    """The text is no answer to the question, or its limits are not known; the message says which."""


class Readings:
    """The readings on one machine. `typed`: by question, what limits may rest on."""

    def __init__(self, base: RuleBase, machine: Machine, typed: Mapping[str, str]) -> None:
        self.base, self.machine, self.typed = base, machine, typed

    def outcomes(self, question: Question, text: str) -> tuple[str, ...]:
        """What the text leaves possible, more than one outcome near a limit. Raises NotRead."""
        match question.form:
            case YesNo() | Choice():
                if text not in question.outcomes:
                    raise NotRead(say.is_no_outcome(text, question.id))
                return (text,)
            case Measure() as measure:
                return self._judged(measure, text)
            case form:
                assert_never(form)

    def _judged(self, measure: Measure, text: str) -> tuple[str, ...]:
        try:
            reading = _believed(measure, text)
            margin = uncertainty(self.base.instruments[measure.instrument], reading)
            return still_possible(reading, margin, self.bands(measure))
        except NotKnown as unknown:
            raise NotRead(say.limits_rest_on(unknown.name)) from None
        except (NotAQuantity, CannotWorkOut, OutOfRange, WrongArguments, KindsDiffer) as problem:
            raise NotRead(str(problem)) from None

    def bands(self, measure: Measure) -> tuple[Band, ...]:
        """The limits here. Raises NotKnown, CannotWorkOut, or what a trade function refuses."""

        def limit(formula: Formula | None) -> Quantity | None:
            return None if formula is None else evaluate(formula, lambda name: self._value(name, {}))

        return tuple((reading.name, limit(reading.low), limit(reading.high)) for reading in measure.readings)

    def _value(self, name: str, assume: Mapping[str, Quantity | str]) -> Quantity | str:
        kind, dot, inner = name.partition(".")
        if dot:
            known: Mapping[str, Quantity | str] = self.machine.plate if kind == "plate" else self.machine.features
            if inner not in known:
                raise NotKnown(name)
            return known[inner]
        if name in self.base.work_outs:
            work_out = self.base.work_outs[name]
            return evaluate(work_out.formula, lambda inner: self._value(inner, work_out.assume))
        question = self.base.questions.get(name)
        if question is not None and isinstance(form := question.form, Measure) and name in self.typed:
            return _believed(form, self.typed[name])
        if name not in assume:
            raise NotKnown(name)
        assumed = assume[name]
        return self._value(assumed, assume) if isinstance(assumed, str) else assumed


def _believed(measure: Measure, text: str) -> Quantity:
    """The number, where the prompt would take it."""
    reading = read_quantity(text, measure.kind, measure.unit)
    low, high = measure.believable or (reading, reading)
    if not low.value <= reading.value <= high.value and not isinf(reading.value):
        raise CannotWorkOut(say.prompt_refuses_it(text))
    return reading


def resting_on(base: RuleBase, question: Question) -> Iterator[str]:
    """The questions whose numbers the limits of this one rest on, through worked-out values."""
    return (name for name in names_behind(base, question) if name in base.questions)


def names_behind(base: RuleBase, question: Question) -> set[str]:
    """Every name that the limits of a question rest on, through worked-out values."""
    found: set[str] = set()
    formulas = [limit for reading in question.readings for limit in (reading.low, reading.high) if limit is not None]
    waiting = [name for formula in formulas for name in formula.names]
    while waiting:
        name = waiting.pop()
        if name not in found:
            found.add(name)
            waiting += base.work_outs[name].formula.names if name in base.work_outs else ()
    return found
