"""The heart: `step` takes one line. Pure: the same lines give the same job and records."""

from __future__ import annotations

from typing import assert_never

from expert.job.answers.mistyped import with_command_meant
from expert.job.answers.reading import NotAnAnswer
from expert.job.commands.obey import obey
from expert.job.prompts.as_left import make_safe_again
from expert.job.prompts.closing import close_on, leave_safely
from expert.job.prompts.conflict import conflict_of, handle_conflict
from expert.job.prompts.danger import handle_danger, leave, make_safe, may_stand, open_dangers
from expert.job.prompts.happened import with_danger_meant
from expert.job.prompts.intake import intake_on
from expert.job.prompts.proof import prove_on
from expert.job.prompts.registry import owner_at
from expert.job.prompts.repair import repair_on
from expert.job.search.searching import search_on
from expert.job.sentences import answers as say
from expert.job.state.hazards import watch
from expert.job.state.job import NO_PROMPT, Foreseen, Job, Phase, Turn, phase_after
from expert.job.wording.values import spelt_out_all
from expert.trace.records import Record, Told

LONGEST_LINE = 2_000
MOST_ROUNDS = 100  # without a prompt; the longest met in random jobs is four


class GoesRound(RuntimeError):
    """The job would never wait for the technician again; the phase in which it goes round."""


def step(job: Job, line: str, foreseen: Foreseen | None = None) -> tuple[Job, tuple[Record, ...]]:
    """What one line from the technician does: the job afterwards and all that happened, in order.

    A line that answers nothing changes nothing but says what would do. Never raises for what is typed.
    """
    if len(line) > LONGEST_LINE:
        return job, (Told(say.too_long(LONGEST_LINE)),)
    if job.phase is Phase.DONE:
        return job, (Told(say.JOB_IS_CLOSED),)
    turn = Turn(job.copy(), foreseen=foreseen)
    waiting = turn.job.prompt
    try:
        if not obey(turn, line):
            take_line(turn, line)
            if turn.job.prompt is waiting:
                turn.job.prompt = NO_PROMPT
    except NotAnAnswer as problem:
        return job, (Told(with_danger_meant(job, with_command_meant(str(problem), line), line)),)
    go_on(turn)
    return turn.job, spelt_out_all(turn)


def take_line(turn: Turn, line: str) -> None:
    """Give the line to whoever waits for it. Raises NotAnAnswer."""
    owner_at(turn.job).take(turn, line)


def go_on(turn: Turn) -> None:
    """Let the job run until it waits for the technician again.

    Raises GoesRound where it never would: a fault of the program, told as such instead of a bench that hangs.
    """
    for _ in range(MOST_ROUNDS):
        if turn.job.prompt != NO_PROMPT:
            return
        _go_one_further(turn)
    raise GoesRound(turn.job.phase.name)


def _go_one_further(turn: Turn) -> None:
    job = turn.job
    turn.note_phase()
    if job.phase is Phase.INTAKE:  # what is known must be complete before anything follows from it
        _go_on_in(job.phase, turn)
        return
    watch(turn)
    if job.leaving:
        leave_safely(turn)
    # A danger first: a contradiction is cleared up with more tests, and nothing is tested before it is safe.
    elif open_dangers(job):
        handle_danger(turn)
    elif not may_stand(job):
        leave(turn)
    elif job.unsure:
        make_safe_again(turn)
    elif conflict := conflict_of(job):
        handle_conflict(turn, *conflict)
    else:
        _go_on_in(job.phase, turn)


def _make_safe(turn: Turn) -> None:
    if make_safe(turn, then=""):
        turn.job.phase = phase_after(Phase.SAFE)


def _go_on_in(phase: Phase, turn: Turn) -> None:
    match phase:
        case Phase.INTAKE:
            intake_on(turn)
        case Phase.SAFE:
            _make_safe(turn)
        case Phase.FIND:
            search_on(turn)
        case Phase.REPAIR:
            repair_on(turn)
        case Phase.PROVE:
            prove_on(turn)
        case Phase.CLOSE | Phase.DONE:
            close_on(turn)
        case _:
            assert_never(phase)
