"""Every bench state that a question or repair asks for can be reached by moves, however the machine arrives."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from expert.language.draft import Draft
from expert.language.model import Bench
from expert.language.problems import Problem

CODES = {"out-of-reach": "No moves lead from the way a machine arrives to the bench state that is asked for."}
_MOST_STATES = 20_000

State = Mapping[str, str]


def check(draft: Draft) -> Iterable[Problem]:
    bench = draft.bench
    names = draft.names.places
    if len(bench.moves) < len(names["move"]) or len(bench.arrives) < len(names["arrival"]):
        return  # Some are broken and left out: what they reach cannot be told.
    for arrival in bench.arrives.values():
        reached = reachable(bench, arrival.state)
        if len(reached) > _MOST_STATES:
            return
        for place, wanted in _wanted(draft):
            if wanted and not any(wanted.items() <= state.items() for state in reached):
                message = f"no moves lead to {_said(wanted)} when a machine arrives '{arrival.id}'"
                yield Problem(draft.place(*place), message, "out-of-reach")


def reachable(bench: Bench, start: State) -> list[State]:
    """Every bench state that moves can bring about, the starting state first."""
    reached = [dict(start)]
    seen = {tuple(sorted(start.items()))}
    for state in reached:  # grows while it is walked through
        for move in bench.moves:
            if all(state.get(dimension) in states for dimension, states in move.needs.items()):
                after = {**state, **move.makes}
                key = tuple(sorted(after.items()))
                if key not in seen:
                    seen.add(key)
                    reached.append(after)
        if len(reached) > _MOST_STATES:
            break
    return list(reached)


def _wanted(draft: Draft) -> Iterator[tuple[tuple[str, ...], State]]:
    """Where a bench state is asked for, and which."""
    for question in draft.questions.values():
        yield ("question", question.id, "bench"), question.bench
    for fault in draft.faults.values():
        yield ("fault", fault.id, "repair", "bench"), fault.repair.bench
    for arrival in draft.bench.arrives:
        yield ("arrival", arrival), draft.bench.safe


def _said(state: State) -> str:
    return ", ".join(f"{dimension} {value}" for dimension, value in state.items())
