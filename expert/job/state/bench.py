"""How the bench stands, and the moves open from there to this technician with this machine."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from expert.engine.bench import BenchMap, terms_for
from expert.job.state.hazards import acts_of, due_tests, open_hazards, to_put
from expert.job.state.job import Job
from expert.language.model import Hazard


def bench_map(
    job: Job, qualified: bool | None = None, any_move: bool = False, no_hazards: bool = False, strict: bool = False
) -> BenchMap:
    """The moves open to this technician with this machine, and the states that no open hazard forbids.

    `qualified`, `any_move` and `no_hazards` ask what would be open to somebody qualified, if what could not be done
    could be, or if no danger stood. `strict`: also without what a test may release first.
    """
    impossible: frozenset[str] = frozenset() if any_move else job.impossible
    live_work = job.qualified if qualified is None else qualified
    kept_out = [] if no_hazards else [h for h in open_hazards(job) if any(acts_of(job, h))]
    prices: dict[str, float] = {}
    while True:
        terms = terms_for(
            job.base.bench,
            live_work,
            job.state.truth,
            impossible,
            barred=[states for hazard in kept_out if hazard.id not in prices for states in _states(job, hazard)],
            priced=[(states, prices[h.id]) for h in kept_out if h.id in prices for states in _states(job, h)],
        )
        ways = job.knowledge.bench_maps[terms]
        if strict:
            return ways
        # What a dead test may still release can be done after it. That may open the way to the test of another hazard.
        found = {
            h.id: minutes for h in kept_out if h.id not in prices and (minutes := _minutes(job, h, ways)) is not None
        }
        if not found:
            return ways
        prices |= found


def _states(job: Job, hazard: Hazard) -> Iterator[Mapping[str, str]]:
    return (states for act in acts_of(job, hazard) for states in act.states)


def _minutes(job: Job, hazard: Hazard, ways: BenchMap) -> float | None:
    """Minutes of the test that may release a hazard next; None when there is none, or no way to it."""
    for name in due_tests(job, hazard):
        test = to_put(job, job.base.questions[name])
        if test is not None and ways.route(job.bench, test.prepare.bench if test.prepare else test.bench) is not None:
            return job.base.questions[name].minutes
    return None


def state_in_words(job: Job) -> str:
    """The bench state in one line, such as "mains isolated, covers off, boiler cold, pressure none"."""
    return ", ".join(f"{dimension} {state}" for dimension, state in job.bench)
