"""How the bench stands, and the moves open from there to this technician with this machine."""

from __future__ import annotations

from expert.engine.bench import BenchMap, terms_for
from expert.job.state.job import Job


def bench_map(job: Job, qualified: bool | None = None, any_move: bool = False) -> BenchMap:
    """The moves open to this technician with this machine.

    `qualified` and `any_move` ask what would be open to somebody qualified, or if what could not be done could be.
    """
    impossible: frozenset[str] = frozenset() if any_move else job.impossible
    live_work = job.qualified if qualified is None else qualified
    return job.knowledge.bench_maps[terms_for(job.base.bench, live_work, job.state.truth, impossible)]


def state_in_words(job: Job) -> str:
    """The bench state in one line, such as "mains isolated, covers off, boiler cold, pressure none"."""
    return ", ".join(f"{dimension} {state}" for dimension, state in job.bench)
