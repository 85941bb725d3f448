"""What to ask next: authored order first, arithmetic second, and every choice can be explained."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from expert.engine.bench import BenchMap, bench_state, terms_for
from expert.engine.gain import SOMETHING_ELSE, beliefs, effects_of, expected_gain
from expert.engine.planner import Choice, choose
from expert.engine.state import State
from expert.engine.suspicion import take_picture, weight_of
from expert.engine.ways import Situation
from tests.dialogue.small_rules import small_knowledge

KNOWLEDGE = small_knowledge()
BASE = KNOWLEDGE.base
START = bench_state(BASE.bench, BASE.bench.arrives["cold"].state)


def situation(
    complaints: tuple[str, ...],
    answers: dict[str, str],
    bench: dict[str, str] | None = None,
    qualified: bool = False,
    instruments: frozenset[str] = frozenset(BASE.instruments),
) -> Situation:
    state = State(KNOWLEDGE.network)
    for number, (question, outcome) in enumerate(answers.items(), 1):
        state.narrow(f"answer {number}", question, (outcome,))
    return Situation(
        knowledge=KNOWLEDGE,
        state=state,
        picture=take_picture(KNOWLEDGE, state, complaints, answers),
        settled_questions=frozenset(answers),
        bench=START if bench is None else bench_state(BASE.bench, bench),
        bench_map=BenchMap(BASE.bench, terms_for(BASE.bench, qualified, state.truth)),
        applies=lambda question: True,
        measurable=instruments,
        missing_first=lambda question: (),
    )


def chosen(situation: Situation) -> Choice:
    choice = choose(situation)
    assert choice is not None
    return choice


def test_bits_are_weighed_against_minutes_and_moves() -> None:
    choice = chosen(situation(("will_not_fill",), {}))
    assert (choice.best.asks, [move.id for move in choice.best.route.moves]) == ("pump_runs", ["switch_on"])
    assert choice.best.worth >= max(other.worth for other in choice.others)
    open_bench = {"mains": "isolated", "covers": "off"}
    assert chosen(situation(("will_not_fill",), {}, open_bench)).best.asks == "coil", "no move is needed for it there"


def test_a_fired_check_list_puts_its_first_suspect_ahead() -> None:
    choice = chosen(situation(("will_not_fill",), {"pump_runs": "yes", "water_arrives": "no"}))
    assert (choice.best.asks, choice.ahead_by, choice.ahead_for) == ("coil", "held_up", "valve.coil_open")
    choice = chosen(situation(("will_not_fill",), {"pump_runs": "yes", "water_arrives": "no", "coil": "sound"}))
    assert (choice.best.asks, choice.ahead_for) == ("water_before_valve", "valve.stuck")


def test_a_question_that_needs_another_first_asks_that() -> None:
    open_questions = situation(("will_not_fill",), {"coil": "sound"}, {"mains": "on", "covers": "on"})
    assert chosen(open_questions).best.asks == "pump_runs"


def test_what_is_found_and_accounts_for_all_ends_the_search() -> None:
    assert choose(situation(("will_not_fill",), {"pump_runs": "yes", "coil": "open"})) is None


def test_an_instrument_that_the_shop_lacks_is_not_asked_for() -> None:
    lacking = situation(
        ("will_not_fill",), {"pump_runs": "yes"}, {"mains": "isolated", "covers": "off"}, instruments=frozenset()
    )
    assert chosen(lacking).best.asks != "coil"


def test_a_question_whose_limits_lack_a_rating_of_the_plate_is_not_asked() -> None:
    bench = {"mains": "isolated", "covers": "off"}
    here = situation(("will_not_fill",), {"pump_runs": "yes"}, bench)
    lacking = replace(here, missing_first=lambda question: ("plate.fill_coil",) if question == "coil" else ())
    assert chosen(here).best.question == "coil"
    assert chosen(lacking).best.question != "coil"


def test_a_danger_behind_a_suspect_is_looked_for() -> None:
    choice = chosen(situation(("blows",), {}, {"mains": "on", "covers": "on"}))
    assert (choice.best.asks, choice.danger_first) == ("boiler_pressure", True)


def test_a_normal_behaviour_is_looked_for() -> None:
    assert chosen(situation(("hisses",), {})).best.asks == "hiss_ends"


@pytest.mark.parametrize(
    ("fault", "complaints", "expected"),
    [
        ("valve.coil_open", ("will_not_fill",), 10),
        ("valve.stuck", ("will_not_fill",), 5),
        ("valve.stuck", ("will_not_fill", "leaks"), -1),
    ],
    ids=["common", "occasional", "leaves-one-unexplained"],
)
def test_the_weight_of_a_fault(fault: str, complaints: tuple[str, ...], expected: int) -> None:
    assert weight_of(KNOWLEDGE, fault, complaints, {}) == expected


def outcomes(picks: dict[str, int]) -> dict[str, str]:
    """For each question one of its outcomes."""
    named = {name: BASE.questions[name].outcomes for name in picks}
    return {name: named[name][pick % len(named[name])] for name, pick in picks.items()}


@settings(deadline=None)
@given(
    st.sets(st.sampled_from(list(BASE.complaints)), min_size=1),
    st.dictionaries(st.sampled_from(list(BASE.questions)), st.integers(0, 3), max_size=5),
)
def test_belief_adds_up_and_gain_is_never_more_than_what_is_unknown(
    complaints: set[str], picks: dict[str, int]
) -> None:
    answers = outcomes(picks)
    here = situation(tuple(sorted(complaints)), answers)
    belief = beliefs(KNOWLEDGE, here.picture)
    assert sum(belief.values()) == pytest.approx(1) and SOMETHING_ELSE in belief
    for question in BASE.questions.values():
        if question.id not in answers:
            effects = effects_of(KNOWLEDGE, here.state, question, here.picture)
            gain = expected_gain(KNOWLEDGE, question, effects, belief)
            assert gain <= 1e-9 + min(len(effects), len(belief)).bit_length()


@settings(deadline=None)
@given(st.dictionaries(st.sampled_from(list(BASE.questions)), st.integers(0, 3), max_size=6))
def test_choosing_changes_nothing_and_repeats(picks: dict[str, int]) -> None:
    answers = outcomes(picks)
    here = situation(("will_not_fill", "leaks"), answers)
    before = here.state.copy()
    assert choose(here) == choose(here)
    assert here.state == before


def test_a_check_list_keeps_no_suspects_for_a_complaint_that_they_do_not_explain() -> None:
    found = {"pump_runs": "yes", "water_arrives": "no", "coil": "open"}
    picture = situation(("will_not_fill", "hisses"), found).picture
    assert (picture.confirmed, picture.complaints_open) == (("valve.coil_open",), ("hisses",))
    assert "held_up" not in {reason for suspect in picture.suspects for reason in suspect.reasons}
