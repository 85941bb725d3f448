"""What would be typed on a sound machine."""

from __future__ import annotations

from itertools import pairwise
from typing import assert_never

from expert.job.answers.reading import NotAnAnswer, read_answer
from expert.job.state.job import Job
from expert.job.state.values import bands_of
from expert.language.formulas.formula import CannotWorkOut, NotKnown
from expert.language.model import Choice, Measure, Question, YesNo
from expert.trade.quantities.units import KINDS

CANNOT_TELL = "can't tell"


def sound_answer(job: Job, question: Question) -> str:
    """What would be typed on a sound machine, or can't tell where the question knows no sound outcome.

    Of several sound outcomes the one that stands first.
    """
    if not question.sound:
        return CANNOT_TELL
    match question.form:
        case YesNo() | Choice():
            return question.sound[0]
        case Measure(kind=kind):
            return _sound_reading(job, question, KINDS[kind].base)
        case form:
            assert_never(form)


def _sound_reading(job: Job, question: Question, unit: str) -> str:
    """A number in the middle of the sound band, or near its only limit; can't tell while the limits are not known."""
    try:
        bands = bands_of(job, question)
    except (NotKnown, CannotWorkOut):
        return CANNOT_TELL
    limits = sorted({limit.value for _, low, high in bands for limit in (low, high) if limit is not None})
    between = [(low + high) / 2 for low, high in pairwise(limits)]
    passing = []
    for value in (*between, limits[-1] * 1.5 + 1, limits[0] / 2, limits[0] - 1):
        text = f"{value:.3g} {unit}".strip()
        try:
            outcomes = read_answer(job, question, text).outcomes
        except NotAnAnswer:
            continue
        if outcomes == question.sound[:1]:
            return text
        if set(outcomes) <= set(question.sound):
            passing.append(text)
    return passing[0] if passing else CANNOT_TELL
