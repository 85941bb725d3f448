"""Taking an answer in: the rules conclude from it, and readings whose limits rest on it are judged anew."""

from __future__ import annotations

from expert.engine.bench import in_time
from expert.job.answers.reading import NotAnAnswer, is_guessed, read_answer
from expert.job.answers.second_tests import second_test
from expert.job.sentences import answers as say
from expert.job.state.inference import conclude
from expert.job.state.job import Given, Job, Phase, Turn
from expert.job.wording.limits import (
    rests_on,
)
from expert.job.wording.readings import understood_in_short
from expert.language.model import Measure
from expert.trace.records import Answered, CannotTell

WANTING = frozenset({"no", "without", "lacking", "lack", "missing", "broken", "haven't"})
ANY_INSTRUMENT = frozenset({"meter", "multimeter", "instrument", "gauge", "tester", "tool", "thermometer"})


def take_answer(turn: Turn, given: Given, *, read_now: bool = True) -> None:
    """Keep the answer, tell how it was understood, and let the rules conclude from it.

    `read_now`: no for a reading that was taken before and is only held against other limits.
    """
    job = turn.job
    question = job.base.questions[given.question]
    before = job.state.possible(given.question)
    earlier = job.answer_to(given.question)
    if earlier is not None:
        conclude(turn, job.state.take_back(earlier.source))
        job.given[earlier.number] = _overtaken(earlier)
    job.given[given.number] = given
    job.can_again("question", given.question)
    job.minutes += question.minutes if read_now else 0.0
    if job.bench:  # what is told at the plate prompt comes before the bench is known
        job.bench = in_time(job.base.bench, job.bench)
    turn.add(
        Answered(
            number=given.number,
            question=given.question,
            text=given.text,
            outcomes=given.outcomes,
            possible_before=before,
            reading=given.quantity.value if given.quantity else None,
            uncertainty=given.uncertainty.value if given.uncertainty else None,
            instrument=question.instrument,
        )
    )
    if given.quantity is not None:
        turn.tell(*understood_in_short(job, question, given))
    elif is_guessed(question, given.text):
        turn.tell(say.taken_as(question.label(given.outcomes[0])))
    conclude(turn, job.state.narrow(given.source, given.question, given.outcomes))
    judge_again(turn, given.question)
    if given.quantity is not None and len(given.outcomes) > 1:
        _offer_second_test(turn, given)


def counts(job: Job, given: Given) -> bool:
    """Whether what a question waits for is known, or shown by this very answer: a stream from the group shows that the
    pump runs, and that nothing comes tells nothing of a pump that nobody could hear."""
    waits_for = job.base.questions[given.question].only_if
    signs = job.knowledge.questions_of(waits_for)
    if job.state.truth(waits_for) is not None or given.question not in signs or not job.cannot.keys() & set(signs):
        return True
    supposed = job.state.copy()
    supposed.narrow(given.source, given.question, given.outcomes)
    return bool(supposed.truth(waits_for))


def judge_again(turn: Turn, changed: str) -> None:
    """Hold earlier readings whose limits rest on a reading against the limits that follow from it now."""
    job = turn.job
    for earlier in tuple(job.given.values()):
        question = job.base.questions[earlier.question]
        if not earlier.holds or earlier.quantity is None or not rests_on(job, question, changed):
            continue
        try:
            anew = read_answer(job, question, earlier.text)
        except NotAnAnswer:  # there are no limits any more; what was understood then is all there is
            continue
        if anew.outcomes != earlier.outcomes:
            is_reading = not changed.startswith(("plate.", "machine."))
            judged = say.judged_anew if is_reading else say.judged_anew_by_value
            turn.tell(judged(earlier.number, question.ask))
            take_answer(turn, anew, read_now=False)


def _offer_second_test(turn: Turn, given: Given) -> None:
    """After a reading that is too close to a limit: which test would decide instead."""
    job = turn.job
    if job.phase is Phase.FIND and (second := second_test(job, given)):
        turn.tell(say.second_test(job.base.questions[second].ask))


def _overtaken(given: Given) -> Given:
    return Given(
        given.number, given.question, given.text, given.outcomes, given.quantity, given.uncertainty, holds=False
    )


def set_aside(turn: Turn, given: Given) -> None:
    """The answer no longer holds: the engine forgets it, the list of answers keeps it."""
    conclude(turn, turn.job.state.take_back(given.source))
    turn.job.given[given.number] = _overtaken(given)


def cannot_tell(turn: Turn, question: str, reason: str) -> None:
    """The question is set aside unanswered; nothing is concluded from it."""
    lacking = instrument_lacking(turn.job, question, reason)
    unable = turn.job.could_not("question", question, reason, lacking)
    turn.job.bench = in_time(turn.job.base.bench, turn.job.bench)
    turn.add(CannotTell(question, reason, unable.number))
    if lacking:
        name = turn.job.base.instruments[lacking].name
        turn.tell(say.no_test_without(name, unable.number))


def instrument_lacking(job: Job, question: str, reason: str) -> str:
    """The instrument of a test that cannot be made for want of it, as far as the reason says so; else ''."""
    form = job.base.questions[question].form
    words = reason.casefold().replace("’", "'").split()
    if not isinstance(form, Measure) or not WANTING.intersection(words):
        return ""
    named = {*job.base.instruments[form.instrument].name.casefold().replace(",", " ").split(), *ANY_INSTRUMENT}
    return form.instrument if named.intersection(word.strip(".,;") for word in words) else ""
