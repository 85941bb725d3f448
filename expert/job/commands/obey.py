"""Plain words that may be typed at any prompt: why, how, what if, suspects, answers, take back, note and the rest."""

from __future__ import annotations

from collections.abc import Callable
from typing import assert_never

from expert.job.answers.command_words import ELSEWHERE, HELP, command_in
from expert.job.answers.reading import CANNOT_TELL, NotAnAnswer, read_answer
from expert.job.commands.convinced import be_convinced
from expert.job.commands.correcting import correct_intake, intake_meant
from expert.job.commands.taking_back import list_answers, propose_take_back
from expert.job.prompts.closing import hand_over, hand_over_as_it_stands, refuse_leaving, warn_if_not_safe
from expert.job.prompts.happened import something_happened
from expert.job.prompts.registry import owner_at
from expert.job.sentences import commands as say
from expert.job.state.job import NO_PROMPT, Job, Phase, Turn
from expert.job.state.situation import picture_of
from expert.job.state.values import unit_at_prompt
from expert.job.wording.explaining import consequences, suspects_in_words
from expert.language.model import Choice, Measure, Question, YesNo
from expert.trace.records import Noted, Paused, Worker
from expert.trade.quantities.units import echo

ANYWHERE = ("pause", "help", "danger")  # may be typed where no other command may


def obey(turn: Turn, line: str) -> bool:
    """Carry out a command; False when the line is none. Raises NotAnAnswer for a command that cannot be carried out."""
    words = line.strip()
    owner = owner_at(turn.job)
    if not owner.takes_commands and words.casefold() not in ANYWHERE:
        return False
    if corrected := intake_meant(turn.job, words):
        correct_intake(turn, corrected)
        return True
    if (known := ELSEWHERE.get(words.casefold())) and words.casefold() not in turn.job.prompt.choices:
        raise NotAnAnswer(say.no_word_here(echo(words), known))
    name = command_in(words)
    if words == "?" and not owner.takes_question_mark:
        name = "help"
    if name:
        _COMMANDS[name](turn, words[len(name) :].strip())
    return bool(name)


def _help(turn: Turn, rest: str) -> None:
    turn.tell(*HELP)


def _why(turn: Turn, rest: str) -> None:
    turn.tell(*owner_at(turn.job).why(turn.job))


def _why_more(turn: Turn, rest: str) -> None:
    turn.tell(*owner_at(turn.job).why_more(turn.job))


def _how(turn: Turn, rest: str) -> None:
    turn.tell(*owner_at(turn.job).how(turn.job))


def _what_if(turn: Turn, rest: str) -> None:
    job = turn.job
    question = owner_at(job).test(job)
    if question is None:
        raise NotAnAnswer(say.NO_TEST_TO_TRY)
    if not rest:
        raise NotAnAnswer(say.what_if_what(_example(job, question)))
    if CANNOT_TELL.fullmatch(rest):
        turn.tell(say.WHAT_IF_LEFT)
        return
    turn.tell(*consequences(job, read_answer(job, question, rest)))


def _example(job: Job, question: Question) -> str:
    match question.form:
        case YesNo():
            return "yes"
        case Choice():
            return "1"
        case Measure() as measure:
            return f"10 {unit_at_prompt(measure, job.shop.system)}".strip()
        case form:
            assert_never(form)


def _suspects(turn: Turn, rest: str) -> None:
    turn.tell(*suspects_in_words(turn.job, picture_of(turn.job)))


def _note(turn: Turn, rest: str) -> None:
    if not rest:
        raise NotAnAnswer(say.NOTE_WHAT)
    turn.add(Noted(rest))


def _figure(turn: Turn, rest: str) -> None:
    # Here and not above: the calculations are only loaded where one is wanted.
    from expert.job.figures.asked import figure_at_the_prompt
    from expert.job.figures.wording import NOT_POSSIBLE

    try:
        turn.tell(*figure_at_the_prompt(rest, turn.job.shop.system))
    except NOT_POSSIBLE as problem:
        raise NotAnAnswer(f"{problem}.") from None


def _hand_over(turn: Turn, rest: str) -> None:
    if turn.job.phase is Phase.INTAKE:
        raise NotAnAnswer(say.INTAKE_FIRST)
    if turn.job.left_at is not None:
        raise NotAnAnswer(say.WHO_WORKS_FIRST)
    if owner_at(turn.job).is_stop:
        hand_over_as_it_stands(turn)
    else:
        hand_over(turn)


def _not_qualified(turn: Turn, rest: str) -> None:
    job = turn.job
    if job.phase is Phase.INTAKE or job.left_at is not None:
        raise NotAnAnswer(say.WHO_WORKS_FIRST)
    job.qualified = False
    job.choice = None
    turn.add(Worker(job.technician, qualified=False))
    turn.tell(say.NO_LIVE_WORK)
    if owner_at(job).puts_work:
        job.prompt = NO_PROMPT  # what is put may have been live work: it is chosen anew


def _pause(turn: Turn, rest: str) -> None:
    if not owner_at(turn.job).is_stop:
        refuse_leaving(turn)
    if turn.job.left_at is not None and turn.job.prompt.subject in turn.job.base.bench.states:
        raise NotAnAnswer(say.STANDS_FIRST_THEN_PAUSE)
    turn.job.paused = True
    warn_if_not_safe(turn)
    turn.add(Paused())


_COMMANDS: dict[str, Callable[[Turn, str], None]] = {
    "help": _help,
    "why": _why,
    "why more": _why_more,
    "how": _how,
    "what if": _what_if,
    "suspects": _suspects,
    "answers": list_answers,
    "take back": propose_take_back,
    "convinced": be_convinced,
    "note": _note,
    "figure": _figure,
    "danger": something_happened,
    "hand over": _hand_over,
    "not qualified": _not_qualified,
    "pause": _pause,
}
