"""Contradiction: answers that cannot all be right, one of them to be repeated."""

from __future__ import annotations

from collections.abc import Iterable

from expert.engine.bench import Route
from expert.engine.candidates import Candidate
from expert.engine.planner import Choice
from expert.job.answers.reading import CANNOT_TELL, NotAnAnswer
from expert.job.answers.taking import cannot_tell, set_aside
from expert.job.prompts.owner import Owner, Unattended
from expert.job.sentences import search as say
from expert.job.state.inference import conclude
from expert.job.state.job import Given, Job, Prompt, Turn
from expert.job.state.situation import reopen
from expert.job.wording.explaining import answer_in_words
from expert.trace.records import Conflict, PromptPut
from expert.trade.quantities.units import echo


def conflict_of(job: Job) -> tuple[str, tuple[str, ...]] | None:
    """The first fact without any possible outcome, and the sources that cannot all hold."""
    conflicts = job.state.conflicts()
    return (conflicts[0], job.state.conflict_answers(conflicts[0])) if conflicts else None


def handle_conflict(turn: Turn, fact: str, sources: tuple[str, ...]) -> None:
    """A repair that the tests speak against counts as failed; answers that contradict each other are shown together."""
    job = turn.job
    repairs = [source for source in sources if source.startswith("repair ")]
    if repairs:
        for source in repairs:
            fault = source.removeprefix("repair ")
            conclude(turn, job.state.take_back(source))
            job.repaired[fault] = False
            turn.tell(say.repair_failed_by_tests(job.fault_name(fault)))
        reopen(job)
        return
    answers = answers_among(job, sources)
    turn.add(Conflict(fact, tuple(given.number for given in answers)))
    turn.tell(say.CANNOT_ALL_BE_RIGHT)
    asked = ((given, job.base.questions[given.question].ask) for given in answers)
    turn.tell(*(f"{given.number}. {ask} {answer_in_words(job, given)}" for given, ask in asked))
    first = repeat_first(job, answers)
    text = say.which_to_repeat(first.number, _why_first(job, first, answers))
    turn.add(PromptPut("conflict", fact, text))
    job.prompt = Prompt("conflict", fact, tuple(str(given.number) for given in answers))


def answers_among(job: Job, sources: tuple[str, ...]) -> list[Given]:
    return [given for given in job.given.values() if given.source in sources]


def repeat_first(job: Job, answers: list[Given]) -> Given:
    """The answer to repeat first: the quickest test, of equal ones the one with the poorer instrument."""
    return min(answers, key=lambda given: (job.base.questions[given.question].minutes, -_share(given)))


def _share(given: Given) -> float:
    """The uncertainty as a share of the reading; an observation by eye counts as certain."""
    if given.quantity is None or given.uncertainty is None or not given.quantity.value:
        return 0.0
    return abs(given.uncertainty.value / given.quantity.value)


def _why_first(job: Job, first: Given, answers: list[Given]) -> str:
    minutes = job.base.questions[first.question].minutes
    as_quick = [given for given in answers if job.base.questions[given.question].minutes == minutes]
    if len(as_quick) == 1:
        return say.the_quickest(minutes)
    if _share(first) > max(_share(given) for given in as_quick if given is not first):
        return say.the_least_certain(minutes)
    return say.none_is_quicker(minutes)


def answer_conflict(turn: Turn, line: str) -> None:
    """Ask one of the contradicting answers again, or set all of them aside. Raises NotAnAnswer."""
    job = turn.job
    conflict = conflict_of(job)
    answers = answers_among(job, conflict[1]) if conflict else []
    word = line.strip().casefold()
    if word == "set aside":
        for given in answers:
            set_aside(turn, given)
            cannot_tell(turn, given.question, say.CONTRADICTS_OTHERS)
        job.choice = None
        turn.tell(say.ALL_SET_ASIDE)
        return
    chosen = [given for given in answers if word == str(given.number)]
    if not chosen:
        numbers = ", ".join(str(given.number) for given in answers)
        raise NotAnAnswer(say.none_of_the_answers(echo(line), numbers))
    set_aside(turn, chosen[0])
    reopen(job)
    # Asked again like any other question: the bench may have moved on since.
    again = Candidate(chosen[0].question, chosen[0].question, 0.0, 0.0, Route((), 0.0), ())
    job.choice = Choice(again, None, None, ())


class Contradiction(Owner):
    takes_question_mark = True

    def take(self, turn: Turn, line: str) -> None:
        answer_conflict(turn, "set aside" if CANNOT_TELL.fullmatch(line.strip()) else line)

    def put_again(self, job: Job, recorded: Prompt) -> Prompt | None:
        return recorded if conflict_of(job) else None

    def unattended(self, job: Job, at_hand: Unattended) -> list[str]:
        return ["can't tell"]

    def why(self, job: Job) -> tuple[str, ...]:
        return (say.WHY_REPEATED,)

    def offers(self, job: Job) -> Iterable[tuple[str, str]]:
        for number in job.prompt.choices:
            given = job.given[int(number)]
            yield number, f"{number}. {job.base.questions[given.question].ask} {answer_in_words(job, given)}"
