"""The engine agrees with the plain evaluator after any answers, borderline answers, can't-tells and take-backs."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from expert.engine import Change, State
from tests.engine.bases import (
    Answer,
    Said,
    TakeBack,
    answers,
    bases,
    conditions,
    examples,
    jobs,
    network_of,
    pairs,
    play,
)
from tests.engine.plain import Base, evaluate, truth


def seen(state: State, base: Base) -> tuple[dict[str, frozenset[str]], frozenset[str]]:
    return {fact: frozenset(state.possible(fact)) for fact in base.outcomes}, frozenset(state.fired)


def change_between(
    base: Base,
    before: tuple[dict[str, frozenset[str]], frozenset[str]],
    after: tuple[dict[str, frozenset[str]], frozenset[str]],
) -> tuple[dict[str, tuple[tuple[str, ...], ...]], set[str], set[str]]:
    narrowed = {
        fact: tuple(tuple(name for name in names if name in side[fact]) for side in (before[0], after[0]))
        for fact, names in base.outcomes.items()
        if before[0][fact] != after[0][fact]
    }
    return narrowed, set(after[1] - before[1]), set(before[1] - after[1])


def told(change: Change) -> tuple[dict[str, tuple[tuple[str, ...], ...]], set[str], set[str]]:
    assert len(set(change.fired)) == len(change.fired)
    assert len(set(change.unfired)) == len(change.unfired)
    return dict(change.narrowed), set(change.fired), set(change.unfired)


@examples(2_000)
@given(jobs())
def test_after_every_step_of_a_job(job: tuple[Base, tuple[Answer | TakeBack, ...]]) -> None:
    base, steps = job
    state = State(network_of(base))
    said: Said = {}
    before = evaluate(base, [])
    assert seen(state, base) == before
    for step in steps:
        if isinstance(step, TakeBack):
            change = state.take_back(step.source)
            del said[step.source]
        else:
            change = state.narrow(step.source, step.fact, step.outcomes)
            said.setdefault(step.source, {})[step.fact] = step.outcomes
        after = evaluate(base, pairs(said))
        assert seen(state, base) == after
        assert told(change) == change_between(base, before, after)
        assert set(state.conflicts()) == {fact for fact, left in after[0].items() if not left}
        before = after


@examples(250)
@given(jobs(), st.data())
def test_truth_of_any_condition(job: tuple[Base, tuple[Answer | TakeBack, ...]], data: st.DataObject) -> None:
    base, steps = job
    state, said = play(base, steps)
    condition = data.draw(conditions(base.outcomes))
    assert state.truth(condition) is truth(condition, evaluate(base, pairs(said))[0])


@examples(250)
@given(jobs(), st.data())
def test_only_what_is_said_counts_and_not_the_way_there(
    job: tuple[Base, tuple[Answer | TakeBack, ...]], data: st.DataObject
) -> None:
    base, steps = job
    state, said = play(base, steps)
    other = State(state.network)
    sayings = [(source, fact, names) for source, facts in said.items() for fact, names in facts.items()]
    for source, fact, names in data.draw(st.permutations(sayings)):
        other.narrow(source, fact, names)
    assert other == state
    at_once = State(state.network)
    for source in said:
        at_once.narrow_all(source, said[source])
    assert at_once == state


@examples(250)
@given(jobs(), st.data())
def test_what_if_tells_what_an_answer_would_do_and_changes_nothing(
    job: tuple[Base, tuple[Answer | TakeBack, ...]], data: st.DataObject
) -> None:
    base, steps = job
    state, _ = play(base, steps)
    answer = data.draw(answers(base))
    before, order = state.copy(), list(state.fired)
    foreseen = state.what_if(answer.fact, answer.outcomes)
    assert state == before
    assert list(state.fired) == order
    assert before.narrow("a new source", answer.fact, answer.outcomes) == foreseen
    assert set(before.take_back("a new source").fired) == set(foreseen.unfired)
    assert before == state


@examples(200)
@given(bases(), st.data())
def test_what_if_changes_nothing_after_a_contradiction(base: Base, data: st.DataObject) -> None:
    fact = data.draw(st.sampled_from(sorted(base.outcomes)))
    state = State(network_of(base))
    state.narrow("answer 1", fact, base.outcomes[fact][:1])
    state.narrow("answer 2", fact, base.outcomes[fact][1:])
    assert fact in state.conflicts()
    before = state.copy()
    for other, names in base.outcomes.items():
        for name in names:
            state.what_if(other, [name])
            assert state == before


@examples(200)
@given(jobs(), st.data())
def test_a_copy_goes_its_own_way(job: tuple[Base, tuple[Answer | TakeBack, ...]], data: st.DataObject) -> None:
    base, steps = job
    state, said = play(base, steps)
    copy = state.copy()
    answer = data.draw(answers(base))
    copy.narrow(answer.source, answer.fact, answer.outcomes)
    assert seen(state, base) == evaluate(base, pairs(said))
