"""A test in words: how it is made, what its limits are, and how a reading was understood."""

from __future__ import annotations

from expert.job.sentences import limits as say
from expert.job.state.job import Given, Job
from expert.job.wording.drawing import drawn
from expert.job.wording.limits import (
    limits_in_words,
    reading_to_tell,
    show_limit,
    where_in_short,
    where_limits_come_from,
)
from expert.job.wording.sound_limits import sound_limits_in_words
from expert.language.formulas.formula import CannotWorkOut, NotKnown
from expert.language.model import Question
from expert.trade.quantities.units import show


def understood(job: Job, question: Question, given: Given) -> tuple[str, ...]:
    """How a reading is understood: the reading's name, its limits and the instrument's accuracy."""
    assert given.quantity is not None and given.uncertainty is not None
    system = job.shop.system
    shown = show(given.quantity, system=system)
    instrument = job.base.instruments[question.instrument]
    accuracy = f"{instrument.name}: ±{show_limit(job, given.uncertainty)}" if given.uncertainty.value else ""
    told = reading_to_tell(job, question, given.outcomes[0], given.quantity)
    limits, origin = limits_in_words(job, question, told), where_in_short(job, question, told)
    detail = "; ".join(part for part in (f"{told} is {limits}", origin, accuracy) if part)
    if len(given.outcomes) == 1:
        return (say.counts_as(shown, given.outcomes[0], detail),)
    names = " or ".join(given.outcomes)
    return (
        say.too_close(shown, names, detail),
        say.BETTER_INSTRUMENT,
    )


def understood_in_short(job: Job, question: Question, given: Given) -> tuple[str, ...]:
    """The same of a reading that was taken: held against its limits; where they come from is told by the word how."""
    if given.quantity is None or len(given.outcomes) > 1:
        return understood(job, question, given)
    (outcome,) = given.outcomes
    if outcome in question.sound:
        limits = sound_limits_in_words(job, question, given.quantity)
    else:
        near = reading_to_tell(job, question, outcome, given.quantity)
        limits = limits_in_words(job, question, near)
        limits = limits if near == outcome or not limits else say.is_within(near, limits)
    if not limits:
        return understood(job, question, given)
    told = say.counts_as_sound if outcome in question.sound else say.counts_as
    return (told(show(given.quantity, system=job.shop.system), outcome, limits),)


def how_to(job: Job, question: Question) -> tuple[str, ...]:
    """How to make the test, what a sound machine shows, and where the limits come from."""
    lines = [f"How: {question.how}"]
    lines += [f"  {line}" for line in drawn(question.drawing)] if question.drawing else []
    if question.expect:
        lines.append(say.sound_machine(question.expect))
    if question.instrument:
        lines.append(f"Instrument: {job.base.instruments[question.instrument].name}.")
        try:
            for name in question.outcomes:
                if limits := limits_in_words(job, question, name):
                    lines.append(say.limit(name, limits))
            lines += [f"From: {origin}" for origin in where_limits_come_from(job, question)]
        except (NotKnown, CannotWorkOut) as problem:
            lines.append(say.limits_not_known(str(problem)))
    needs = ", ".join(f"{dimension} {state}" for dimension, state in question.bench.items())
    lines.append(say.bench_and_minutes(needs or "any state", question.minutes))
    return tuple(lines)
