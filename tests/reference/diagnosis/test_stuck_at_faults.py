"""Candidates and tests for single stuck-at faults of ISCAS-85 circuits: what is left, and how many tests it takes.

Source of the netlists: see `netlists.py`. The expected candidates are simulated apart from what made the rules; the
least mean number of tests is computed by dynamic programming over the sets of faults that can still be told apart.
"""

from __future__ import annotations

import random
from collections import Counter, defaultdict
from functools import cache

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.stats import entropy

from expert.engine.gain import SOMETHING_ELSE, beliefs, effects_of, expected_gain
from expert.engine.knowledge import Knowledge
from expert.engine.state import State
from expert.engine.suspicion import take_picture
from tests.reference.conftest import Agree, Check
from tests.reference.diagnosis.bases import Trial, knowledge_for
from tests.reference.diagnosis.netlists import Fault, Netlist, netlist, response, responses_in_bits
from tests.reference.sources import independent

KIND = "stuck faults"
SIMULATED = independent("ISCAS-85 netlists of circuitgraph, all vectors simulated at once")
MUTUAL = independent("scipy, mutual information of fault and response")
HEADER = independent("header of c17 in the ISCAS format (sportlab.usc.edu, benchmark project)")
PROFILE = independent("table of the ISCAS-85 circuits (Bryan, MCNC 1988; a thesis's appendix A, scribd 285734640)")
VECTORS = {"c17": 32, "c432": 10}


def named(fault: Fault) -> str:
    return f"{fault[0].lower()}_sticks_at_{fault[1]}"


@cache
def vectors(circuit: str) -> tuple[tuple[int, ...], ...]:
    """All vectors of c17; so many random ones of c432, which has 36 inputs."""
    of = netlist(circuit)
    if circuit == "c17":
        return tuple(tuple(number >> place & 1 for place in range(len(of.inputs))) for number in range(32))
    chance = random.Random(432)
    return tuple(tuple(chance.randrange(2) for _ in of.inputs) for _ in range(VECTORS[circuit]))


def asked(of: Netlist, vector: tuple[int, ...], fault: Fault | None) -> str:
    return "o" + response(of, dict(zip(of.inputs, vector, strict=True)), fault)


@cache
def rules_for(circuit: str) -> Knowledge:
    """One question a vector; each outcome clears the faults that would have shown another."""
    of = netlist(circuit)
    tests = {}
    for number, vector in enumerate(vectors(circuit)):
        shown = {fault: asked(of, vector, fault) for fault in of.faults}
        outcomes = tuple(dict.fromkeys([asked(of, vector, None), *shown.values(), "other"]))
        clears = {outcome: [named(fault) for fault in of.faults if shown[fault] != outcome] for outcome in outcomes}
        tests[f"vector_{number}"] = Trial(outcomes, clears)
    return knowledge_for([named(fault) for fault in of.faults], tests)


def left_by_simulation(circuit: str, true: Fault, applied: list[int]) -> set[str]:
    """The faults that show what the true one shows on all vectors applied, simulated on all of them at once."""
    of, rows = netlist(circuit), [vectors(circuit)[number] for number in applied]
    columns = {name: sum(row[place] << bit for bit, row in enumerate(rows)) for place, name in enumerate(of.inputs)}
    seen = responses_in_bits(of, columns, len(rows), true)
    return {named(fault) for fault in of.faults if responses_in_bits(of, columns, len(rows), fault) == seen}


def left_by_the_engine(circuit: str, true: Fault, applied: list[int]) -> set[str]:
    of, knowledge = netlist(circuit), rules_for(circuit)
    state = State(knowledge.network)
    for number in applied:
        state.narrow(f"answer {number}", f"vector_{number}", [asked(of, vectors(circuit)[number], true)])
    return {named(fault) for fault in of.faults if len(state.possible(f"unit.{named(fault)}")) == 2}


@pytest.mark.parametrize("circuit", VECTORS)
def test_what_the_first_vectors_leave(circuit: str, agree: Agree) -> None:
    for true in netlist(circuit).faults[:: 1 if circuit == "c17" else 60]:
        for many in (1, 3, 10):
            found = left_by_the_engine(circuit, true, list(range(many)))
            simulated = left_by_simulation(circuit, true, list(range(many)))
            agree(found, simulated, SIMULATED, f"{circuit}, {named(true)}, {many} vectors")


@pytest.mark.parametrize("true", netlist("c17").faults, ids=named)
@settings(max_examples=12, deadline=None)
@given(st.lists(st.integers(0, 31), unique=True, max_size=32))
def test_c17_leaves_what_a_simulation_leaves(true: Fault, applied: list[int]) -> None:
    assert left_by_the_engine("c17", true, applied) == left_by_simulation("c17", true, applied)


@settings(max_examples=25, deadline=None)
@given(st.data())
def test_c432_leaves_what_a_simulation_leaves(data: st.DataObject) -> None:
    true = data.draw(st.sampled_from(netlist("c432").faults))
    applied = data.draw(st.lists(st.integers(0, VECTORS["c432"] - 1), unique=True, max_size=10))
    assert left_by_the_engine("c432", true, applied) == left_by_simulation("c432", true, applied)


