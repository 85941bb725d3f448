"""The engine agrees with CLIPS (through clipspy) on random ground rule bases.

Two translations. In the first, CLIPS is told which outcomes are excluded, and everything the engine does has its
counterpart: sets of outcomes, negation, contradictions, taking back. In the second, facts simply have values, as one
would write rules for CLIPS by hand.
"""

from __future__ import annotations

import random

import clips
import pytest
from hypothesis import given

from expert.engine import Network, State
from expert.language.model import Any, Condition, Is, Not
from tests.benchmarks.in_clips import ValuesInClips
from tests.benchmarks.synthetic import synthetic
from tests.engine.bases import Answer, TakeBack, examples, jobs, network_of
from tests.engine.plain import Base

TEMPLATES = (
    "(deftemplate said (slot source) (slot fact) (slot excludes))",
    "(deftemplate out (slot fact) (slot outcome))",
    "(deftemplate void (slot fact))",
    "(deftemplate fired (slot rule))",
    "(deftemplate always)",
    "(deftemplate never)",
    "(defrule hear (logical (said (fact ?f) (excludes ?o))) => (assert (out (fact ?f) (outcome ?o))))",
)


class ExclusionsInClips:
    """A base in which CLIPS keeps book of the excluded outcomes and of the facts that have none left."""

    def __init__(self, base: Base) -> None:
        self.base = base
        self.environment = clips.Environment()
        for text in TEMPLATES:
            self.environment.build(text)
        self.environment.assert_string("(always)")
        for fact, names in base.outcomes.items():
            self.environment.build(
                f"(defrule void_{fact} (logical {self._out(fact, names)}) => (assert (void (fact {fact}))))"
            )
        for rule, condition, narrowings in base.rules:
            concludes = " ".join(
                f"(assert (out (fact {fact}) (outcome {name})))"
                for fact, left in narrowings
                for name in base.outcomes[fact]
                if name not in left
            )
            when = f"(always) {self._condition(condition, True)}"
            self.environment.build(f"(defrule {rule} (logical {when}) => (assert (fired (rule {rule}))) {concludes})")
        self.environment.run()

    def _out(self, fact: str, names: tuple[str, ...]) -> str:
        return " ".join(f"(out (fact {fact}) (outcome {name}))" for name in names)

    def _condition(self, condition: Condition, wanted: bool) -> str:
        if isinstance(condition, Not):
            return self._condition(condition.part, not wanted)
        if isinstance(condition, Is):
            names = self.base.outcomes[condition.fact]
            outside = tuple(name for name in names if (name in condition.outcomes) != wanted)
            return f"(and {self._out(condition.fact, outside)} (not (void (fact {condition.fact}))))"
        if not condition.parts:
            return "(always)" if isinstance(condition, Any) != wanted else "(never)"
        word = "or" if isinstance(condition, Any) == wanted else "and"
        return f"({word} {' '.join(self._condition(part, wanted) for part in condition.parts)})"

    def say(self, source: str, fact: str, names: tuple[str, ...]) -> None:
        self.take_back(source, fact)
        for name in self.base.outcomes[fact]:
            if name not in names:
                self.environment.assert_string(f"(said (source {source}) (fact {fact}) (excludes {name}))")
        self.environment.run()

    def take_back(self, source: str, fact: str | None = None) -> None:
        for heard in tuple(self.environment.find_template("said").facts()):
            if str(heard["source"]) == source and fact in (None, str(heard["fact"])):
                heard.retract()
        self.environment.run()

    def seen(self) -> tuple[set[tuple[str, str]], set[str]]:
        """The excluded outcomes and the fired rules."""
        out, fired = (self.environment.find_template(name).facts() for name in ("out", "fired"))
        return {(str(f["fact"]), str(f["outcome"])) for f in out}, {str(f["rule"]) for f in fired}


def seen(state: State, base: Base) -> tuple[set[tuple[str, str]], set[str]]:
    out = {(fact, name) for fact in base.outcomes for name in base.outcomes[fact] if name not in state.possible(fact)}
    return out, set(state.fired)


@examples(1_000)
@given(jobs(longest=6))
def test_same_exclusions_and_fired_rules(job: tuple[Base, tuple[Answer | TakeBack, ...]]) -> None:
    base, steps = job
    state, reference = State(network_of(base)), ExclusionsInClips(base)
    assert seen(state, base) == reference.seen()
    for step in steps:
        source = step.source.replace(" ", "_")
        if isinstance(step, TakeBack):
            state.take_back(source)
            reference.take_back(source)
        else:
            state.narrow(source, step.fact, step.outcomes)
            reference.say(source, step.fact, step.outcomes)
        assert seen(state, base) == reference.seen()


@pytest.mark.parametrize("first", [pytest.param(n, id=f"bases {n} to {n + 99}") for n in range(0, 500, 100)])
def test_same_values_and_fired_rules(first: int) -> None:
    """Questions answered one after the other until all are, then some taken back; looked at after every tenth step."""
    for seed in range(first, first + 100):
        base = synthetic(12 + seed % 30, seed)
        rules = list(base.rules())
        state, reference = State(Network.build(base.outcomes, rules)), ValuesInClips(base.outcomes, rules)
        chance = random.Random(seed)
        order = chance.sample(base.questions, len(base.questions))
        steps = order + order[::3]
        for step, question in enumerate(steps):
            if step < len(order):
                state.narrow(question, question, [base.world[question]])
                reference.answer(question, base.world[question])
            else:
                state.take_back(question)
                reference.take_back(question)
            if step % 10 == 9 or step in (len(order) - 1, len(steps) - 1):
                known = {fact: state.possible(fact) for fact in base.outcomes}
                values = {fact: left[0] for fact, left in known.items() if len(left) == 1}
                assert values == reference.values()
                assert set(state.fired) == reference.fired()
