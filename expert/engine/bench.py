"""The state of the bench and the cheapest way from one state to another.

A state says how the machine stands: mains, covers, boiler, pressure. Moves change it, each at its price in minutes.
Pure: conditions on facts are answered by the caller.
"""

from __future__ import annotations

import heapq
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass

from expert.language.model import Bench, Condition, Move

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


class BenchMap:
    """The moves open to one technician: without live work for those who are not qualified for it.

    `holds` tells whether a condition on facts is true (None: not known); a move whose `unless` is true, or that
    the technician has reported as impossible, is left out.
    """

    def __init__(
        self,
        bench: Bench,
        qualified: bool,
        holds: Callable[[Condition], bool | None],
        impossible: Iterable[str] = (),
    ) -> None:
        self._bench = bench
        self._qualified = qualified
        barred = set(impossible)
        self._moves = [m for m in bench.moves if m.id not in barred and holds(m.unless) is not True]
        self._routes: dict[BenchState, dict[BenchState, Route]] = {}

    def allowed(self, state: BenchState) -> bool:
        """Whether this technician may bring the bench into the state."""
        return self._qualified or not any(satisfies(state, only) for only in self._bench.qualified_only)

    def may_stay(self, state: BenchState) -> bool:
        """Whether this technician may work in the state, and not only pass through it."""
        return self.allowed(state) and not any(satisfies(state, passed) for passed in self._bench.passing_only)

    def stands(self, state: BenchState, wanted: Mapping[str, str]) -> bool:
        """Whether the bench stands as wanted, or will by itself: a machine just switched on is warm in a while."""
        return satisfies(state, wanted) or satisfies(in_time(self._bench, state), wanted)

    def route(self, start: BenchState, wanted: Mapping[str, str]) -> Route | None:
        """The cheapest route to a state that satisfies `wanted`; None when there is none."""
        reached = self._routes.get(start)
        if reached is None:
            reached = self._routes[start] = self._reach(start)
        fitting = [route for state, route in reached.items() if self.stands(state, wanted) and self.may_stay(state)]
        return min(fitting, key=lambda route: (route.minutes, len(route.moves)), default=None)

    def route_through(self, start: BenchState, first: Mapping[str, str], wanted: Mapping[str, str]) -> Route | None:
        """The cheapest route to `first`, where something is set up, and from there to `wanted`."""
        there = self.route(start, first)
        if there is None:
            return None
        onward = self.route(self.reached_by(start, there), wanted)
        return onward and Route((*there.moves, *onward.moves), there.minutes + onward.minutes)

    def reached_by(self, start: BenchState, route: Route) -> BenchState:
        """The state at the end of a route."""
        for move in route.moves:
            start = after(in_time(self._bench, start), move.makes)
        return start

    def _reach(self, start: BenchState) -> dict[BenchState, Route]:
        """Every state within reach, each with its cheapest route (shortest paths, Dijkstra 1959)."""
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
                if further not in done and self.allowed(further):
                    number += 1
                    heapq.heappush(waiting, (minutes + move.minutes, number, further, (*moves, move)))
        return done
