"""What a typed line says: a choice by its word, number or label; a reading with its unit, judged against the limits."""

from __future__ import annotations

import re
from typing import assert_never

from expert.job.answers.outcomes_meant import outcome_meant
from expert.job.sentences import answers as say
from expert.job.state.job import Given, Job
from expert.job.state.values import bands_of, unit_at_prompt
from expert.language.formulas.formula import CannotWorkOut, NotKnown
from expert.language.model import Choice, Measure, Question, YesNo
from expert.trade.quantities.units import NotAQuantity, Quantity, believable, echo, read_quantity, show
from expert.trade.sensors.instruments import still_possible, uncertainty

YES = {"yes", "y", "ja", "j"}
NO = {"no", "n", "nein"}
CANNOT_TELL = re.compile(r"(?:can'?t|can’t|cannot|can not) (?:tell|say)\b[ :,.-]*(.*)|\?", re.IGNORECASE | re.DOTALL)


DIGIT = re.compile(r"[1-9]")  # as in a list: slipped from one prompt to the next it would be a reading


class NotAnAnswer(ValueError):
    """The line answers nothing; the message says what would do."""


def read_answer(job: Job, question: Question, line: str) -> Given:
    """The answer that a line gives, numbered as the next one. Raises NotAnAnswer with what would do."""
    text = line.strip()
    match question.form:
        case YesNo():
            return Given(job.next_number, question.id, text, (_yes_or_no(text),))
        case Choice():
            return Given(job.next_number, question.id, text, (_chosen(question, text),))
        case Measure() as measure:
            return _measured(job, question, measure, text)
        case form:
            assert_never(form)


def _measured(job: Job, question: Question, measure: Measure, text: str) -> Given:
    """A number, and what it may mean within the limits for this job. Raises NotAnAnswer."""
    number = job.next_number
    quantity = _quantity(job, measure, text)
    margin = uncertainty(job.base.instruments[measure.instrument], quantity)
    try:
        outcomes = still_possible(quantity, margin, bands_of(job, question))
    except (NotKnown, CannotWorkOut) as problem:
        raise NotAnAnswer(say.limits_not_worked_out(str(problem))) from None
    return Given(number, question.id, text, outcomes, quantity, margin)


def refuse_silly(job: Job, question: Question, text: str) -> None:
    """Pass when the prompt would take this text for an answer, whatever its limits are; else raise NotAnAnswer."""
    match question.form:
        case YesNo():
            _yes_or_no(text)
        case Choice():
            _chosen(question, text)
        case Measure() as measure:
            _quantity(job, measure, text)
        case form:
            assert_never(form)


def _yes_or_no(text: str) -> str:
    word = text.casefold()
    if word in YES:
        return "yes"
    if word in NO:
        return "no"
    raise NotAnAnswer(say.yes_or_no(echo(text)))


def _chosen(question: Question, text: str) -> str:
    """The outcome meant by a number in the list, or by words as shown."""
    word = text.casefold()
    if word.isdecimal() and len(word) < 3 and 1 <= int(word) <= len(question.outcomes):
        return question.outcomes[int(word) - 1]
    meant = outcome_meant(text, {outcome: question.labels.get(outcome, "") for outcome in question.outcomes})
    if meant:
        return meant
    numbers = f"1 to {len(question.outcomes)}"
    raise NotAnAnswer(say.one_of_these(echo(text), numbers, ", ".join(question.outcomes)))


def is_guessed(question: Question, text: str) -> bool:
    """Whether an answer was taken that is neither the number, nor the word, nor the words shown for an outcome."""
    if not isinstance(question.form, Choice):
        return False
    shown = {word for outcome in question.outcomes for word in (outcome, question.labels.get(outcome, outcome))}
    return not text.isdecimal() and text.casefold() not in {word.casefold() for word in shown}


def _quantity(job: Job, measure: Measure, text: str) -> Quantity:
    """The number that was read. Raises NotAnAnswer for what no such instrument can show."""
    unit = unit_at_prompt(measure, job.shop.system)
    if unit and DIGIT.fullmatch(text):
        raise NotAnAnswer(say.digit_alone(text, f"{text} {unit}"))
    try:
        quantity = read_quantity(text, measure.kind, unit, job.shop.system)
        if measure.believable is None:
            believable(quantity, job.shop.system)
    except NotAQuantity as problem:
        raise NotAnAnswer(say.or_cant_tell(_sentence(str(problem)))) from None
    if measure.believable is not None and quantity.value not in (float("inf"), float("-inf")):
        low, high = measure.believable
        if not low <= quantity <= high:
            raise NotAnAnswer(
                say.cannot_be_right(
                    show(quantity, system=job.shop.system),
                    show(low, system=job.shop.system),
                    show(high, system=job.shop.system),
                )
            )
    return quantity


def _sentence(text: str) -> str:
    text = text[:1].upper() + text[1:]
    return text if text.endswith((".", "?", "!")) else f"{text}."
