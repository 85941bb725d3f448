"""Limits against each other, against the plate of each shipped machine, and against the instrument that reads them."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace
from itertools import pairwise, product

from expert.language.model import Machine, Question
from expert.language.problems import Problem
from expert.language.worked.plate_choices import features_behind_limits
from expert.trade.quantities.units import Quantity, show
from expert.trade.sensors.instruments import Instrument, uncertainty
from expert.workbench.index import Index
from expert.workbench.plates import Span, number, spans_on
from expert.workbench.sentences import rules as say
from expert.workbench.uses import limits_of

CODES = {
    "reversed-on-plate": say.REVERSED_ON_PLATE,
    "never-on-plate": say.NEVER_ON_PLATE,
    "overlapping-readings": say.OVERLAPPING_READINGS,
    "hairline-gap": say.HAIRLINE_GAP,
    "beyond-instrument": say.BEYOND_INSTRUMENT,
    "below-accuracy": say.BELOW_ACCURACY,
    "narrower-than-accuracy": say.NARROWER_THAN_ACCURACY,
    "beyond-believable": say.BEYOND_BELIEVABLE,
    "expected-is-not-sound": say.EXPECTED_IS_NOT_SOUND,
}
_HAIRLINE = 0.05


def check(index: Index) -> Iterator[Problem]:
    """Measured question by measured question, on each shipped machine that has it; a slip is told once."""
    told: set[tuple[str, object]] = set()
    for question in index.base.questions.values():
        if question.measure is None:
            continue
        for machine in _machines_with(index, question):
            for problem in _however_it_is_set(index, machine, question):
                if (problem.code, problem.at) not in told:
                    told.add((problem.code, problem.at))
                    yield problem


def _machines_with(index: Index, question: Question) -> Iterator[Machine]:
    """The shipped machines that the question is put on; where there is none, the first of them, made to fit."""
    machines = list(index.base.machines.values())
    fitting = [machine for machine in machines if index.on(machine, question.applies)]
    yield from fitting
    if machines and not fitting:
        wanted = {feature.removeprefix("machine."): values[0] for feature, values in question.applies.items() if values}
        yield replace(machines[0], features={**machines[0].features, **wanted})


def _however_it_is_set(index: Index, machine: Machine, question: Question) -> Iterator[Problem]:
    """What is wrong whatever is chosen at the plate prompt: limits may rest on a feature, such as the country's set."""
    behind = _behind(index, question)
    chosen = {name: v for name, v in features_behind_limits(index.base).items() if f"machine.{name}" in behind}
    variants = [
        replace(machine, features={**machine.features, **dict(zip(chosen, values, strict=True))})
        for values in product(*chosen.values())
    ]
    put_on = [variant for variant in variants if index.on(variant, question.applies)]
    found = [{(p.code, p.at): p for p in _on_machine(index, variant, question)} for variant in put_on]
    for key, problem in found[0].items() if found else ():
        if all(key in others for others in found):
            yield problem


def _behind(index: Index, question: Question) -> set[str]:
    """Every name that the question's limits rest on, through worked-out values."""
    found: set[str] = set()
    waiting = list(limits_of(question))
    while waiting:
        name = waiting.pop()
        if name not in found:
            found.add(name)
            waiting += index.base.work_outs[name].formula.names if name in index.base.work_outs else ()
    return found


def _on_machine(index: Index, machine: Machine, question: Question) -> Iterator[Problem]:
    spans = spans_on(index.base, machine, question)
    if spans is None or question.measure is None:
        return
    where = f"on {machine.id}"
    taken: list[tuple[float, float]] = []
    for span in spans:
        name = f"'{span.reading.name}' of {question.id}"
        if span.low >= span.high:
            message = say.limits_crossed(name, where, _told(question, span))
            yield Problem(span.reading.at, message, "reversed-on-plate")
        elif _covered(span, taken):
            message = say.reading_never_comes_out(name, where, _told(question, span))
            yield Problem(span.reading.at, message, "never-on-plate")
        taken.append((span.low, span.high))
        yield from _on_instrument(index.base.instruments[question.measure.instrument], question, span)
    yield from _neighbours(question, spans)
    yield from _expected(index, machine, question, spans)


def _covered(span: Span, taken: list[tuple[float, float]]) -> bool:
    reached = span.low
    for low, high in sorted(taken):
        if low <= reached:
            reached = max(reached, high)
    return reached >= span.high


