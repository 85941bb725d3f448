"""Plain words that may be typed at any prompt: why, how, what if, suspects, answers, take back, note and the rest."""

from __future__ import annotations

from collections.abc import Callable

from expert.job.answers.command_words import HELP, command_in
from expert.job.answers.reading import CANNOT_TELL, NotAnAnswer, read_answer
from expert.job.bench.moves import PREPARE, moves_waiting_for
from expert.job.commands.taking_back import confirm_take_back, list_answers, propose_take_back
from expert.job.figures.wording import NOT_POSSIBLE, figure_at_the_prompt
from expert.job.prompts.closing import hand_over, warn_if_not_safe
from expert.job.prompts.danger import STOPPED, open_dangers
from expert.job.prompts.repair import WHAT_WAS_DONE
from expert.job.state.job import Job, Phase, Turn
from expert.job.state.situation import picture_of
from expert.job.state.values import unit_at_prompt
from expert.job.wording.explaining import consequences, suspects_in_words, why_in_words, why_no_question
from expert.job.wording.readings import how_to
from expert.trace.records import Noted, Paused


def obey(turn: Turn, line: str) -> bool:
    """Carry out a command; False when the line is none. Raises NotAnAnswer for a command that cannot be carried out."""
    words = line.strip()
    if turn.job.prompt.kind == "take back" and words.casefold() not in ("pause", "help"):
        confirm_take_back(turn, words)
        return True
    name = command_in(words)
    if words == "?" and turn.job.prompt.kind not in ("question", "proof", "conflict"):
        name = "help"
    if name:
        _COMMANDS[name](turn, words[len(name) :].strip())
    return bool(name)


def _help(turn: Turn, rest: str) -> None:
    turn.tell(*HELP)


def _why(turn: Turn, rest: str) -> None:
    job = turn.job
    if moves := moves_waiting_for(job):
        turn.tell(f"It must be known before: {' Or: '.join(move.say for move in moves)}")
    elif job.prompt.kind == "question" and job.choice is not None:
        turn.tell(*why_in_words(job, picture_of(job), job.choice))
    else:
        turn.tell(*why_no_question(job))


def _how(turn: Turn, rest: str) -> None:
    job = turn.job
    if job.prompt.kind in ("question", "proof"):
        question = job.base.questions[job.prompt.subject]
        turn.tell(*_cautions(job, question.cautions), *how_to(job, question))
    elif job.prompt.subject.startswith(PREPARE):
        preparation = job.base.questions[job.prompt.subject.removeprefix(PREPARE)].prepare
        steps = preparation.steps if preparation else ()
        turn.tell(*_numbered_steps(steps), "Is that done?")
    elif job.prompt.kind == "move":
        move = next(move for move in job.base.bench.moves if move.id == job.prompt.subject)
        turn.tell(*_cautions(job, move.cautions), *_numbered_steps(move.steps), move.confirm)
    elif job.prompt.kind == "repair":
        repair = job.base.faults[job.prompt.subject].repair
        needs = ", ".join((*repair.parts, *repair.consumables))
        turn.tell(*_cautions(job, repair.cautions), *([f"You need: {needs}."] if needs else []))
        turn.tell(*_numbered_steps(repair.steps), WHAT_WAS_DONE)
    elif job.prompt.kind == "danger":
        turn.tell(*(f"STOP! {text}" for text in open_dangers(job).values()), STOPPED)
    else:
        turn.tell("There is no test to explain here. Type help for what you can type.")


def _cautions(job: Job, cautions: tuple[str, ...]) -> list[str]:
    """Cautions come before the steps, also when these are told again."""
    return [f"! {job.base.cautions[caution].text}" for caution in cautions]


def _numbered_steps(steps: tuple[str, ...]) -> list[str]:
    return [f"{number}. {step}" for number, step in enumerate(steps, 1)]


def _what_if(turn: Turn, rest: str) -> None:
    job = turn.job
    if job.prompt.kind not in ("question", "proof"):
        raise NotAnAnswer("There is no test now, so there is no answer to try out.")
    question = job.base.questions[job.prompt.subject]
    if not rest:
        unit = unit_at_prompt(question.measure, job.shop.system) if question.measure else ""
        example = f"10 {unit}".strip() if question.measure else "1" if question.labels else "yes"
        raise NotAnAnswer(f"Type what if and an answer, such as: what if {example}")
    if CANNOT_TELL.fullmatch(rest):
        turn.tell("The question is left, and the search goes on by other tests.")
        return
    turn.tell(*consequences(job, read_answer(job, question, rest)))


def _suspects(turn: Turn, rest: str) -> None:
    turn.tell(*suspects_in_words(turn.job, picture_of(turn.job)))


def _note(turn: Turn, rest: str) -> None:
    if not rest:
        raise NotAnAnswer("Type note and the remark, such as: note lime on the probe")
    turn.add(Noted(rest))


def _figure(turn: Turn, rest: str) -> None:
    try:
        turn.tell(*figure_at_the_prompt(rest, turn.job.shop.system))
    except NOT_POSSIBLE as problem:
        raise NotAnAnswer(f"{problem}.") from None


def _hand_over(turn: Turn, rest: str) -> None:
    if turn.job.phase is Phase.INTAKE:
        raise NotAnAnswer("The intake comes first. Type pause to leave the job.")
    hand_over(turn)


def _pause(turn: Turn, rest: str) -> None:
    turn.job.paused = True
    warn_if_not_safe(turn)
    turn.add(Paused())


_COMMANDS: dict[str, Callable[[Turn, str], None]] = {
    "help": _help,
    "why": _why,
    "how": _how,
    "what if": _what_if,
    "suspects": _suspects,
    "answers": list_answers,
    "take back": propose_take_back,
    "note": _note,
    "figure": _figure,
    "hand over": _hand_over,
    "pause": _pause,
}
