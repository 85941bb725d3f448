"""What the engine promises, case by case, on a base small enough to follow by hand."""

from __future__ import annotations

import pytest

from expert.engine import Circular, Follows, Network, Reason, Said, State, UnknownName
from expert.engine.network import Rules
from expert.language.model import ALWAYS, All, Any, Is, Not

OUTCOMES = {
    "level": ("low", "normal", "high"),
    "pump": ("runs", "silent"),
    "fed": ("yes", "no"),
    "tank": ("empty", "leaking", "sound"),
    "alarm": ("on", "off"),
}
RULES: Rules = (
    ("starved", All((Is("level", ("low",)), Is("pump", ("runs",)))), (("fed", ("no",)),)),
    ("fed_well", Not(Is("level", ("low",))), (("fed", ("yes",)),)),
    ("blame_the_tank", Is("fed", ("no",)), (("tank", ("empty", "leaking")),)),
    ("call", Any((Is("tank", ("empty", "leaking")), Is("pump", ("silent",)))), (("alarm", ("on",)),)),
)


@pytest.fixture
def state() -> State:
    return State(Network.build(OUTCOMES, RULES))


def test_a_chain_of_rules_fires_in_order(state: State) -> None:
    state.narrow("answer 1", "level", ["low"])
    change = state.narrow("answer 2", "pump", ["runs"])
    assert change.fired == ("starved", "blame_the_tank", "call")
    assert change.unfired == ()
    assert change.narrowed == {
        "pump": (("runs", "silent"), ("runs",)),
        "fed": (("yes", "no"), ("no",)),
        "tank": (("empty", "leaking", "sound"), ("empty", "leaking")),
        "alarm": (("on", "off"), ("on",)),
    }


def test_taking_back_widens_what_rested_on_it_alone(state: State) -> None:
    state.narrow("answer 1", "level", ["low"])
    state.narrow("answer 2", "pump", ["runs"])
    state.narrow("answer 3", "tank", ["leaking"])
    change = state.take_back("answer 2")
    assert change.unfired == ("starved", "blame_the_tank")
    assert state.fired == {"call"}
    assert state.possible("tank") == ("leaking",)
    assert state.possible("fed") == ("yes", "no")


def test_a_new_answer_from_the_same_source_replaces_the_old(state: State) -> None:
    state.narrow("answer 1", "level", ["low"])
    change = state.narrow("answer 1", "level", ["normal", "high"])
    assert change.narrowed["level"] == (("low",), ("normal", "high"))
    assert state.possible("fed") == ("yes",)
    assert state.sources == {"answer 1": {"level": ("normal", "high")}}


def test_a_rule_that_holds_before_and_after_is_not_news() -> None:
    odd = Any((Is("level", ("low",)), Is("level", ("high",))))
    state = State(Network.build(OUTCOMES, [("odd", odd, (("alarm", ("on",)),))]))
    assert state.narrow("answer 1", "level", ["low"]).fired == ("odd",)
    assert state.narrow("answer 1", "level", ["high"]) == ({"level": (("low",), ("high",))}, (), ())
    assert state.fired == {"odd"}


def test_a_borderline_answer_decides_what_holds_either_way(state: State) -> None:
    assert state.narrow("answer 1", "level", ["normal", "high"]).fired == ("fed_well",)
    assert state.truth(Is("level", ("normal",))) is None


def test_one_source_can_speak_of_several_facts(state: State) -> None:
    change = state.narrow_all("machine data", {"level": ["low"], "pump": ["runs"]})
    assert change.fired == ("starved", "blame_the_tank", "call")
    assert state.take_back("machine data").unfired == change.fired
    assert state == State(state.network)


def test_nothing_follows_from_a_contradiction(state: State) -> None:
    state.narrow("answer 1", "level", ["low"])
    state.narrow("answer 2", "pump", ["runs"])
    change = state.narrow("answer 3", "level", ["high"])
    assert state.conflicts() == ("level",)
    assert change.fired == ()
    assert change.unfired == ("starved", "blame_the_tank", "call")
    assert state.truth(Is("level", ("low",))) is None
    assert state.truth(Not(Is("level", ("low",)))) is None
    assert state.conflict_answers("level") == ("answer 1", "answer 3")


