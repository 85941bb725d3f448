"""Reasons can be followed to the sources and hold at every step; reported contradictions are sufficient and minimal."""

from __future__ import annotations

from hypothesis import given

from expert.engine import Follows, Reason
from expert.language.model import Condition
from tests.engine.bases import Answer, Said, TakeBack, examples, jobs, play
from tests.engine.plain import Base, evaluate, truth

Job = tuple[Base, tuple[Answer | TakeBack, ...]]


def replayed(base: Base, said: Said, sources: frozenset[str] | tuple[str, ...], fact: str) -> frozenset[str]:
    """What is possible for the fact if only these sources have spoken, by the plain evaluator."""
    return evaluate(base, [pair for source in sources for pair in said[source].items()])[0][fact]


def check_proof(base: Base, said: Said, reason: Reason) -> None:
    """Every step of the reason holds by itself: leaves were said, conditions follow from the parts beneath them."""
    rules = {rule: (condition, dict(narrowings)) for rule, condition, narrowings in base.rules}
    left = set(base.outcomes[reason.fact])
    for cause in reason.because:
        assert cause.fact == reason.fact
        left &= set(cause.outcomes)
        if isinstance(cause, Follows):
            condition, narrowings = rules[cause.rule]
            assert set(narrowings[cause.fact]) == set(cause.outcomes)
            check_condition(base, said, condition, cause.because)
        else:
            assert set(said[cause.source][cause.fact]) == set(cause.outcomes)
    assert left == set(reason.outcomes)


def check_condition(base: Base, said: Said, condition: Condition, because: tuple[Reason, ...]) -> None:
    known = {fact: frozenset(names) for fact, names in base.outcomes.items()}
    for part in because:
        known[part.fact] &= frozenset(part.outcomes)
        check_proof(base, said, part)
    assert truth(condition, known) is True


@examples(500)
@given(jobs())
def test_every_reason_is_a_proof_from_what_was_said(job: Job) -> None:
    base, steps = job
    state, said = play(base, steps)
    for fact in base.outcomes:
        reason = state.reasons(fact)
        assert (reason.fact, reason.outcomes) == (fact, state.possible(fact))
        check_proof(base, said, reason)
    for rule, condition, _ in base.rules:
        if rule in state.fired:
            check_condition(base, said, condition, state.reason_for_rule(rule))


@examples(500)
@given(jobs())
def test_replaying_the_sources_of_a_reason_yields_the_conclusion(job: Job) -> None:
    base, steps = job
    state, said = play(base, steps)
    for fact, names in base.outcomes.items():
        if not state.conflicts():
            assert replayed(base, said, state.reasons(fact).sources(), fact) == set(state.possible(fact))
        for name in set(names) - set(state.possible(fact)):
            assert name not in replayed(base, said, state.sources_behind(fact, name), fact)


@examples(500)
@given(jobs(longest=14))
def test_reported_contradictions_are_sufficient_and_minimal(job: Job) -> None:
    base, steps = job
    state, said = play(base, steps)
    for fact in state.conflicts():
        blamed = state.conflict_answers(fact)
        assert not replayed(base, said, blamed, fact)
        for source in blamed:
            assert replayed(base, said, tuple(other for other in blamed if other != source), fact)
