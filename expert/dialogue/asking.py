"""Putting a question and understanding the answer."""

from __future__ import annotations

import re

from expert.dialogue.inference import conclude
from expert.dialogue.job import Given, Job, Phase, Prompt, Talk
from expert.dialogue.limits import (
    limits_in_words,
    reading_to_tell,
    rests_on,
    show_limit,
    where_in_short,
    where_limits_come_from,
)
from expert.dialogue.values import bands_of, unit_at_prompt
from expert.engine.bench import in_time
from expert.language.formulas.formula import CannotWorkOut, NotKnown
from expert.language.model import Question
from expert.trace.records import Answered, CannotTell, CautionShown, PromptKind, Put
from expert.trace.why import Why
from expert.trade.quantities.units import NotAQuantity, Quantity, believable, echo, read_quantity, show
from expert.trade.sensors.instruments import still_possible, uncertainty

YES = {"yes", "y", "ja", "j"}
NO = {"no", "n", "nein"}
CANNOT_TELL = re.compile(r"(?:can'?t|can’t|cannot|can not) (?:tell|say)\b[ :,.-]*(.*)|\?", re.IGNORECASE | re.DOTALL)


class NotAnAnswer(ValueError):
    """The line answers nothing; the message says what would do."""


def show_cautions(talk: Talk, cautions: tuple[str, ...]) -> None:
    """Cautions before the step they belong to, each once in a state of the bench."""
    job = talk.job
    for caution in cautions:
        if caution not in job.cautions_read:
            job.cautions_read.add(caution)
            talk.add(CautionShown(caution, job.base.cautions[caution].text))


def put_question(talk: Talk, question: Question, kind: PromptKind, why: Why) -> None:
    """Cautions, then the question; the job waits for its answer."""
    show_cautions(talk, question.cautions)
    talk.add(Put(kind, question.id, question.ask, why))
    talk.job.prompt = Prompt(kind, question.id, typed_answers(question))


def typed_answers(question: Question) -> tuple[str, ...]:
    """What may be typed for a question that is not measured."""
    return () if question.measure else question.outcomes


def read_answer(job: Job, question: Question, line: str) -> Given:
    """The answer that a line gives, numbered as the next one. Raises NotAnAnswer with what would do."""
    text = line.strip()
    number = job.next_number
    if question.measure is None:
        return Given(number, question.id, text, (_chosen(question, text),))
    quantity = _quantity(job, question, text)
    instrument = job.base.instruments[question.measure.instrument]
    margin = uncertainty(instrument, quantity)
    try:
        outcomes = still_possible(quantity, margin, bands_of(job, question))
    except (NotKnown, CannotWorkOut) as problem:
        raise NotAnAnswer(f"The limits for this reading cannot be worked out: {problem}. Type: can't tell") from None
    return Given(number, question.id, text, outcomes, quantity, margin)


def refuse_silly(job: Job, question: Question, text: str) -> None:
    """Pass when the prompt would take this text for an answer, whatever its limits are; else raise NotAnAnswer."""
    if question.measure is None:
        _chosen(question, text)
    else:
        _quantity(job, question, text)


def _chosen(question: Question, text: str) -> str:
    """The outcome meant by a word, a number in the list, or the start of its label."""
    word = text.casefold()
    if question.outcomes == ("yes", "no"):
        if word in YES:
            return "yes"
        if word in NO:
            return "no"
        raise NotAnAnswer(f"{echo(text)} is no answer here. Type yes or no, or: can't tell")
    if word in question.outcomes:
        return word
    if word.isdecimal() and len(word) < 3 and 1 <= int(word) <= len(question.outcomes):
        return question.outcomes[int(word) - 1]
    fitting = [
        outcome
        for outcome in question.outcomes
        if len(word) > 1 and (outcome.startswith(word) or question.labels.get(outcome, "").casefold().startswith(word))
    ]
    if len(fitting) == 1:
        return fitting[0]
    numbers = f"1 to {len(question.outcomes)}"
    raise NotAnAnswer(
        f"{echo(text)} is no answer here. Type {numbers}, or one of {', '.join(question.outcomes)}, or: can't tell"
    )


def _quantity(job: Job, question: Question, text: str) -> Quantity:
    """The number that was read. Raises NotAnAnswer for what no such instrument can show."""
    measure = question.measure
    assert measure is not None
    try:
        quantity = read_quantity(text, measure.kind, unit_at_prompt(measure, job.shop.system), job.shop.system)
        if measure.believable is None:
            believable(quantity, job.shop.system)
    except NotAQuantity as problem:
        raise NotAnAnswer(f"{_sentence(str(problem))} Or type: can't tell") from None
    if measure.believable is not None and quantity.value not in (float("inf"), float("-inf")):
        low, high = measure.believable
        if not low <= quantity <= high:
            raise NotAnAnswer(
                f"{show(quantity, system=job.shop.system)} cannot be right here: expected is something between "
                f"{show(low, system=job.shop.system)} and {show(high, system=job.shop.system)}. "
                f"Read again, mind the unit. Or type: can't tell"
            )
    return quantity


def _sentence(text: str) -> str:
    text = text[:1].upper() + text[1:]
    return text if text.endswith((".", "?", "!")) else f"{text}."


