"""Plain words that may be typed at any prompt: why, how, what if, suspects, answers, take back, note and the rest."""

from __future__ import annotations

from collections.abc import Callable

from expert.dialogue.asking import NotAnAnswer, how_to, read_answer
from expert.dialogue.bench_moves import PREPARE
from expert.dialogue.closing import hand_over, warn_if_not_safe
from expert.dialogue.explaining import consequences, suspects_in_words, why_in_words, why_no_question
from expert.dialogue.figures_wording import NOT_POSSIBLE, figure_at_the_prompt
from expert.dialogue.job import Phase, Talk
from expert.dialogue.situation import picture_of
from expert.dialogue.taking_back import confirm_take_back, list_answers, propose_take_back
from expert.trace.records import Noted, Paused

HELP = (
    "Answer the question, or type one of these:",
    "  why               why this is asked",
    "  how               how to make the test, what a sound machine shows",
    "  can't tell        leave this question; a reason may follow",
    "  what if ANSWER    what an answer would mean, without giving it",
    "  suspects          what may be at fault, likeliest first",
    "  answers           all answers so far, numbered",
    "  take back N       take answer N back",
    "  note TEXT         keep a remark with the job",
    "  figure NAME ...   a calculation of the trade; figure list shows them",
    "  hand over         end here, with a summary for somebody else",
    "  pause             leave; expert resume goes on",
    "  help              this list",
)


def obey(talk: Talk, line: str) -> bool:
    """Carry out a command; False when the line is none. Raises NotAnAnswer for a command that cannot be carried out."""
    words = line.strip()
    if talk.job.prompt.kind == "take back" and words.casefold() not in ("pause", "help"):
        confirm_take_back(talk, words)
        return True
    name = command_in(words)
    if name:
        _COMMANDS[name](talk, words[len(name) :].strip())
    return bool(name)


def command_in(words: str) -> str:
    """The command that a line gives, or ''.

    >>> command_in("Take back 3"), command_in("why"), command_in("why not")
    ('take back', 'why', '')
    """
    line = words.strip().casefold()
    for name in _COMMANDS:
        if line == name or (line.startswith(name + " ") and name not in _ALONE):
            return name
    return ""


def _help(talk: Talk, rest: str) -> None:
    talk.tell(*HELP)


def _why(talk: Talk, rest: str) -> None:
    job = talk.job
    if job.prompt.kind == "question" and job.choice is not None:
        talk.tell(*why_in_words(job, picture_of(job), job.choice))
    else:
        talk.tell(*why_no_question(job))


def _how(talk: Talk, rest: str) -> None:
    job = talk.job
    if job.prompt.kind in ("question", "proof"):
        talk.tell(*how_to(job, job.base.questions[job.prompt.subject]))
    elif job.prompt.subject.startswith(PREPARE):
        preparation = job.base.questions[job.prompt.subject.removeprefix(PREPARE)].prepare
        steps = preparation.steps if preparation else ()
        talk.tell(*(f"{number}. {step}" for number, step in enumerate(steps, 1)), "Is that done?")
    elif job.prompt.kind == "move":
        move = next(move for move in job.base.bench.moves if move.id == job.prompt.subject)
        talk.tell(*(f"{number}. {step}" for number, step in enumerate(move.steps, 1)), move.confirm)
    elif job.prompt.kind == "repair":
        steps = job.base.faults[job.prompt.subject].repair.steps
        talk.tell(*(f"{number}. {step}" for number, step in enumerate(steps, 1)))
    else:
        talk.tell("There is no test to explain here. Type help for what you can type.")


def _what_if(talk: Talk, rest: str) -> None:
    job = talk.job
    if job.prompt.kind not in ("question", "proof"):
        raise NotAnAnswer("There is no question now for which an answer could be supposed.")
    if not rest:
        raise NotAnAnswer("Type what if and an answer, such as: what if yes")
    given = read_answer(job, job.base.questions[job.prompt.subject], rest)
    talk.tell(*consequences(job, given))


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
_ALONE = {"help", "why", "how", "suspects", "answers", "hand over", "pause"}
COMMAND_WORDS = ("can't tell", *_COMMANDS)
