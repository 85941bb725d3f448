"""What has to be known before a way is taken: the dead tests that release what forbids it. Pure."""

from __future__ import annotations

from dataclasses import dataclass

from expert.engine.bench import BenchState, Route, after, in_time, satisfies
from expert.job.state.bench import bench_map
from expert.job.state.hazards import due_tests, forbidding, open_hazards, to_put
from expert.job.state.job import Job
from expert.language.model import Hazard, Move, Question


@dataclass(frozen=True, slots=True)
class Before:
    """A test that comes before a move, and the hazards, each with the act, that forbid what the move leads to."""

    test: Question
    move: Move | None
    hazards: tuple[tuple[Hazard, str], ...]


def first_test(job: Job, route: Route, start: BenchState | None = None) -> Before | None:
    """The test to put before a route is taken, the nearest of those due; None when nothing forbids the route.

    `start`: where the route begins, when the bench does not stand there yet.
    """
    found: list[tuple[float, Before]] = []
    strict = bench_map(job, strict=True)
    state = job.bench if start is None else start
    for move in route.moves:
        state = after(in_time(job.base.bench, state), move.makes)
        for hazard, act, test in _due(job, state):
            if hazard.after_repair and move is not route.moves[0]:
                continue  # measured last of all, with nothing left to be opened on the way
            way = strict.route(job.bench, test.prepare.bench if test.prepare else test.bench)
            if way is not None:
                found.append((way.minutes, Before(test, move, ((hazard, act),))))
    if not found:
        return None
    nearest = min(found, key=lambda item: item[0])[1]
    same = {b.hazards[0][0].id: b.hazards[0] for _, b in found if b.test.id == nearest.test.id}
    return Before(nearest.test, nearest.move, tuple(same.values()))


def leads_into_danger(job: Job, move: Move) -> bool:
    """Whether an open hazard forbids what a move leads to, and not yet what it leads out of."""
    left = in_time(job.base.bench, job.bench)
    here = {hazard.id for hazard, _ in forbidding(job, left)}
    return any(hazard.id not in here for hazard, _ in forbidding(job, after(left, move.makes)))


def _due(job: Job, state: BenchState) -> list[tuple[Hazard, str, Question]]:
    """The tests due for a state, each with its hazard and the act that the hazard forbids."""
    return [
        (hazard, act.id, test)
        for hazard, act in forbidding(job, state)
        for name in due_tests(job, hazard)
        if (test := to_put(job, job.base.questions[name])) is not None
    ]


def looks_at_once(job: Job) -> Before | None:
    """The look with which every job begins, where the machine stands for it as it is; None when all are done."""
    for hazard in open_hazards(job):
        if not (hazard.from_the_start and hazard.forbids):
            continue
        for name in due_tests(job, hazard):
            test = to_put(job, job.base.questions[name])
            if test is not None and satisfies(job.bench, test.bench) and test.prepare is None:
                return Before(test, None, ((hazard, hazard.forbids[0]),))
    return None


def barring(job: Job, question: Question) -> list[tuple[Hazard, str]]:
    """The hazards, each with the act, that forbid what lies on the way to a question; none where nothing does."""
    free = bench_map(job, no_hazards=True)
    prepare = question.prepare
    if prepare is not None and question.id not in job.prepared:
        route = free.route_through(job.bench, prepare.bench, question.bench, prepare.leaves)
    else:
        route = free.route(job.bench, question.bench)
    found: dict[str, tuple[Hazard, str]] = {}
    state = job.bench
    for move in route.moves if route else ():
        state = after(in_time(job.base.bench, state), move.makes)
        found |= {hazard.id: (hazard, act.id) for hazard, act in forbidding(job, state)}
    return list(found.values())