def take_answer(talk: Talk, given: Given, *, read_now: bool = True) -> None:
    """Keep the answer, tell how it was understood, and let the rules conclude from it.

    `read_now`: no for a reading that was taken before and is only held against other limits.
    """
    job = talk.job
    question = job.base.questions[given.question]
    before = job.state.possible(given.question)
    earlier = job.answer_to(given.question)
    if earlier is not None:
        conclude(talk, job.state.take_back(earlier.source))
        job.given[earlier.number] = _overtaken(earlier)
    job.given[given.number] = given
    job.can_again("question", given.question)
    job.minutes += question.minutes if read_now else 0.0
    if job.bench:  # what is told at the plate prompt comes before the bench is known
        job.bench = in_time(job.base.bench, job.bench)
    talk.add(
        Answered(
            number=given.number,
            question=given.question,
            text=given.text,
            outcomes=given.outcomes,
            possible_before=before,
            reading=given.quantity.value if given.quantity else None,
            uncertainty=given.uncertainty.value if given.uncertainty else None,
            instrument=question.measure.instrument if question.measure else "",
        )
    )
    if question.measure is not None:
        talk.tell(*understood(job, question, given))
    conclude(talk, job.state.narrow(given.source, given.question, given.outcomes))
    judge_again(talk, given.question)
    if question.measure is not None and len(given.outcomes) > 1:
        _offer_second_test(talk, given)


def judge_again(talk: Talk, changed: str) -> None:
    """Hold earlier readings whose limits rest on a reading against the limits that follow from it now."""
    job = talk.job
    for earlier in tuple(job.given.values()):
        question = job.base.questions[earlier.question]
        if not earlier.holds or earlier.quantity is None or not rests_on(job, question, changed):
            continue
        try:
            anew = read_answer(job, question, earlier.text)
        except NotAnAnswer:  # there are no limits any more; what was understood then is all there is
            continue
        if anew.outcomes != earlier.outcomes:
            talk.tell(f"Limits rest on this reading, so answer {earlier.number} is judged anew: {question.ask}")
            take_answer(talk, anew, read_now=False)


def _offer_second_test(talk: Talk, given: Given) -> None:
    """After a reading that is too close to a limit: which test would decide instead."""
    # Here and not above: to know what can be tested, the bench moves are needed, and those ask questions themselves.
    from expert.dialogue.second_tests import second_test

    job = talk.job
    if job.phase is Phase.FIND and (second := second_test(job, given)):
        talk.tell(f"A second test that bears on it: {job.base.questions[second].ask}")


def _overtaken(given: Given) -> Given:
    return Given(
        given.number, given.question, given.text, given.outcomes, given.quantity, given.uncertainty, holds=False
    )


def set_aside(talk: Talk, given: Given) -> None:
    """The answer no longer holds: the engine forgets it, the list of answers keeps it."""
    conclude(talk, talk.job.state.take_back(given.source))
    talk.job.given[given.number] = _overtaken(given)


def understood(job: Job, question: Question, given: Given) -> tuple[str, ...]:
    """How a reading was understood: the reading's name, its limits and the instrument's accuracy."""
    assert question.measure is not None and given.quantity is not None and given.uncertainty is not None
    system = job.shop.system
    shown = show(given.quantity, system=system)
    instrument = job.base.instruments[question.measure.instrument]
    accuracy = f"{instrument.name}: ±{show_limit(job, given.uncertainty)}" if given.uncertainty.value else ""
    told = reading_to_tell(job, question, given.outcomes[0], given.quantity)
    limits, origin = limits_in_words(job, question, told), where_in_short(job, question, told)
    detail = "; ".join(part for part in (f"{told} is {limits}", origin, accuracy) if part)
    if len(given.outcomes) == 1:
        return (f"{shown} counts as: {given.outcomes[0]}. ({detail})",)
    names = " or ".join(given.outcomes)
    return (
        f"{shown} is too close to a limit: it may be {names}. Both stay possible. ({detail})",
        "A better instrument or a second test would decide. Other tests are used meanwhile.",
    )


def cannot_tell(talk: Talk, question: str, reason: str) -> None:
    """The question is set aside unanswered; nothing is concluded from it."""
    unable = talk.job.could_not("question", question, reason)
    talk.job.bench = in_time(talk.job.base.bench, talk.job.bench)
    talk.add(CannotTell(question, reason, unable.number))


def how_to(job: Job, question: Question) -> tuple[str, ...]:
    """How to make the test, what a sound machine shows, and where the limits come from."""
    lines = [f"How: {question.how}"]
    if question.expect:
        lines.append(f"Sound machine: {question.expect}")
    if question.measure is not None:
        lines.append(f"Instrument: {job.base.instruments[question.measure.instrument].name}.")
        try:
            for name in question.outcomes:
                if limits := limits_in_words(job, question, name):
                    lines.append(f"Limit: {name} is {limits}.")
            lines += [f"From: {origin}" for origin in where_limits_come_from(job, question)]
        except (NotKnown, CannotWorkOut) as problem:
            lines.append(f"Limits: not yet worked out, {problem}.")
    needs = ", ".join(f"{dimension} {state}" for dimension, state in question.bench.items())
    lines.append(f"Bench: {needs or 'any state'}. About {question.minutes:g} min.")
    return tuple(lines)
