"""The heart: `begin` opens a job, `step` takes one line. Pure: the same lines give the same job and records."""

from __future__ import annotations

from expert.dialogue.asking import CANNOT_TELL, NotAnAnswer, cannot_tell, read_answer, take_answer
from expert.dialogue.bench_moves import answer_move
from expert.dialogue.closing import answer_close, close_on
from expert.dialogue.commands import obey
from expert.dialogue.dangers import (
    answer_conflict,
    answer_danger,
    conflict_of,
    handle_conflict,
    handle_danger,
    make_safe,
    open_dangers,
)
from expert.dialogue.intake import answer_intake, put_intake
from expert.dialogue.job import Job, Phase, Prompt, Shop, Talk
from expert.dialogue.mending import answer_proof, answer_repair, cannot_prove, prove_on, repair_on
from expert.dialogue.mistyped import with_command_meant
from expert.dialogue.searching import search_on
from expert.dialogue.standing import answer_standing, make_safe_again
from expert.engine.knowledge import Knowledge
from expert.engine.state import State
from expert.trace.records import Record, Told

LONGEST_LINE = 2_000


def begin(knowledge: Knowledge, shop: Shop, number: str) -> tuple[Job, tuple[Record, ...]]:
    """A new job and its first prompt."""
    talk = Talk(Job(knowledge, shop, number, State(knowledge.network)))
    put_intake(talk, "technician")
    return talk.job, tuple(talk.records)


def step(job: Job, line: str) -> tuple[Job, tuple[Record, ...]]:
    """What one line from the technician does: the job afterwards and all that happened, in order.

    A line that answers nothing changes nothing but says what would do. Never raises for what is typed.
    """
    if len(line) > LONGEST_LINE:
        return job, (Told(f"That is too long: more than {LONGEST_LINE} characters. Nothing was taken."),)
    if job.phase is Phase.DONE:
        return job, (Told("The job is closed."),)
    talk = Talk(job.copy())
    waiting = talk.job.prompt
    try:
        if not obey(talk, line):
            take_line(talk, line)
            if talk.job.prompt is waiting:
                talk.job.prompt = Prompt("")
    except NotAnAnswer as problem:
        return job, (Told(with_command_meant(str(problem), line)),)
    go_on(talk)
    return talk.job, tuple(talk.records)


def take_line(talk: Talk, line: str) -> None:
    """Give the line to whoever waits for it. Raises NotAnAnswer."""
    job = talk.job
    kind = job.prompt.kind
    unable = CANNOT_TELL.fullmatch(line.strip())
    match kind:
        case "intake":
            answer_intake(talk, line)
        case "move":
            answer_move(talk, line)
        case "question" | "proof" if unable:
            cannot_tell(talk, job.prompt.subject, unable.group(1) or "")
            if kind == "proof":
                cannot_prove(talk, job.prompt.subject)
            job.choice = None
        case "question":
            take_answer(talk, read_answer(job, job.base.questions[job.prompt.subject], line))
            job.choice = None
        case "proof":
            answer_proof(talk, read_answer(job, job.base.questions[job.prompt.subject], line))
        case "conflict":
            answer_conflict(talk, "set aside" if unable else line)
        case "standing":
            answer_standing(talk, line)
        case "danger":
            answer_danger(talk, line)
        case "repair":
            answer_repair(talk, line)
        case "close":
            answer_close(talk, line)
        case _:
            raise AssertionError(f"nobody waits at the prompt {kind!r}")


def go_on(talk: Talk) -> None:
    """Let the job run until it waits for the technician again."""
    job = talk.job
    while not job.prompt.kind:
        # A danger first: a contradiction is cleared up with more tests, and nothing is tested before it is safe.
        if open_dangers(job):
            handle_danger(talk)
        elif job.unsure:
            make_safe_again(talk)
        elif conflict := conflict_of(job):
            handle_conflict(talk, *conflict)
        else:
            _PHASES[job.phase](talk)


def _make_safe(talk: Talk) -> None:
    if make_safe(talk, then=""):
        talk.job.phase = Phase.FIND


_PHASES = {
    Phase.SAFE: _make_safe,
    Phase.FIND: search_on,
    Phase.REPAIR: repair_on,
    Phase.PROVE: prove_on,
    Phase.CLOSE: close_on,
}