def _told(question: Question, span: Span) -> str:
    """The span in words, such as `792 ohm to 1.39 kohm`."""
    assert question.measure is not None
    ends = [show(Quantity(end, question.measure.kind)) for end in (span.low, span.high) if not math.isinf(end)]
    if len(ends) == 2:
        return f"{ends[0]} to {ends[1]}"
    return "all values" if not ends else f"{'above' if math.isinf(span.high) else 'below'} {ends[0]}"


# ---------------------------------------------------------------- two readings side by side


def _neighbours(question: Question, spans: tuple[Span, ...]) -> Iterator[Problem]:
    ordered = sorted((s for s in spans if not s.takes_the_rest), key=lambda span: (span.low, span.high))
    rest_is_sound = any(span.takes_the_rest and span.reading.name in question.sound for span in spans)
    for lower, upper in pairwise(ordered):
        names = " and ".join(f"'{span.reading.name}' ({_told(question, span)})" for span in (lower, upper))
        at = max(lower.reading.at, upper.reading.at)
        if lower.low < upper.low < lower.high < upper.high:
            yield Problem(at, say.readings_overlap(question.id, names), "overlapping-readings")
        gap = (upper.low - lower.high) / max(abs(upper.low), abs(lower.high), 1e-12)
        if 0 < gap < _HAIRLINE and not rest_is_sound:
            message = say.gap_between_readings(question.id, names)
            yield Problem(at, message, "hairline-gap")


# ---------------------------------------------------------------- the instrument


def _on_instrument(instrument: Instrument, question: Question, span: Span) -> Iterator[Problem]:
    measure = question.measure
    assert measure is not None
    top = _top(instrument)
    for limit in (span.low, span.high):
        if math.isinf(limit):
            continue
        shown = show(Quantity(limit, measure.kind))
        error = _error(instrument, question, limit)
        name = say.the_limit_of(shown, span.reading.name, question.id)
        if top is not None and abs(limit) > top:
            most = show(Quantity(top, measure.kind))
            yield Problem(
                span.reading.at, say.more_than_instrument_shows(name, instrument.name, most), "beyond-instrument"
            )
        elif measure.believable and not measure.believable[0].value <= limit <= measure.believable[1].value:
            low, high = (show(end) for end in measure.believable)
            yield Problem(span.reading.at, say.not_within_what_is_believable(name, low, high), "beyond-believable")
        elif limit and error >= abs(limit):
            message = say.within_error(name, instrument.name, _as_error(question, error))
            yield Problem(span.reading.at, message, "below-accuracy")
    if not math.isinf(span.low) and not math.isinf(span.high) and span.low < span.high:
        least = _error(instrument, question, span.low) + _error(instrument, question, span.high)
        if span.high - span.low <= least:
            message = say.narrower_than_error(
                span.reading.name, question.id, _told(question, span), instrument.name, _as_error(question, least)
            )
            yield Problem(span.reading.at, message, "narrower-than-accuracy")


def _error(instrument: Instrument, question: Question, value: float) -> float:
    assert question.measure is not None
    return uncertainty(instrument, Quantity(value, question.measure.kind)).value


def _as_error(question: Question, error: float) -> str:
    assert question.measure is not None
    kind = question.measure.kind
    return f"+-{error:.2g} K" if kind == "temperature" else f"+-{show(Quantity(error, kind))}"


def _top(instrument: Instrument) -> float | None:
    """The most that the instrument shows; None where its data do not say."""
    if instrument.full_scale is not None:
        return abs(instrument.full_scale.value)
    last = instrument.ranges[-1].up_to if instrument.ranges else None
    return None if last is None else last.value


# ---------------------------------------------------------------- the expected value


def _expected(index: Index, machine: Machine, question: Question, spans: tuple[Span, ...]) -> Iterator[Problem]:
    """The worked-out value that both limits of the sound reading are made from must itself be sound."""
    base = index.base
    for span in spans:
        low, high = span.reading.low, span.reading.high
        if span.reading.name not in question.sound or low is None or high is None or low.names != high.names:
            continue
        if len(low.names) != 1 or low.names[0] not in base.work_outs:
            continue
        work_out = base.work_outs[low.names[0]]
        value = number(base, machine, work_out.formula, work_out.assume).value
        if not span.low <= value <= span.high:
            shown = show(Quantity(value, low.kind))
            message = say.nominal_value_is_not_sound(
                question.id, machine.id, work_out.id, shown, span.reading.name, _told(question, span)
            )
            yield Problem(span.reading.at, message, "expected-is-not-sound")
