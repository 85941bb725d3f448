"""A confirmed fault is found only once nothing else can have given the same answers."""

from __future__ import annotations

import pytest

from expert.engine.knowledge import knowledge_of
from expert.engine.proving import confirmed_in
from expert.engine.state import State
from expert.engine.suspicion import take_picture
from expert.language.load import read_rules
from tests.language.small_base import with_files

RULES = """
rules:
  leaks: {if: {runs: no}, then: {confirm: valve.leaking}, because: It stands still., rivals: [valve.stuck]}
  leaks_for_sure: {if: {coil: open}, then: {confirm: valve.leaking}, because: Open.}
  not_stuck: {if: {level: high}, then: {clear: valve.stuck}, because: It rises.}
"""


@pytest.mark.parametrize(
    ("answers", "proved", "held"),
    [
        ({}, (), {}),
        ({"runs": "no"}, (), {"valve.leaking": ("valve.stuck",)}),
        ({"runs": "no", "level": "high"}, ("valve.leaking",), {}),
        ({"runs": "no", "coil": "open"}, ("valve.leaking",), {}),
    ],
    ids=["nothing", "its-rival-is-possible", "its-rival-is-cleared", "another-rule-needs-no-more"],
)
def test_held_back_until_no_rival_is_possible(
    answers: dict[str, str], proved: tuple[str, ...], held: dict[str, tuple[str, ...]]
) -> None:
    knowledge = knowledge_of(read_rules(with_files(row=RULES)))
    state = State(knowledge.network)
    for fact, outcome in answers.items():
        state.narrow(f"answer {fact}", fact, [outcome])
    found = confirmed_in(knowledge, state)
    assert (found.proved, dict(found.held)) == (proved, held)
    picture = take_picture(knowledge, state, ["leaks"], answers)
    assert picture.confirmed == proved
    # Held back, it is a suspect like those it waits for, and the complaint is not accounted for.
    assert {suspect.fault for suspect in picture.suspects} >= {*held, *(r for rivals in held.values() for r in rivals)}
    assert picture.complaints_open == (() if proved else ("leaks",))


def test_where_a_rival_is_proved_it_accounts_for_the_answers() -> None:
    knowledge = knowledge_of(read_rules(with_files(row=RULES)))
    state = State(knowledge.network)
    for fact, outcome in {"runs": "no", "level": "low"}.items():
        state.narrow(f"answer {fact}", fact, [outcome])
    state.narrow("technician", "valve.stuck", ["present"])
    found = confirmed_in(knowledge, state)
    assert (found.proved, dict(found.held)) == (("valve.stuck",), {})
