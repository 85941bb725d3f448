"""In which order tests that are all wanted are made, and which looks or readings are made in one round. Pure.

The order is the shortest way through the bench states that they need: whoever opens a machine once does not open it
twice, and what needs a cold machine comes before what heats it.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from math import inf

from expert.engine.bench import BenchMap, BenchState, in_time
from expert.engine.knowledge import atoms_of
from expert.job.state.bench import bench_map
from expert.job.state.job import Job
from expert.job.state.values import missing_first
from expert.language.model import Measure, Question

MOST_WAYS = 4  # tried from one place: with more it would take too long for a prompt

Stop = tuple[tuple[str, str], ...]
"""The bench state that a test needs, as far as it matters to the test."""


def first_of_round(job: Job, names: Iterable[str]) -> Question:
    """Of the tests wanted, the first one listed of those with which the shortest way through all of them begins.

    What an opened machine is tested for waits until nothing is left for which it is opened; what has no way to it is
    last.
    """
    questions = [job.base.questions[name] for name in names]
    ways = bench_map(job)
    reachable = [one for one in questions if ways.route(job.bench, one.bench) is not None]
    after_opening = job.base.bench.after_opening if any(_is_open(job, one.bench) for one in reachable) else ()
    free = [one for one in reachable if one.id not in after_opening] or reachable
    standing = (one for one in free if ways.stands(job.bench, one.bench))
    if (here := next(standing, None)) is not None or not free:
        return here or questions[0]
    waiting = frozenset(_stop(one) for one in reachable) - {_stop(one) for one in free}
    begin = _Ways(job, ways, waiting).begin(frozenset(_stop(one) for one in reachable))
    return next((one for one in free if _stop(one) == begin), free[0])


def _stop(question: Question) -> Stop:
    return tuple(question.bench.items())


def _is_open(job: Job, bench: Mapping[str, str]) -> bool:
    """Whether a test in this state is made on the opened machine."""
    opened = job.base.bench.opened
    return bool(opened) and opened.items() <= bench.items()


def made_with(job: Job, first: Question) -> tuple[Question, ...]:
    """A look and the other looks still to be proved that are made with it as the bench stands, one round of the eyes;
    or a reading and the other readings. Just the first where there is no other.

    Only what has a sound outcome, nothing that is set up or altered for it, no live work, no reading that may show a
    danger while others are still taken, and not the proof of a repair itself, which decides.
    """
    own = {name for fault, proved in job.repaired.items() if not proved for name in job.base.faults[fault].prove}
    if first.id in own or not _fits_a_round(job, first):
        return (first,)
    others = [job.base.questions[name] for name in job.to_prove if name != first.id and name not in own]
    is_reading, ways = _is_reading(first), bench_map(job)
    stands = (job.bench, in_time(job.base.bench, job.bench))  # a machine that is on has warmed up after the first
    fitting = (
        one
        for one in others
        if _is_reading(one) is is_reading
        and all(ways.stands(bench, one.bench) for bench in stands)
        and _fits_a_round(job, one)
    )
    return (first, *fitting)


def _is_reading(question: Question) -> bool:
    return isinstance(question.form, Measure)


def _may_show_danger(job: Job, question: Question) -> bool:
    """Whether a rule that stops the work rests on it, or a hazard names it."""
    knowledge = job.knowledge
    return any(question.id in knowledge.rule_questions[rule] for rule in knowledge.stopping) or any(
        question.id in {atom.fact for atom in atoms_of(hazard.holds)} for hazard in job.base.hazards.values()
    )


def _fits_a_round(job: Job, question: Question) -> bool:
    return (
        bool(question.sound)
        and question.prepare is None
        and not question.alters
        and not job.base.bench.is_live(question.bench)
        and not (_is_reading(question) and _may_show_danger(job, question))
        and job.state.truth(question.only_if) is not False
        and question.possible_with(job.instruments)
        and not missing_first(job, question.id)
    )


class _Ways:
    """The shortest way through the stops that are left: exact, each part of it worked out once.

    `waiting`: the stops that come after every stop at the opened machine.
    """

    def __init__(self, job: Job, ways: BenchMap, waiting: frozenset[Stop]) -> None:
        self._job, self._ways, self._waiting = job, ways, waiting
        self._known: dict[tuple[BenchState, frozenset[Stop]], tuple[float, Stop]] = {}

    def begin(self, stops: frozenset[Stop]) -> Stop:
        return self._shortest(self._job.bench, stops)[1]

    def _shortest(self, start: BenchState, left: frozenset[Stop]) -> tuple[float, Stop]:
        if not left:
            return 0.0, ()
        if (start, left) not in self._known:
            opened_first = left - self._waiting if any(_is_open(self._job, dict(stop)) for stop in left) else left
            may_be_next = opened_first or left  # a test of the opened machine that is made on it waits for nothing
            self._known[start, left] = min(self._by(start, stop, left) for stop in self._nearest(start, may_be_next))
        return self._known[start, left]

    def _nearest(self, start: BenchState, stops: frozenset[Stop]) -> list[Stop]:
        """Those worth going to first: of many only the nearest; where the bench stands already, just there."""
        ranked = sorted(stops, key=lambda stop: (self._leg(start, stop)[0], stop))
        return ranked[: 1 if self._leg(start, ranked[0])[0] == 0 else MOST_WAYS]

    def _by(self, start: BenchState, stop: Stop, left: frozenset[Stop]) -> tuple[float, Stop]:
        minutes, reached = self._leg(start, stop)
        return minutes + self._shortest(reached, left - {stop})[0], stop

    def _leg(self, start: BenchState, stop: Stop) -> tuple[float, BenchState]:
        """The minutes of the moves to a stop, and how the bench stands once a test was made there."""
        route = self._ways.route(start, dict(stop))
        if route is None:
            return inf, start
        return route.minutes, in_time(self._job.base.bench, self._ways.reached_by(start, route))
