"""The work for an answer is in proportion to what the answer changes, counted and not timed."""

from __future__ import annotations

import random
from collections.abc import Mapping

import pytest

from expert.engine import Network, State
from expert.language.model import All, Is
from tests.benchmarks.synthetic import Synthetic, synthetic
from tests.engine.plain import truth

MUST = 1.5


def conditions_on_each_fact(base: Synthetic) -> dict[str, list[Is]]:
    """Every single condition of every rule, under the fact it tests."""
    tests: dict[str, list[Is]] = {fact: [] for fact in base.outcomes}
    for _, condition, _ in base.rules():
        assert isinstance(condition, All)
        for part in condition.parts:
            assert isinstance(part, Is)
            tests[part.fact].append(part)
    return tests


def truths_changed(
    tests: Mapping[str, list[Is]], before: Mapping[str, frozenset[str]], after: Mapping[str, frozenset[str]]
) -> int:
    return sum(truth(test, before) is not truth(test, after) for fact in before for test in tests[fact])


@pytest.mark.parametrize("size", [pytest.param(n, id=f"{n} rules") for n in (100, 1_000, 10_000)])
def test_counters_touched_for_each_condition_whose_truth_changes(size: int) -> None:
    """Answers to three hundred questions, and half of them taken back."""
    base = synthetic(size)
    tests = conditions_on_each_fact(base)
    state = State(Network.build(base.outcomes, base.rules()))
    asked = random.Random(1).sample(base.questions, min(300, len(base.questions)))
    changed = 0
    for step, question in enumerate(asked + asked[::2]):
        # With few rules all facts are compared; with many, those that the engine says have changed.
        facts = base.outcomes if size == 100 else None
        before = {fact: frozenset(state.possible(fact)) for fact in facts or ()}
        if step < len(asked):
            change = state.narrow(question, question, [base.world[question]])
        else:
            change = state.take_back(question)
        after = {fact: frozenset(state.possible(fact)) for fact in facts or change.narrowed}
        if not facts:
            before = {fact: frozenset(sides[0]) for fact, sides in change.narrowed.items()}
        changed += truths_changed(tests, before, after)
    assert changed > len(asked)
    assert state.counters_touched / changed <= MUST


def test_an_answer_nobody_asks_about_touches_nothing_but_itself() -> None:
    base = synthetic(1_000)
    outcomes = base.outcomes | {"unused": ("yes", "no")}
    state = State(Network.build(outcomes, base.rules()))
    state.narrow("answer 1", "unused", ["yes"])
    assert state.counters_touched == 1
