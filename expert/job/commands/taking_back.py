"""The list of answers, and taking one back: an answer, a "can't tell", or a "can't" to a bench move."""

from __future__ import annotations

from expert.job.answers.reading import NotAnAnswer
from expert.job.prompts.danger import open_dangers
from expert.job.state.bench import state_in_words
from expert.job.state.job import CouldNot, Given, Job, Phase, Prompt, Turn
from expert.job.wording.explaining import answer_in_words
from expert.trade.quantities.units import echo

DANGER_RESTS_ON_IT = (
    "The danger rests on this answer, and whoever works at the bench cannot lift the stop. When a responsible person "
    "has looked at it, type: dealt with by NAME. Then the answer can be taken back and the test repeated."
)


def list_answers(turn: Turn, rest: str) -> None:
    """All answers so far, numbered, with what could not be told or done; then how the bench stands."""
    job = turn.job
    lines = [
        f"{number:>3}. {_answer_in_words(job, given)}{'' if given.holds else '  (no longer holds)'}"
        for number, given in sorted((job.given | job.unable).items())
    ]
    turn.tell(
        *(lines or ["No answers yet."]), f"Bench: {state_in_words(job)}." if job.bench else "Bench: not known yet."
    )


def _answer_in_words(job: Job, given: Given | CouldNot) -> str:
    if isinstance(given, Given):
        return f"{job.base.questions[given.question].ask} {answer_in_words(job, given)}"
    if given.kind == "move":
        return f"{next(move.say for move in job.base.bench.moves if move.id == given.subject)} can't"
    return f"{job.base.questions[given.subject].ask} can't tell {given.reason}".rstrip()


def propose_take_back(turn: Turn, rest: str) -> None:
    """Show what taking back would undo, then wait for yes or no. Raises NotAnAnswer."""
    job = turn.job
    given = _numbered(job, rest)
    if isinstance(given, CouldNot):
        turn.tell(
            f"Answer {given.number}: {_answer_in_words(job, given)}",
            "  It is asked again when it is needed.",
            "Take it back? Type yes or no.",
        )
        job.prompt = Prompt("take back", str(given.number), ("yes", "no"))
        return
    after = job.state.copy()
    change = after.take_back(given.source)
    undone = [
        f"  no longer {'found' if before == ('present',) else 'cleared'}: {job.fault_name(fact)}"
        for fact, (before, left) in change.narrowed.items()
        if fact in job.base.faults and len(before) == 1 and len(left) == 2
    ]
    if any(rule not in after.fired for rule in open_dangers(job)):
        raise NotAnAnswer(DANGER_RESTS_ON_IT)
    turn.tell(f"Answer {given.number}: {_answer_in_words(job, given)}")
    turn.tell(*(undone[:8] or ["  Nothing else rests on it."]))
    if len(undone) > 8:
        turn.tell(f"  and {len(undone) - 8} more")
    turn.tell("Take it back? Type yes or no.")
    turn.job.prompt = Prompt("take back", str(given.number), ("yes", "no"))


def _numbered(job: Job, rest: str) -> Given | CouldNot:
    """The answer, can't tell or can't meant by a number. Raises NotAnAnswer."""
    if job.held is not None:
        raise NotAnAnswer("How the machine stands comes first. Answer that, then take the answer back.")
    if job.phase in (Phase.INTAKE, Phase.SAFE):
        raise NotAnAnswer("There is nothing to take back yet.")
    standing = {n: given for n, given in sorted((job.given | job.unable).items()) if given.holds}
    numbers = [str(number) for number in standing]
    if not numbers:
        raise NotAnAnswer("There is no answer to take back.")
    if rest not in numbers:
        there = f"Answers that hold: {', '.join(numbers)}. Type answers to see them."
        if not rest:
            raise NotAnAnswer(f"Type take back and the number of an answer. {there}")
        if rest in {str(number) for number in job.given | job.unable}:
            raise NotAnAnswer(f"Answer {rest} no longer holds. {there}")
        raise NotAnAnswer(f"There is no answer {echo(rest)}. {there}")
    return standing[int(rest)]
