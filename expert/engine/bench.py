"""The state of the bench and the cheapest way from one state to another.

A state says how the machine stands: mains, covers, boiler, pressure. Moves change it, each at its price in minutes.
Pure: conditions on facts are answered by the caller.
"""

from __future__ import annotations

import heapq
from collections.abc import Callable, Iterable, Mapping

from expert.language.model import Bench, Condition, Move
from expert.trade.frozen import dataclass

BenchState = tuple[tuple[str, str], ...]
"""Dimension and state, in the order of the bench file; hashable."""


@dataclass(frozen=True, slots=True)
class Route:
    """The moves that bring the bench into a wanted state, in order, with their minutes in all."""

    moves: tuple[Move, ...]
    minutes: float


def bench_state(bench: Bench, states: Mapping[str, str]) -> BenchState:
    """The state with every dimension named, in the bench file's order."""
    return tuple((dimension, states[dimension]) for dimension in bench.states)


def satisfies(state: BenchState, wanted: Mapping[str, str]) -> bool:
    """Whether every wanted dimension stands as wanted."""
    now = dict(state)
    return all(now[dimension] == value for dimension, value in wanted.items())


def after(state: BenchState, makes: Mapping[str, str]) -> BenchState:
    """The state once `makes` holds."""
    return tuple((dimension, makes.get(dimension, value)) for dimension, value in state)


def in_time(bench: Bench, state: BenchState) -> BenchState:
    """The state once time has passed in it: a machine left on does not stay cold."""
    for change in bench.in_time:
        if satisfies(state, change.holds):
            state = after(state, change.becomes)
    return state


@dataclass(frozen=True, slots=True)
class Terms:
    """What routes depend on beside the bench file: two jobs on the same terms have the same routes.

    `moves`: ids of the moves that are open. `barred`: combinations of states that the bench is not brought into, also
    not on the way to another; `passed`: those that it is only brought through, with no work done in them. `priced`:
    those that cost so many minutes more to come into, for tests that have to pass before.
    """

    moves: frozenset[str]
    barred: tuple[BenchState, ...]
    passed: tuple[BenchState, ...]
    priced: tuple[tuple[BenchState, float], ...] = ()


def terms_for(
    bench: Bench,
    qualified: bool,
    holds: Callable[[Condition], bool | None],
    impossible: Iterable[str] = (),
    barred: Iterable[Mapping[str, str]] = (),
    priced: Iterable[tuple[Mapping[str, str], float]] = (),
) -> Terms:
    """The terms for one technician at one machine: without live work for those who are not qualified for it.

    `holds` tells whether a condition on facts is true (None: not known); a move whose `unless` is true, or that
    the technician has reported as `impossible`, is left out. `barred`: further combinations of states to keep out of;
    `priced`: those that cost so many minutes more.
    """
    out = set(impossible)
    return Terms(
        moves=frozenset(move.id for move in bench.moves if move.id not in out and holds(move.unless) is not True),
        barred=tuple(_pattern(states) for states in (*(() if qualified else bench.qualified_only), *barred)),
        passed=tuple(_pattern(states) for states in bench.passing_only),
        priced=tuple((_pattern(states), minutes) for states, minutes in priced),
    )


