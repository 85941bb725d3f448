"""Random rule bases and random jobs on them, small enough that a failing one can be read.

`ENGINE_TIMES=50 pytest tests/engine` tries fifty times as many.
"""

from __future__ import annotations

import os
from collections.abc import Mapping
from dataclasses import dataclass

from hypothesis import HealthCheck, settings
from hypothesis import strategies as st

from expert.engine import Network, State
from expert.language.model import All, Any, Condition, Is, Not
from tests.engine.plain import Base

NAMES = ("a", "b", "c", "d")
SOURCES = ("answer 1", "answer 2", "answer 3", "answer 4", "answer 5", "machine data")
Said = dict[str, dict[str, tuple[str, ...]]]


def examples(ordinary: int) -> settings:
    """This many examples in the ordinary run, ENGINE_TIMES as many in a longer one."""
    times = int(os.environ.get("ENGINE_TIMES", "1"))
    slow = [HealthCheck.too_slow, HealthCheck.data_too_large]
    return settings(max_examples=ordinary * times, deadline=None, suppress_health_check=slow)


def network_of(base: Base) -> Network:
    return Network.build(base.outcomes, base.rules)


@st.composite
def some_outcomes(draw: st.DrawFn, names: tuple[str, ...], least: int = 1) -> tuple[str, ...]:
    picked = draw(st.integers(least, 2 ** len(names) - 1))
    return tuple(name for place, name in enumerate(names) if picked >> place & 1)


@st.composite
def conditions(draw: st.DrawFn, outcomes: Mapping[str, tuple[str, ...]], depth: int = 0) -> Condition:
    shape = draw(st.sampled_from(("is", "is", "is", "all", "any", "not") if depth < 3 else ("is",)))
    if shape == "is":
        fact = draw(st.sampled_from(tuple(outcomes)))
        # Now and then no outcome at all, or every one.
        return Is(fact, draw(some_outcomes(outcomes[fact], least=0)))
    if shape == "not":
        return Not(draw(conditions(outcomes, depth + 1)))
    parts = tuple(draw(conditions(outcomes, depth + 1)) for _ in range(draw(st.sampled_from((2, 1, 3, 0)))))
    return All(parts) if shape == "all" else Any(parts)


@st.composite
def bases(draw: st.DrawFn) -> Base:
    """Three to eight facts, one to ten rules; a rule's conclusions come after its premises in the alphabet of facts."""
    widths = draw(st.lists(st.integers(2, 4), min_size=3, max_size=8))
    outcomes = {f"fact_{number}": NAMES[:width] for number, width in enumerate(widths)}
    names = tuple(outcomes)
    rules = []
    for number in range(draw(st.integers(1, 10))):
        cut = draw(st.integers(1, len(names) - 1))
        condition = draw(conditions({name: outcomes[name] for name in names[:cut]}))
        facts = draw(st.lists(st.sampled_from(names[cut:]), max_size=2, unique=True))
        rules.append(
            (f"rule_{number}", condition, tuple((fact, draw(some_outcomes(outcomes[fact]))) for fact in facts))
        )
    # The engine must find the order by itself.
    return Base({name: outcomes[name] for name in draw(st.permutations(names))}, tuple(rules))


@dataclass(frozen=True)
class Answer:
    """Something said about a fact: one outcome, a borderline reading (several), or can't tell (all)."""

    source: str
    fact: str
    outcomes: tuple[str, ...]


@dataclass(frozen=True)
class TakeBack:
    source: str


@st.composite
def answers(draw: st.DrawFn, base: Base) -> Answer:
    fact = draw(st.sampled_from(sorted(base.outcomes)))
    return Answer(draw(st.sampled_from(SOURCES)), fact, draw(some_outcomes(base.outcomes[fact])))


@st.composite
def jobs(draw: st.DrawFn, longest: int = 10) -> tuple[Base, tuple[Answer | TakeBack, ...]]:
    """A base and what happens on it. Only what has been said is taken back."""
    base = draw(bases())
    steps: list[Answer | TakeBack] = []
    spoken: set[str] = set()
    for _ in range(draw(st.integers(1, longest))):
        if spoken and draw(st.integers(0, 3)) == 0:
            source = draw(st.sampled_from(sorted(spoken)))
            spoken.remove(source)
            steps.append(TakeBack(source))
        else:
            steps.append(draw(answers(base)))
            spoken.add(steps[-1].source)
    return base, tuple(steps)


def play(base: Base, steps: tuple[Answer | TakeBack, ...]) -> tuple[State, Said]:
    """The state after these steps, and what is then said."""
    state = State(network_of(base))
    said: Said = {}
    for step in steps:
        if isinstance(step, TakeBack):
            state.take_back(step.source)
            del said[step.source]
        else:
            state.narrow(step.source, step.fact, step.outcomes)
            said.setdefault(step.source, {})[step.fact] = step.outcomes
    return state, said


def pairs(said: Said) -> list[tuple[str, tuple[str, ...]]]:
    """What is said, without who said it."""
    return [pair for facts in said.values() for pair in facts.items()]