def test_the_netlists_are_those_published(agree: Agree) -> None:
    # The library splits the wide AND gates of c432, and has other inverters.
    published = {"c17": (5, 2, {"nand": 6}), "c432": (36, 7, {"nand": 79, "nor": 19, "xor": 18})}
    for name, (inputs, outputs, gates) in published.items():
        of = netlist(name)
        kinds = Counter(kind for kind, _ in of.gates.values())
        agree((len(of.inputs), len(of.outputs)), (inputs, outputs), PROFILE, f"{name}, inputs and outputs")
        agree({kind: kinds[kind] for kind in gates}, gates, PROFILE, f"{name}, gates")


def test_lines_and_faults_of_c17(agree: Agree) -> None:
    """Its header: 17 lines, stems and branches each counted, and 22 faults once equivalent ones are taken as one."""
    of = netlist("c17")
    feeds = Counter(feed for _, fed_by in of.gates.values() for feed in fed_by)
    lines = sum(1 + (feeds[net] if feeds[net] > 1 else 0) for net in (*of.inputs, *of.gates))
    agree(lines, 17, HEADER, "c17, lines")
    # Each input of a NAND stuck at 0 is its output stuck at 1.
    agree(2 * lines - sum(len(fed_by) for _, fed_by in of.gates.values()), 22, HEADER, "c17, faults")


# ---------------------------------------------------------------- how many tests it takes


@cache
def signature(fault: Fault) -> tuple[str, ...]:
    return tuple(asked(netlist("c17"), vector, fault) for vector in vectors("c17"))


@cache
def least_tests(faults: frozenset[tuple[str, ...]]) -> float:
    """The least mean number of tests to tell equally likely faults apart, each given by its responses."""
    if len(faults) <= 1:
        return 0.0
    best = float("inf")
    for number in range(32):
        parts = defaultdict(set)
        for fault in faults:
            parts[fault[number]].add(fault)
        if len(parts) > 1:
            further = sum(len(part) * least_tests(frozenset(part)) for part in parts.values()) / len(faults)
            best = min(best, 1 + further)
    return best


def asked_until_told_apart(true: tuple[str, ...], distinct: dict[tuple[str, ...], Fault]) -> int:
    """How many vectors the planner's gain asks for until only this fault is left: the heaviest gain first."""
    knowledge = rules_for("c17")
    state = State(knowledge.network)
    merged = set(map(named, netlist("c17").faults)) - {named(fault) for fault in distinct.values()}
    for name in merged:  # faults that no vector tells from another: one of them stands for all
        state.narrow(f"merged {name}", f"unit.{name}", ["absent"])
    for asked_for in range(40):
        picture = take_picture(knowledge, state, ["fails"], [])
        if len(picture.suspects) <= 1:
            return asked_for
        belief = beliefs(knowledge, picture)
        gains = {
            question.id: expected_gain(knowledge, question, effects_of(knowledge, state, question, picture), belief)
            for question in knowledge.base.questions.values()
            if len(state.possible(question.id)) > 1
        }
        best = max(gains, key=lambda name: gains[name])
        state.narrow(f"answer {best}", best, [true[int(best.removeprefix("vector_"))]])
    raise AssertionError("the faults were never told apart")


def test_c17_takes_hardly_more_tests_than_the_least_there_are() -> None:
    distinct: dict[tuple[str, ...], Fault] = {}
    for fault in netlist("c17").faults:
        distinct.setdefault(signature(fault), fault)
    least = least_tests(frozenset(distinct))
    mean = sum(asked_until_told_apart(responses, distinct) for responses in distinct) / len(distinct)
    # Asking by information gain is not optimal in general (Hyafil and Rivest 1976: finding the best is NP-complete).
    assert least <= mean <= 1.10 * least


def test_the_expected_gain_is_the_mutual_information(check: Check) -> None:
    """Between what is true and what a vector of c17 shows, by scipy's entropies; all faults equally often seen."""
    knowledge, of = rules_for("c17"), netlist("c17")
    state = State(knowledge.network)
    picture = take_picture(knowledge, state, ["fails"], [])
    belief = beliefs(knowledge, picture)
    something_else = belief[SOMETHING_ELSE]
    for number, vector in enumerate(vectors("c17")):
        question = knowledge.base.questions[f"vector_{number}"]
        rows = []
        for fault in of.faults:
            shown = asked(of, vector, fault)
            rows.append((belief[f"unit.{named(fault)}"], [float(shown == outcome) for outcome in question.outcomes]))
        # Of something else nothing is known: whatever the question may show is equally likely.
        rows.append((something_else, [1 / len(question.outcomes)] * len(question.outcomes)))
        shares = [sum(share * row[place] for share, row in rows) for place in range(len(question.outcomes))]
        expected = entropy(shares, base=2) - sum(share * entropy(row, base=2) for share, row in rows)
        gain = expected_gain(knowledge, question, effects_of(knowledge, state, question, picture), belief)
        check(gain, expected, MUTUAL, within=1e-9, unit=f"bit, vector {number}")
