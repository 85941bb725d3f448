"""Plain words that may be typed at any prompt: why, how, what if, suspects, answers, take back, note and the rest."""

from __future__ import annotations

from collections.abc import Callable

from expert.dialogue.asking import NO, YES, NotAnAnswer, how_to, read_answer, set_aside
from expert.dialogue.bench_moves import PREPARE, state_in_words
from expert.dialogue.closing import hand_over, warn_if_not_safe
from expert.dialogue.explaining import consequences, suspects_in_words, why_in_words, why_no_question
from expert.dialogue.figures_wording import NOT_POSSIBLE, figure_at_the_prompt
from expert.dialogue.job import Given, Job, Phase, Prompt, Talk
from expert.dialogue.mending import proof_is_withdrawn
from expert.dialogue.situation import picture_of, reopen
from expert.trace.records import Noted, Paused, TakenBack
from expert.trade.units import echo

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
        _confirm_take_back(talk, words)
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


def _answers(talk: Talk, rest: str) -> None:
    job = talk.job
    lines = [
        f"{given.number:>3}. {job.base.questions[given.question].ask} {given.text}"
        + (f" ({' or '.join(given.outcomes)})" if given.quantity else "")
        + ("" if given.holds else "  (no longer holds)")
        for given in job.given.values()
    ]
    lines += [
        f"  -. {job.base.questions[question].ask} can't tell {reason}".rstrip()
        for question, reason in job.cannot.items()
    ]
    talk.tell(
        *(lines or ["No answers yet."]), f"Bench: {state_in_words(job)}." if job.bench else "Bench: not known yet."
    )


def _take_back(talk: Talk, rest: str) -> None:
    job = talk.job
    given = _numbered(job, rest)
    after = job.state.copy()
    change = after.take_back(given.source)
    undone = [
        f"  no longer concluded: {job.fault_name(fact)} {before[0]}"
        for fact, (before, left) in change.narrowed.items()
        if fact in job.base.faults and len(before) == 1 and len(left) == 2
    ]
    talk.tell(f"Take back {given.number}. {job.base.questions[given.question].ask} {given.text}?")
    talk.tell(*(undone[:8] or ["  Nothing else rests on it."]))
    if len(undone) > 8:
        talk.tell(f"  and {len(undone) - 8} more")
    talk.tell("Type yes or no.")
    talk.job.prompt = Prompt("take back", str(given.number), ("yes", "no"))


def _confirm_take_back(talk: Talk, words: str) -> None:
    job = talk.job
    if words.casefold() in YES:
        given = job.given[int(job.prompt.subject)]
        set_aside(talk, given)
        talk.add(TakenBack(given.number, given.question))
        proof_is_withdrawn(job, given.question)
        job.closing.pop("ending", None)
        dangers = {rule for rule in job.dangers_met if rule not in job.state.fired}
        for rule in dangers:
            del job.dangers_met[rule]
            job.dangers_told.discard(rule)
        if job.outcome == "stopped" and not set(job.dangers_met) - job.dangers_cleared:
            job.outcome = ""
        job.found = {fault: standing for fault, standing in job.found.items() if fault in job.repaired}
        reopen(job)
    elif words.casefold() not in NO:
        raise NotAnAnswer(f"{echo(words)} is no answer here. Type yes to take it back, no to leave it.")
    job.prompt = Prompt("")


def _numbered(job: Job, rest: str) -> Given:
    """The answer meant by a number. Raises NotAnAnswer."""
    if job.phase not in (Phase.FIND, Phase.REPAIR, Phase.PROVE, Phase.CLOSE):
        raise NotAnAnswer("There is nothing to take back yet.")
    numbers = [str(given.number) for given in job.given.values() if given.holds]
    if not numbers:
        raise NotAnAnswer("There is no answer to take back.")
    if rest not in numbers:
        raise NotAnAnswer(
            f"{echo(rest)} is no answer that holds. There are: {', '.join(numbers)}. Type answers to see them."
        )
    return job.given[int(rest)]


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
    "answers": _answers,
    "take back": _take_back,
    "note": _note,
    "figure": _figure,
    "hand over": _hand_over,
    "pause": _pause,
}
_ALONE = {"help", "why", "how", "suspects", "answers", "hand over", "pause"}
COMMAND_WORDS = ("can't tell", *_COMMANDS)