class BenchMap:
    """The bench on given terms: which states may be worked in, and the cheapest routes, each worked out once."""

    def __init__(self, bench: Bench, terms: Terms) -> None:
        self._bench = bench
        self._terms = terms
        self._moves = [move for move in bench.moves if move.id in terms.moves]
        self._live = tuple(map(_pattern, bench.qualified_only))
        self._places: dict[tuple[BenchState, bool], list[_Place]] = {}
        self._routes: dict[tuple[BenchState, BenchState], Route | None] = {}

    def allowed(self, state: BenchState) -> bool:
        """Whether the bench may be brought into the state, and stay in it for as long as a test takes."""
        return not any(self._comes_to(state, barred) for barred in self._terms.barred)

    def _comes_to(self, state: BenchState, pattern: BenchState) -> bool:
        """Whether it is so, or will be by itself: an open machine that is switched on gets warm with its covers off."""
        return _fits(state, pattern) or _fits(in_time(self._bench, state), pattern)

    def may_stay(self, state: BenchState) -> bool:
        """Whether one may work in the state, and not only pass through it."""
        return self.allowed(state) and not any(_fits(state, passed) for passed in self._terms.passed)

    def stands(self, state: BenchState, wanted: Mapping[str, str]) -> bool:
        """Whether the bench stands as wanted, or will by itself: a machine just switched on is warm in a while."""
        return satisfies(state, wanted) or satisfies(in_time(self._bench, state), wanted)

    def route(self, start: BenchState, wanted: Mapping[str, str]) -> Route | None:
        """The cheapest route to a state that satisfies `wanted`; None when there is none.

        Live work is never a way to something else: only what itself is wanted live is come to through it.
        """
        key = start, _pattern(wanted)
        if key not in self._routes:
            live = any(_fits(key[1], pattern) for pattern in self._live)
            fitting = (place.route for place in self._places_from(start, live) if place.stands(key[1]))
            self._routes[key] = next(fitting, None)
        return self._routes[key]

    def route_through(
        self, start: BenchState, first: Mapping[str, str], wanted: Mapping[str, str], leaves: Mapping[str, str]
    ) -> Route | None:
        """The cheapest route to `first`, where something is set up that `leaves` the bench so, and on to `wanted`."""
        there = self.route(start, first)
        if there is None:
            return None
        onward = self.route(after(self.reached_by(start, there), leaves), wanted)
        return onward and Route((*there.moves, *onward.moves), there.minutes + onward.minutes)

    def reached_by(self, start: BenchState, route: Route) -> BenchState:
        """The state at the end of a route."""
        for move in route.moves:
            start = after(in_time(self._bench, start), move.makes)
        return start

    def _places_from(self, start: BenchState, live: bool) -> list[_Place]:
        """The states within reach in which work may be done, the cheapest first; of equals the one with fewer moves."""
        if (start, live) not in self._places:
            reached = sorted(self._reach(start, live).items(), key=lambda item: (item[1].minutes, len(item[1].moves)))
            self._places[start, live] = [
                _Place(frozenset(state), frozenset(in_time(self._bench, state)), route)
                for state, route in reached
                if self.may_stay(state)
            ]
        return self._places[start, live]

    def _reach(self, start: BenchState, live: bool) -> dict[BenchState, Route]:
        """Every state within reach, each with its cheapest route (shortest paths, Dijkstra 1959).

        `live`: also by moves into what is for the qualified only, or within it.
        """
        done: dict[BenchState, Route] = {}
        # The running number keeps equal prices in the order of the bench file, so that a route never depends on chance.
        waiting: list[tuple[float, int, BenchState, tuple[Move, ...]]] = [(0.0, 0, start, ())]
        number = 0
        while waiting:
            minutes, _, state, moves = heapq.heappop(waiting)
            if state in done:
                continue
            done[state] = Route(moves, minutes)
            left = in_time(self._bench, state)
            now = dict(left)
            for move in self._moves:
                if not all(now[dimension] in values for dimension, values in move.needs.items()):
                    continue
                further = after(left, move.makes)
                if not live and any(_fits(further, pattern) for pattern in self._live):
                    continue
                if further not in done and self._may_lead(left, further):
                    number += 1
                    price = minutes + move.minutes + self._price(left, further)
                    heapq.heappush(waiting, (price, number, further, (*moves, move)))
        return done

    def _may_lead(self, before: BenchState, further: BenchState) -> bool:
        """Whether a move may be made: into what is allowed, or out of a state that nothing else bars as well.

        A machine that stands in several forbidden ways at once is brought out of them one by one: first the plug.
        """
        return all(_fits(before, barred) for barred in self._terms.barred if self._comes_to(further, barred))

    def _price(self, before: BenchState, further: BenchState) -> float:
        """Minutes for what has to pass before the bench comes into a state that it did not stand in."""
        return sum(
            minutes
            for pattern, minutes in self._terms.priced
            if self._comes_to(further, pattern) and not _fits(before, pattern)
        )


@dataclass(frozen=True, slots=True)
class _Place:
    """A state within reach, what becomes of it in time, and the cheapest route to it."""

    now: frozenset[tuple[str, str]]
    in_time: frozenset[tuple[str, str]]
    route: Route

    def stands(self, wanted: BenchState) -> bool:
        return self.now.issuperset(wanted) or self.in_time.issuperset(wanted)


class BenchMaps(dict[Terms, BenchMap]):
    """The map for each of the terms that jobs have come upon; made the first time it is asked for."""

    def __init__(self, bench: Bench) -> None:
        super().__init__()
        self._bench = bench

    def __missing__(self, terms: Terms) -> BenchMap:
        made = self[terms] = BenchMap(self._bench, terms)
        return made


def _pattern(states: Mapping[str, str]) -> BenchState:
    return tuple(states.items())


def _fits(state: BenchState, pattern: BenchState) -> bool:
    return all(pair in state for pair in pattern)
