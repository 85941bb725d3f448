"""Where the search stands: the picture of the suspects, and all that the planner looks at. Pure."""

from __future__ import annotations

from expert.engine.suspicion import Picture, take_picture
from expert.engine.ways import Situation
from expert.job.state.bench import bench_map
from expert.job.state.complaints_now import accounted_by_repairs, complaints_now
from expert.job.state.job import Job, Phase
from expert.job.state.values import missing_first


def picture_of(job: Job) -> Picture:
    """Suspects, confirmed faults and what is not accounted for, as the job stands."""
    accounted = accounted_by_repairs(job)
    return take_picture(job.knowledge, job.state, complaints_now(job), job.answered(), job.mended(), accounted)


def situation_of(
    job: Job,
    picture: Picture,
    *,
    qualified: bool | None = None,
    any_instrument: bool = False,
    any_move: bool = False,
    no_hazards: bool = False,
    ask_anew: bool = False,
) -> Situation:
    """What the planner looks at. The rest asks what would be possible if it were so.

    `qualified`: for live work. `any_move`: what could not be done can be. `ask_anew`: what could not be told is asked.
    """
    base = job.base
    return Situation(
        knowledge=job.knowledge,
        state=job.state,
        picture=picture,
        settled_questions=frozenset(job.answered()) | frozenset(() if ask_anew else job.cannot),
        bench=job.bench,
        bench_map=bench_map(job, qualified, any_move, no_hazards),
        applies=lambda question: job.concerns_machine(base.questions[question]),
        measurable=frozenset(base.instruments) if any_instrument else job.instruments,
        missing_first=lambda question: missing_first(job, question),
        prepared=frozenset(job.prepared),
    )


def outcome_in_words(job: Job, question: str) -> str:
    return " or ".join(map(job.base.questions[question].label, job.state.possible(question)))


def look_again(job: Job) -> None:
    """What the search rests on has changed: back to it, and what was found is found anew if it still holds."""
    if job.phase in (Phase.INTAKE, Phase.SAFE):
        return
    job.found = {fault: standing for fault, standing in job.found.items() if fault in job.repaired}
    reopen(job)


def reopen(job: Job) -> None:
    """Back to the search, with everything known kept."""
    job.phase = Phase.FIND
    job.choice = None
    # What was said on the way out described a job that was thought to be done.
    job.closing.clear()
    job.to_repair = ()
