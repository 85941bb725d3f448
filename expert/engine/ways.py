"""How a question comes to be put: what the planner looks at, what has to come before, the bench moves on the way."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from expert.engine.bench import BenchMap, BenchState, Route
from expert.engine.knowledge import Knowledge
from expert.engine.state import State
from expert.engine.suspicion import Picture
from expert.language.model import Question
from expert.trade.frozen import dataclass


@dataclass(frozen=True, slots=True)
class Situation:
    """All the planner looks at. `settled_questions`: answered, or can't tell. `measurable`: instruments the shop owns.

    `missing_first` names the questions whose number a question's limits still lack; `prepared`: those set up already.
    """

    knowledge: Knowledge
    state: State
    picture: Picture
    settled_questions: frozenset[str]
    bench: BenchState
    bench_map: BenchMap
    applies: Callable[[str], bool]
    measurable: frozenset[str]
    missing_first: Callable[[str], tuple[str, ...]]
    prepared: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class Way:
    """How a question comes to be put: what is asked first, the minutes of asking, the bench route to the first."""

    asks: str
    minutes: float
    route: Route


def way_to_ask(situation: Situation, question: Question, depth: int = 4) -> Way | None:
    """The way to put a question, or None: answered, not for this machine, no instrument, no safe way there."""
    if not _may_be_put(situation, question):
        return None
    route = _route_to(situation, question)
    holds = situation.state.truth(question.only_if)
    if route is None or depth == 0 or holds is False:
        return None
    if missing := situation.missing_first(question.id):
        # A rating that the plate does not state cannot be asked for: the question has no limits on this machine.
        return _way_over(situation, question, missing[:1], depth)
    if holds:
        return Way(question.id, question.minutes, route)
    waited_for = situation.knowledge.questions_of(question.only_if)
    # What waits for the same would only lead round in a circle.
    others = [name for name in waited_for if situation.knowledge.base.questions[name].only_if != question.only_if]
    way = _way_over(situation, question, others, depth)
    # Where none of them can be told its own answer may tell; it counts only if it does (`answers/taking.py`).
    return Way(question.id, question.minutes, route) if way is None and question.id in waited_for else way


def _way_over(situation: Situation, question: Question, names: Iterable[str], depth: int) -> Way | None:
    """The way to a question over the first of others that can be put before it."""
    for name in names:
        first = situation.knowledge.base.questions.get(name)
        way = first and way_to_ask(situation, first, depth - 1)
        if way:
            return Way(way.asks, way.minutes + question.minutes, way.route)
    return None


def _route_to(situation: Situation, question: Question) -> Route | None:
    """The bench moves before a question, through the state in which it is set up unless that is done."""
    ways, bench = situation.bench_map, situation.bench
    if question.prepare is None or question.id in situation.prepared:
        return ways.route(bench, question.bench)
    return ways.route_through(bench, question.prepare.bench, question.bench, question.prepare.leaves)


def _may_be_put(situation: Situation, question: Question) -> bool:
    """Open, for this machine, and with an instrument that the shop owns."""
    return (
        question.id not in situation.settled_questions
        and situation.applies(question.id)
        and question.possible_with(situation.measurable)
    )