def test_a_contradiction_between_conclusions_names_only_the_answers_it_needs(state: State) -> None:
    state.narrow("answer 1", "alarm", ["off"])
    state.narrow("answer 2", "level", ["low"])
    state.narrow("answer 3", "pump", ["runs"])
    state.narrow("answer 4", "fed", ["yes", "no"])
    assert state.conflicts() == ("alarm",)
    assert state.conflict_answers("alarm") == ("answer 1", "answer 2", "answer 3")


def test_reasons_lead_down_to_the_answers(state: State) -> None:
    state.narrow("answer 1", "level", ["low"])
    state.narrow("answer 2", "pump", ["runs"])
    low = Reason("level", ("low",), (Said("answer 1", "level", ("low",)),))
    runs = Reason("pump", ("runs",), (Said("answer 2", "pump", ("runs",)),))
    not_fed = Reason("fed", ("no",), (Follows("starved", "fed", ("no",), (low, runs)),))
    left = ("empty", "leaking")
    assert state.reasons("tank") == Reason("tank", left, (Follows("blame_the_tank", "tank", left, (not_fed,)),))
    assert state.reason_for_rule("blame_the_tank") == (not_fed,)
    assert state.reasons("tank").sources() == {"answer 1", "answer 2"}
    assert state.sources_behind("tank", "sound") == {"answer 1", "answer 2"}


def test_what_fell_out_of_a_held_back_rule_names_the_contradiction_too() -> None:
    """`b` is kept by one answer only because two others contradict each other about `a`."""
    outcomes = {"a": ("yes", "no"), "b": ("yes", "no"), "c": ("yes", "no")}
    rules: Rules = [
        ("a_speaks_against_b", Is("a", ("yes",)), (("b", ("no",)),)),
        ("b_leads_to_c", Is("b", ("yes",)), (("c", ("yes",)),)),
    ]
    state = State(Network.build(outcomes, rules))
    state.narrow_all("answer 1", {"a": ["yes"], "b": ["yes"]})
    assert state.conflicts() == ("b",)
    state.narrow("answer 2", "a", ["no"])
    assert state.conflicts() == ("a",)
    assert state.possible("c") == ("yes",)
    assert state.reasons("c").sources() == {"answer 1"}
    assert state.sources_behind("c", "no") == {"answer 1", "answer 2"}
    state.narrow("answer 3", "c", ["no"])
    assert state.conflict_answers("c") == ("answer 1", "answer 2", "answer 3")


def test_rules_that_contradict_each_other_need_no_answer() -> None:
    """Taken one by one, answer 1 seems needed as long as answer 2 holds the rule about `b` back."""
    outcomes = {"a": ("yes", "no"), "b": ("yes", "no")}
    rules: Rules = [
        ("a_is_so", ALWAYS, (("a", ("yes",)),)),
        ("b_is_so", ALWAYS, (("b", ("no",)),)),
        ("a_speaks_for_b", Is("a", ("yes",)), (("b", ("yes",)),)),
    ]
    state = State(Network.build(outcomes, rules))
    assert state.conflicts() == ("b",)
    state.narrow("answer 1", "b", ["yes"])
    state.narrow_all("answer 2", {"a": ["no"], "b": ["no"]})
    assert state.conflicts() == ("a", "b")
    assert state.conflict_answers("b") == ()


def test_a_reason_names_no_more_than_the_condition_needs(state: State) -> None:
    state.narrow("answer 1", "level", ["normal", "high"])
    state.narrow("answer 2", "level", ["low", "high"])
    not_low = Reason("level", ("normal", "high"), (Said("answer 1", "level", ("normal", "high")),))
    assert state.reason_for_rule("fed_well") == (not_low,)
    assert state.sources_behind("fed", "no") == {"answer 1"}
    assert state.reasons("level").sources() == {"answer 1", "answer 2"}


def test_always_and_full_sets_are_true_from_the_start() -> None:
    anything = Is("level", OUTCOMES["level"])
    rules: Rules = [
        ("always", ALWAYS, (("pump", ("runs",)),)),
        ("then", Is("pump", ("runs",)), (("fed", ("yes",)),)),
        ("whatever", anything, (("tank", ("sound",)),)),
        ("never", Any(()), (("alarm", ("on",)),)),
    ]
    state = State(Network.build(OUTCOMES, rules))
    assert list(state.fired) == ["always", "whatever", "then"]
    state.narrow("answer 1", "level", ["low"])
    change = state.narrow("answer 2", "level", ["high"])
    assert change.unfired == ("whatever",)


