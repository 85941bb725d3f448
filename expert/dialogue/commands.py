"""Plain words that may be typed at any prompt: why, how, what if, suspects, answers, take back, note and the rest."""

from __future__ import annotations

from collections.abc import Callable

from expert.dialogue.asking import CANNOT_TELL, NotAnAnswer, how_to, read_answer
from expert.dialogue.bench_moves import PREPARE, moves_waiting_for
from expert.dialogue.closing import hand_over, warn_if_not_safe
from expert.dialogue.command_words import HELP, command_in
from expert.dialogue.dangers import STOPPED, open_dangers
from expert.dialogue.explaining import consequences, suspects_in_words, why_in_words, why_no_question
from expert.dialogue.figures_wording import NOT_POSSIBLE, figure_at_the_prompt
from expert.dialogue.job import Job, Phase, Talk
from expert.dialogue.mending import WHAT_WAS_DONE
from expert.dialogue.situation import picture_of
from expert.dialogue.taking_back import confirm_take_back, list_answers, propose_take_back
from expert.dialogue.values import unit_at_prompt
from expert.trace.records import Noted, Paused


def obey(talk: Talk, line: str) -> bool:
    """Carry out a command; False when the line is none. Raises NotAnAnswer for a command that cannot be carried out."""
    words = line.strip()
    if talk.job.prompt.kind == "take back" and words.casefold() not in ("pause", "help"):
        confirm_take_back(talk, words)
        return True
    name = command_in(words)
    if words == "?" and talk.job.prompt.kind not in ("question", "proof", "conflict"):
        name = "help"
    if name:
        _COMMANDS[name](talk, words[len(name) :].strip())
    return bool(name)


def _help(talk: Talk, rest: str) -> None:
    talk.tell(*HELP)


def _why(talk: Talk, rest: str) -> None:
    job = talk.job
    if moves := moves_waiting_for(job):
        talk.tell(f"It must be known before: {' Or: '.join(move.say for move in moves)}")
    elif job.prompt.kind == "question" and job.choice is not None:
        talk.tell(*why_in_words(job, picture_of(job), job.choice))
    else:
        talk.tell(*why_no_question(job))


def _how(talk: Talk, rest: str) -> None:
    job = talk.job
    if job.prompt.kind in ("question", "proof"):
        question = job.base.questions[job.prompt.subject]
        talk.tell(*_cautions(job, question.cautions), *how_to(job, question))
    elif job.prompt.subject.startswith(PREPARE):
        preparation = job.base.questions[job.prompt.subject.removeprefix(PREPARE)].prepare
        steps = preparation.steps if preparation else ()
        talk.tell(*_numbered_steps(steps), "Is that done?")
    elif job.prompt.kind == "move":
        move = next(move for move in job.base.bench.moves if move.id == job.prompt.subject)
        talk.tell(*_cautions(job, move.cautions), *_numbered_steps(move.steps), move.confirm)
    elif job.prompt.kind == "repair":
        repair = job.base.faults[job.prompt.subject].repair
        needs = ", ".join((*repair.parts, *repair.consumables))
        talk.tell(*_cautions(job, repair.cautions), *([f"You need: {needs}."] if needs else []))
        talk.tell(*_numbered_steps(repair.steps), WHAT_WAS_DONE)
    elif job.prompt.kind == "danger":
        talk.tell(*(f"STOP! {text}" for text in open_dangers(job).values()), STOPPED)
    else:
        talk.tell("There is no test to explain here. Type help for what you can type.")


def _cautions(job: Job, cautions: tuple[str, ...]) -> list[str]:
    """Cautions come before the steps, also when these are told again."""
    return [f"! {job.base.cautions[caution].text}" for caution in cautions]


def _numbered_steps(steps: tuple[str, ...]) -> list[str]:
    return [f"{number}. {step}" for number, step in enumerate(steps, 1)]


def _what_if(talk: Talk, rest: str) -> None:
    job = talk.job
    if job.prompt.kind not in ("question", "proof"):
        raise NotAnAnswer("There is no test now, so there is no answer to try out.")
    question = job.base.questions[job.prompt.subject]
    if not rest:
        unit = unit_at_prompt(question.measure, job.shop.system) if question.measure else ""
        example = f"10 {unit}".strip() if question.measure else "1" if question.labels else "yes"
        raise NotAnAnswer(f"Type what if and an answer, such as: what if {example}")
    if CANNOT_TELL.fullmatch(rest):
        talk.tell("The question is left, and the search goes on by other tests.")
        return
    talk.tell(*consequences(job, read_answer(job, question, rest)))


def _suspects(talk: Talk, rest: str) -> None:
    talk.tell(*suspects_in_words(talk.job, picture_of(talk.job)))


def _note(talk: Talk, rest: str) -> None:
    if not rest:
        raise NotAnAnswer("Type note and the remark, such as: note lime on the probe")
    talk.add(Noted(rest))


def _figure(talk: Talk, rest: str) -> None:
    try:
        talk.tell(*figure_at_the_prompt(rest, talk.job.shop.system))
    except NOT_POSSIBLE as problem:
        raise NotAnAnswer(f"{problem}.") from None


def _hand_over(talk: Talk, rest: str) -> None:
    if talk.job.phase is Phase.INTAKE:
        raise NotAnAnswer("The intake comes first. Type pause to leave the job.")
    hand_over(talk)


def _pause(talk: Talk, rest: str) -> None:
    talk.job.paused = True
    warn_if_not_safe(talk)
    talk.add(Paused())


_COMMANDS: dict[str, Callable[[Talk, str], None]] = {
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
