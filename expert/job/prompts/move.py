"""A bench move: nothing counts as done before the technician confirms it."""

from __future__ import annotations

from typing import assert_never

from expert.engine.bench import Route, satisfies
from expert.engine.candidates import Candidate
from expert.engine.planner import Choice
from expert.job.answers.outcomes_meant import LEAST_SLIPPED, alike
from expert.job.answers.reading import NO, YES, NotAnAnswer
from expert.job.bench.moves import has_moved, may_be_asked_here
from expert.job.prompts.danger import open_dangers
from expert.job.prompts.owner import Owner, Unattended
from expert.job.prompts.proof import offer_what_was_out_of_reach
from expert.job.prompts.test_prompt import cautions_again, numbered_steps
from expert.job.sentences import safety as say
from expert.job.state.complaints_now import since_repair
from expert.job.state.job import CouldNot, Given, Job, Phase, Prompt, Turn
from expert.language.model import Move
from expert.trace.records import CannotMove
from expert.trade.quantities.units import echo

LEAST_BEGUN = 3  # letters


class BenchMove(Owner):
    drops_typed_ahead = True
    puts_work = True

    def take(self, turn: Turn, line: str) -> None:
        answer_move(turn, line)

    def put_again(self, job: Job, recorded: Prompt) -> Prompt | None:
        known = any(move.id == recorded.subject for move in job.base.bench.moves)
        return Prompt(recorded.kind, recorded.subject, ("yes", "no")) if known and job.bench else None

    def unattended(self, job: Job, at_hand: Unattended) -> list[str]:
        return [job.prompt.choices[0]]

    def why(self, job: Job) -> tuple[str, ...]:
        return (why_moved(job), say.WHY_MOVES_ARE_CONFIRMED)

    def how(self, job: Job) -> tuple[str, ...]:
        move = move_put(job)
        return (*cautions_again(job, move.cautions), *numbered_steps(move.steps), move.confirm)

    def taken_back(self, job: Job, taken: Given | CouldNot) -> None:
        if isinstance(taken, CouldNot) and taken.kind == "move":
            offer_what_was_out_of_reach(job)


def move_put(job: Job) -> Move:
    """The move that waits to be confirmed."""
    return next(move for move in job.base.bench.moves if move.id == job.prompt.subject)


def answer_move(turn: Turn, line: str) -> None:
    """The technician's confirmation: the state changes with its word only. Raises NotAnAnswer."""
    job = turn.job
    move = move_put(job)
    done = confirmed(line, move.word)
    safe = job.base.bench.safe
    leads_to_safe = not satisfies(job.bench, safe) and any(
        move.makes.get(name) == state for name, state in safe.items()
    )
    # "No" is "not yet" while the machine is not safe; a way round this move is looked for only after "can't".
    if not done and leads_to_safe and line.strip().casefold() in NO:
        raise NotAnAnswer(say.NOTHING_ELSE_FIRST.format(word=move.word or "yes"))
    if done:
        has_moved(turn, move.id, move.makes, move.minutes)
    elif move.otherwise and line.strip().casefold() in NO:
        # It was measured, and came out the other way.
        has_moved(turn, f"{move.id}: no", move.otherwise, move.minutes)
    else:
        unable = job.could_not("move", move.id)
        job.choice = None
        turn.add(CannotMove(unable.number, move.id, move.say))
        look_why_not(turn, move)


def look_why_not(turn: Turn, move: Move) -> None:
    """Where a machine does not come to what a move leads to, that is a sign: what shows it is looked at next, once."""
    job = turn.job
    due = [name for name in move.look_instead if may_be_asked_here(job, job.base.questions[name])]
    due = [name for name in due if name not in job.cannot and not _unsound(job, name) and not _looked(job, move, name)]
    if not due:
        return
    if job.phase is Phase.FIND:
        turn.tell(say.LOOK_WHY_NOT)
        look = Candidate(due[0], due[0], 0.0, 0.0, Route((), 0.0), ())
        job.choice = Choice(look, None, None, (), second_reading=True)
    elif job.phase is Phase.PROVE:
        turn.tell(say.LOOK_WHY_NOT)
        job.to_prove = tuple(dict.fromkeys((due[0], *job.to_prove)))


def _looked(job: Job, move: Move, name: str) -> bool:
    """Whether it was looked at since the move could first not be made as the machine is now."""
    failed = [one.number for one in job.unable.values() if (one.kind, one.subject) == ("move", move.id)]
    first = min((number for number in failed if number >= since_repair(job)), default=0)
    given = job.answer_to(name)
    return given is not None and given.number > first


def _unsound(job: Job, name: str) -> bool:
    """Whether it is known already that this does not come out as on a sound machine."""
    given = job.answer_to(name)
    return given is not None and not set(given.outcomes) & set(job.base.questions[name].sound)


def confirmed(line: str, word: str) -> bool:
    """Whether a move was made. Raises NotAnAnswer for anything but its own word and no.

    The word stands on the screen with the move, so that a hand that goes on typing y confirms nothing. Its first
    letters will do, and a slip in a long one.
    """
    said = line.strip().casefold().rstrip(".!")
    if _is_word(said, word) if word else said in YES | {"done"}:
        return True
    if said in NO or said.startswith(("can't", "cant", "cannot")):
        return False
    raise NotAnAnswer(say.does_not_confirm(echo(line), word or "yes"))


def _is_word(said: str, word: str) -> bool:
    """Whether the word itself was typed, at least three letters that begin it, or it with a slip.

    >>> [_is_word(said, "refitted") for said in ("refitted", "ref", "refited", "re", "fitted")], _is_word("on", "on")
    ([True, True, True, False, False], True)
    """
    begins = len(said) >= LEAST_BEGUN and word.startswith(said)
    return said == word or begins or (len(word) >= LEAST_SLIPPED and said[:1] == word[0] and alike(said, word))


def why_moved(job: Job) -> str:
    """Why the bench has to be brought into another state, by the phase of the job."""
    if open_dangers(job):
        return say.DANGER_THEREFORE_SAFE
    match job.phase:
        case Phase.INTAKE | Phase.SAFE:
            return say.SAFE_BEFORE_THE_SEARCH
        case Phase.FIND:
            wanted = "" if job.choice is None else say.the_next_test_is(job.base.questions[job.choice.best.asks].ask)
            return say.next_test_needs_the_bench(wanted)
        case Phase.REPAIR:
            return say.REPAIR_NEEDS_THE_BENCH
        case Phase.PROVE:
            return say.PROOF_NEEDS_THE_BENCH
        case Phase.CLOSE | Phase.DONE:
            return say.LEFT_IN_A_SAFE_STATE
        case _:
            assert_never(job.phase)