def test_states_are_equal_when_they_know_the_same(state: State) -> None:
    other = state.copy()
    assert other == state
    other.narrow("answer 1", "level", OUTCOMES["level"])
    assert other != state
    assert state != "a state"


def test_a_long_chain_needs_no_deep_stack() -> None:
    count = 5_000
    outcomes = {f"fact_{number}": ("yes", "no") for number in range(count)}
    rules: Rules = [
        (f"rule_{n}", Is(f"fact_{n}", ("yes",)), ((f"fact_{n + 1}", ("yes",)),)) for n in reversed(range(count - 1))
    ]
    state = State(Network.build(outcomes, rules))
    state.narrow("answer 1", "fact_0", ["yes"])
    assert state.possible(f"fact_{count - 1}") == ("yes",)
    assert state.reasons(f"fact_{count - 1}").sources() == {"answer 1"}


def test_conclusions_must_not_rest_on_themselves() -> None:
    rules: Rules = [
        ("aside", Is("level", ("low",)), (("alarm", ("on",)),)),
        ("one", Is("alarm", ("on",)), (("pump", ("runs",)),)),
        ("two", Is("pump", ("runs",)), (("fed", ("yes",)),)),
        ("three", Not(Is("fed", ("no",))), (("alarm", ("on",)), ("tank", ("sound",)))),
    ]
    with pytest.raises(Circular) as raised:
        Network.build(OUTCOMES, rules)
    assert str(raised.value) == (
        "these conclusions rest on themselves: alarm -(one)-> pump -(two)-> fed -(three)-> alarm"
    )
    assert raised.value.facts == ("alarm", "pump", "fed", "alarm")
    assert raised.value.rules == ("one", "two", "three")


@pytest.mark.parametrize(
    ("act", "kind", "message"),
    [
        pytest.param(lambda s: s.possible("valve"), UnknownName, "there is no fact 'valve'", id="fact"),
        pytest.param(
            lambda s: s.narrow("answer 1", "level", ["lo"]),
            UnknownName,
            "'lo' is not an outcome of level; it has low, normal, high",
            id="outcome",
        ),
        pytest.param(
            lambda s: s.narrow("answer 1", "level", []),
            ValueError,
            "an answer must leave level at least one outcome",
            id="no outcome left",
        ),
        pytest.param(lambda s: s.take_back("answer 7"), UnknownName, "'answer 7' has said nothing", id="source"),
        pytest.param(lambda s: s.only(["answer 7"]), UnknownName, "'answer 7' has said nothing", id="only"),
        pytest.param(lambda s: s.reason_for_rule("call"), ValueError, "rule call has not fired", id="rule not fired"),
        pytest.param(lambda s: s.sources_behind("pump", "runs"), ValueError, "pump may still be runs", id="possible"),
        pytest.param(
            lambda s: s.conflict_answers("pump"), ValueError, "pump is not contradictory", id="no contradiction"
        ),
    ],
)
def test_what_cannot_be_done_is_refused_in_words(state, act, kind, message) -> None:  # type: ignore[no-untyped-def]
    with pytest.raises(kind) as raised:
        act(state)
    assert str(raised.value) == message
    assert state == State(state.network)


@pytest.mark.parametrize(
    ("outcomes", "rules", "message"),
    [
        pytest.param({"a": ()}, [], "a fact needs outcomes, each of them once; found ()", id="none"),
        pytest.param({"a": ("x", "x")}, [], "a fact needs outcomes, each of them once; found (x, x)", id="twice"),
        pytest.param({"a": ("x",)}, [("r", Is("b", ("x",)), ())], "there is no fact 'b'", id="unknown fact"),
        pytest.param({"a": ("x",)}, [("r", ALWAYS, (("b", ("x",)),))], "there is no fact 'b'", id="unknown conclusion"),
        pytest.param({"a": ("x",)}, [("r", ALWAYS, ()), ("r", ALWAYS, ())], "two rules have the same id", id="rule"),
    ],
)
def test_a_base_that_makes_no_sense_is_refused(outcomes, rules, message) -> None:  # type: ignore[no-untyped-def]
    with pytest.raises(ValueError) as raised:
        Network.build(outcomes, rules)
    assert str(raised.value) == message
