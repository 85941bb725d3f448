"""The list of answers, and taking one back: an answer, a "can't tell", or a "can't" to a bench move."""

from __future__ import annotations

from expert.job.answers.reading import NotAnAnswer
from expert.job.prompts.danger import open_dangers
from expert.job.sentences import commands as say
from expert.job.state.bench import state_in_words
from expert.job.state.hazards import open_hazards
from expert.job.state.job import CouldNot, Given, Job, Phase, Prompt, Turn
from expert.job.wording.explaining import answer_in_words
from expert.trade.quantities.units import echo

MOST_OFFERED = 5


def list_answers(turn: Turn, rest: str) -> None:
    """All answers so far, numbered, with what could not be told or done; then how the bench stands."""
    job = turn.job
    lines = [
        f"{number:>3}. {_answer_in_words(job, given)}{'' if given.holds else '  (no longer holds)'}"
        for number, given in sorted((job.given | job.unable).items())
    ]
    turn.tell(*(lines or [say.NO_ANSWERS]), say.bench(state_in_words(job)) if job.bench else say.BENCH_NOT_KNOWN)


def _answer_in_words(job: Job, given: Given | CouldNot) -> str:
    if isinstance(given, Given):
        return f"{job.base.questions[given.question].ask} {answer_in_words(job, given)}"
    if given.kind == "move":
        return f"{next(move.say for move in job.base.bench.moves if move.id == given.subject)} can't"
    return say.could_not_tell(job.base.questions[given.subject].ask, given.reason).rstrip()


def propose_take_back(turn: Turn, rest: str) -> None:
    """Show what taking back would undo, then wait for yes or no. Raises NotAnAnswer."""
    job = turn.job
    if not rest:
        offer_last(turn)
        return
    given = _numbered(job, rest)
    if isinstance(given, CouldNot):
        turn.tell(
            say.answer_in_list(given.number, _answer_in_words(job, given)),
            say.ASKED_AGAIN,
            say.TAKE_IT_BACK,
        )
        job.prompt = Prompt("take back", str(given.number), ("yes", "no"))
        return
    after = job.state.copy()
    change = after.take_back(given.source)
    undone = [
        say.no_longer(before == ("present",), job.fault_name(fact))
        for fact, (before, left) in change.narrowed.items()
        if fact in job.base.faults and len(before) == 1 and len(left) == 2
    ]
    if any(rule not in after.fired for rule in open_dangers(job)):
        raise NotAnAnswer(say.DANGER_RESTS_ON_IT)
    turn.tell(say.answer_in_list(given.number, _answer_in_words(job, given)))
    stand = [hazard.name for hazard in open_hazards(job) if given.source in job.hazards.open[hazard.id].causes]
    turn.tell(*(undone[:8] or ([] if stand else [say.NOTHING_ELSE_RESTS])))
    turn.tell(*map(say.danger_until_answered_anew, stand))
    if len(undone) > 8:
        turn.tell(say.and_more(len(undone) - 8))
    turn.tell(say.TAKE_IT_BACK)
    turn.job.prompt = Prompt("take back", str(given.number), ("yes", "no"))


def offer_last(turn: Turn) -> None:
    """The answers given last, each with the number by which it is taken back, and what of the intake can be."""
    job = turn.job
    holding = [given for _, given in sorted((job.given | job.unable).items()) if given.holds]
    lines = [f"{given.number:>3}. {_answer_in_words(job, given)}" for given in holding[-MOST_OFFERED:]]
    turn.tell(say.WHICH_TO_TAKE_BACK if lines else say.NO_ANSWER_YET, *lines, say.INTAKE_TOO)


def _numbered(job: Job, rest: str) -> Given | CouldNot:
    """The answer, can't tell or can't meant by a number. Raises NotAnAnswer."""
    if job.left_at is not None:
        raise NotAnAnswer(say.STANDS_FIRST_THEN_TAKE_BACK)
    if job.phase in (Phase.INTAKE, Phase.SAFE):
        raise NotAnAnswer(say.NOTHING_TO_TAKE_BACK)
    standing = {n: given for n, given in sorted((job.given | job.unable).items()) if given.holds}
    numbers = [str(number) for number in standing]
    if not numbers:
        raise NotAnAnswer(say.NO_ANSWER_TO_TAKE_BACK)
    if rest not in numbers:
        there = say.answers_that_hold(", ".join(numbers))
        if rest in {str(number) for number in job.given | job.unable}:
            raise NotAnAnswer(say.holds_no_longer(rest, there))
        raise NotAnAnswer(say.no_such_answer(echo(rest), there))
    return standing[int(rest)]
