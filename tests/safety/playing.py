"""One job, played by a random technician through the real, pure dialogue; every record goes before the judge."""

from __future__ import annotations

import random
from collections.abc import Callable, Iterable, Sequence
from contextlib import ExitStack
from dataclasses import dataclass, replace

from expert.engine.knowledge import Knowledge
from expert.job.beginning import begin
from expert.job.prompts.as_left import take_up_again
from expert.job.state.job import Job, Phase, Shop
from expert.job.steps import step
from expert.trace.records import Opened, Paused, PromptPut, Record, Resumed, Said
from tests.safety.cheap_search import AnyQuestion, any_order
from tests.safety.habits import Habits
from tests.safety.technicians import SENIOR, Technician

MOST_LINES = 160
TO_LEAVE = 40  # lines more, in which whoever has had enough comes out of it
PROGRAM = "played"


@dataclass(frozen=True, slots=True)
class Played:
    """A job from its opening to its end, or to as many lines as were to be typed."""

    records: tuple[Record, ...]
    lines: tuple[str, ...]
    ended: bool


def play(
    knowledge: Knowledge,
    shop: Shop,
    technician: Technician,
    hear: Callable[[Sequence[Record]], object],
    search: AnyQuestion | None = None,
    most: int = MOST_LINES,
    habits: Habits | None = None,
) -> Played:
    """Play one job. `hear` is given each batch as a trace would hold it; `search`: in place of the planner."""
    with ExitStack() as stack:
        if search is not None:
            stack.enter_context(any_order(search))
        job, first = begin(knowledge, shop, "7")
        records: list[Record] = [Opened(knowledge.base.digest, PROGRAM, "7"), *first]
        hear(records)
        lines: list[str] = []
        put = last_put(records)
        while job.phase is not Phase.DONE and len(lines) < most + TO_LEAVE:
            if len(lines) >= most:
                line = on_the_way_out(technician, job, put)
            else:
                line = "pause" if wants_to_leave(technician, job) else technician.line(job, put)
                line = line if habits is None else habits.typed(job, put, line)
            lines.append(line)
            job, replies = step(job, line)
            batch: list[Record] = [Said(line), *replies]
            left = any(isinstance(record, Paused) for record in replies)
            if left or (habits is not None and job.handed is not None and habits.takes_it_on(len(lines) < most)):
                job, again = taken_up(job, knowledge)
                batch += again
            hear(batch)
            records += batch
            put = last_put(batch) or put
    return Played(tuple(records), tuple(lines), job.phase is Phase.DONE)


def on_the_way_out(technician: Technician, job: Job, put: PromptPut) -> str:
    """Enough: the job is handed over, and what makes the machine safe is done."""
    if put.prompt == "intake" or job.prompt.kind == "take back":
        return technician.line(job, put)
    if put.prompt == "standing":
        return job.prompt.choices[0] if job.prompt.choices else SENIOR
    return job.prompt.choices[0] if put.prompt == "move" and job.prompt.choices else "hand over"


def wants_to_leave(technician: Technician, job: Job) -> bool:
    return job.phase is not Phase.INTAKE and technician.chance.random() < technician.leave


def taken_up(job: Job, knowledge: Knowledge) -> tuple[Job, list[Record]]:
    """What `expert resume` does after a pause, without a disk."""
    job = replace(job.copy(), paused=False)
    job, confirming = take_up_again(job)
    return job, [Resumed(PROGRAM, knowledge.base.digest, bool(confirming)), *confirming]


def last_put(records: Iterable[Record]) -> PromptPut:
    """The prompt that a batch ends with, if it has one."""
    found = None
    for record in records:
        if isinstance(record, PromptPut):
            found = record
    return found  # type: ignore[return-value]


def chance_of(seed: int | str) -> random.Random:
    return random.Random(f"job {seed}")
