"""The heart: `begin` opens a job, `step` takes one line. Pure: the same lines give the same job and records."""

from __future__ import annotations

from expert.engine.knowledge import Knowledge
from expert.engine.state import State
from expert.job.answers.mistyped import with_command_meant
from expert.job.answers.reading import CANNOT_TELL, NotAnAnswer, read_answer
from expert.job.answers.taking import cannot_tell, take_answer
from expert.job.bench.moves import answer_move
from expert.job.commands.obey import obey
from expert.job.prompts.as_left import answer_standing, make_safe_again
from expert.job.prompts.closing import answer_close, close_on
from expert.job.prompts.conflict import answer_conflict, conflict_of, handle_conflict
from expert.job.prompts.danger import answer_danger, handle_danger, make_safe, open_dangers
from expert.job.prompts.intake import answer_intake, put_intake
from expert.job.prompts.proof import answer_proof, cannot_prove, prove_on
from expert.job.prompts.repair import answer_repair, repair_on
from expert.job.search.searching import search_on
from expert.job.state.job import Job, Phase, Prompt, Shop, Turn
from expert.trace.records import Record, Told

LONGEST_LINE = 2_000


def begin(knowledge: Knowledge, shop: Shop, number: str) -> tuple[Job, tuple[Record, ...]]:
    """A new job and its first prompt."""
    turn = Turn(Job(knowledge, shop, number, State(knowledge.network)))
    put_intake(turn, "technician")
    return turn.job, tuple(turn.records)


def step(job: Job, line: str) -> tuple[Job, tuple[Record, ...]]:
    """What one line from the technician does: the job afterwards and all that happened, in order.

    A line that answers nothing changes nothing but says what would do. Never raises for what is typed.
    """
    if len(line) > LONGEST_LINE:
        return job, (Told(f"That is too long: more than {LONGEST_LINE} characters. Nothing was taken."),)
    if job.phase is Phase.DONE:
        return job, (Told("The job is closed."),)
    turn = Turn(job.copy())
    waiting = turn.job.prompt
    try:
        if not obey(turn, line):
            take_line(turn, line)
            if turn.job.prompt is waiting:
                turn.job.prompt = Prompt("")
    except NotAnAnswer as problem:
        return job, (Told(with_command_meant(str(problem), line)),)
    go_on(turn)
    return turn.job, tuple(turn.records)


def take_line(turn: Turn, line: str) -> None:
    """Give the line to whoever waits for it. Raises NotAnAnswer."""
    job = turn.job
    kind = job.prompt.kind
    unable = CANNOT_TELL.fullmatch(line.strip())
    match kind:
        case "intake":
            answer_intake(turn, line)
        case "move":
            answer_move(turn, line)
        case "question" | "proof" if unable:
            cannot_tell(turn, job.prompt.subject, unable.group(1) or "")
            if kind == "proof":
                cannot_prove(turn, job.prompt.subject)
            job.choice = None
        case "question":
            take_answer(turn, read_answer(job, job.base.questions[job.prompt.subject], line))
            job.choice = None
        case "proof":
            answer_proof(turn, read_answer(job, job.base.questions[job.prompt.subject], line))
        case "conflict":
            answer_conflict(turn, "set aside" if unable else line)
        case "standing":
            answer_standing(turn, line)
        case "danger":
            answer_danger(turn, line)
        case "repair":
            answer_repair(turn, line)
        case "close":
            answer_close(turn, line)
        case _:
            raise AssertionError(f"nobody waits at the prompt {kind!r}")


def go_on(turn: Turn) -> None:
    """Let the job run until it waits for the technician again."""
    job = turn.job
    while not job.prompt.kind:
        # A danger first: a contradiction is cleared up with more tests, and nothing is tested before it is safe.
        if open_dangers(job):
            handle_danger(turn)
        elif job.unsure:
            make_safe_again(turn)
        elif conflict := conflict_of(job):
            handle_conflict(turn, *conflict)
        else:
            _PHASES[job.phase](turn)


def _make_safe(turn: Turn) -> None:
    if make_safe(turn, then=""):
        turn.job.phase = Phase.FIND


_PHASES = {
    Phase.SAFE: _make_safe,
    Phase.FIND: search_on,
    Phase.REPAIR: repair_on,
    Phase.PROVE: prove_on,
    Phase.CLOSE: close_on,
}
