"""Every bench state that a question or repair asks for can be reached by moves, however the machine arrives."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from expert.language.model import Bench, Move, Question
from expert.language.problems import Problem
from expert.language.reading.draft import Draft
from expert.language.sentences import checks as say

CODES = {"out-of-reach": say.OUT_OF_REACH, "move-does-nothing": say.MOVE_DOES_NOTHING}
_MOST_STATES = 20_000
_SEVERAL = 3  # so many places that ask for the same in vain are told once, where the moves are

State = Mapping[str, str]


def check(draft: Draft) -> Iterable[Problem]:
    """Moves that do nothing; where there are none, each state that is asked for and out of reach."""
    idle = [move for move in draft.bench.moves if move.makes and _held(move)]
    for move in idle:
        message = say.needs_what_it_makes(move.id, _said(move.makes))
        yield Problem(draft.place("move", move.id, "makes"), message, "move-does-nothing")
    yield from [] if idle else _out_of_reach(draft)


def _held(move: Move) -> bool:
    """Whether all that the move makes is so already wherever it is made."""
    return all(move.needs.get(dimension) == (state,) for dimension, state in move.makes.items())


def _out_of_reach(draft: Draft) -> Iterator[Problem]:
    """One problem for every place that asks for a state out of reach, or one for all that ask for the same."""
    bench = draft.bench
    names = draft.names.places
    if len(bench.moves) < len(names["move"]) or len(bench.arrives) < len(names["arrival"]):
        return  # Some are broken and left out: what they reach cannot be told.
    by_tests = alterations(draft.questions.values())
    reached = {arrival.id: reachable(bench, arrival.state, by_tests) for arrival in bench.arrives.values()}
    if any(len(states) > _MOST_STATES for states in reached.values()):
        return
    in_vain: dict[str, list[tuple[str, ...]]] = {}
    for place, wanted in _wanted(draft):
        cut_off = [arrival for arrival, states in reached.items() if not _meets(wanted, states)]
        if cut_off:
            in_vain.setdefault(say.no_moves_lead_to(_said(wanted), " or ".join(cut_off)), []).append(place)
    for message, places in in_vain.items():
        if len(places) >= _SEVERAL:
            at = draft.place("bench", "bench", "moves")
            yield Problem(at, say.asked_for_often(message, len(places)), "out-of-reach")
        else:
            yield from (Problem(draft.place(*place), message, "out-of-reach") for place in places)


def _meets(wanted: State, states: Iterable[State]) -> bool:
    return any(wanted.items() <= state.items() for state in states)


def alterations(questions: Iterable[Question]) -> tuple[tuple[State, State], ...]:
    """What tests and their setting up change of the bench: the state in which they are made, and what holds after."""
    found: list[tuple[State, State]] = []
    for question in questions:
        if question.alters:
            found.append((question.bench, question.alters))
        if question.prepare is not None and question.prepare.leaves:
            found.append((question.prepare.bench, question.prepare.leaves))
    return tuple(pair for number, pair in enumerate(found) if pair not in found[:number])


def reachable(bench: Bench, start: State, by_tests: Iterable[tuple[State, State]] = ()) -> list[State]:
    """Every bench state that moves and tests can bring about, the starting state first."""
    reached = [dict(start)]
    seen = {tuple(sorted(start.items()))}
    for now in reached:  # grows while it is walked through
        state = now
        for change in bench.in_time:
            if change.holds.items() <= state.items():
                state = {**state, **change.becomes}
        for further in _further(bench, state, by_tests):
            key = tuple(sorted(further.items()))
            if key not in seen:
                seen.add(key)
                reached.append(further)
        if len(reached) > _MOST_STATES:
            break
    return list(reached)


def _further(
    bench: Bench, state: Mapping[str, str], by_tests: Iterable[tuple[State, State]]
) -> Iterator[dict[str, str]]:
    """The states one step on."""
    for move in bench.moves:
        if all(state.get(dimension) in states for dimension, states in move.needs.items()):
            yield {**state, **move.makes}
            if move.otherwise:
                yield {**state, **move.otherwise}
    for made_in, alters in by_tests:
        if made_in.items() <= state.items():
            yield {**state, **alters}


def _wanted(draft: Draft) -> Iterator[tuple[tuple[str, ...], State]]:
    """Where a bench state is asked for, and which."""
    for question in draft.questions.values():
        yield ("question", question.id, "bench"), question.bench
        if question.prepare is not None:
            yield ("question", question.id, "prepare"), question.prepare.bench
    for fault in draft.faults.values():
        yield ("fault", fault.id, "repair", "bench"), fault.repair.bench
    yield ("bench", "bench", "safe"), draft.bench.safe


def _said(state: State) -> str:
    return ", ".join(f"{dimension} {value}" for dimension, value in state.items())
