"""Whoever stands before a machine with a fault finds an outcome that fits: held against every simulated machine.

A machine on which one question of a bench state was answered has been brought there. Each other choice or yes-and-no
question of that state is then answered as well, where what it waits for holds.
"""

from __future__ import annotations

from collections import defaultdict
from pathlib import Path

import pytest

from expert.language.load import load_rules
from expert.language.model import Measure, Question
from expert.workbench.index import Index

RULES = Path(__file__).parents[2] / "rules"
BASE = load_rules(RULES)
# Where nothing fits there is a reason, and whoever is asked says can't tell.
NOTHING_FITS = {
    "probe_earthed_at_probe": "the solenoid was silent before, so nothing stops when the probe is earthed",
    "probe_earthed_at_board": "the solenoid was silent before, so nothing stops when the probe is earthed",
    "pump_stops_lever_down": "the pump never ran, so it cannot stop",
    "watched_heat_up": "a limit has tripped, and the hands of the simulated machine do not reset it before",
}
# What the bench missed once, each with the words by which it is chosen.
WERE_MISSED = {
    ("board_alarm", "fill_alarm"): "timed out",
    ("board_alarm", "empty_tank"): "empty",
    ("hot_water_tap", "spits"): "spitting",
    ("pump_noise", "loud"): "thin and high-pitched",
    ("vacuum_valve_on_heat_up", "snaps"): "spits a little water, then shuts",
    ("water_at_group", "weak"): "anything less than full",
    ("water_at_group", "none"): "nothing at all",
    ("watched_heat_up", "stays_low"): "none of these",
    ("told_of_danger", "nothing"): "nothing of all this",
}


def _state(question: Question) -> tuple[tuple[str, str], ...]:
    return tuple(sorted(question.bench.items()))


def test_every_fault_that_gets_there_finds_an_outcome() -> None:
    index = Index(BASE)
    assert index.seen
    for seen in index.seen:
        there: dict[tuple[tuple[str, str], ...], int] = defaultdict(int)
        for question in BASE.questions.values():
            there[_state(question)] |= seen.told(question.id)
        nothing_fits = {
            question.id: seen.names(left)
            for question in BASE.questions.values()
            if not isinstance(question.form, Measure)
            and seen.told(question.id)
            and (left := there[_state(question)] & seen.put(question.id) & ~seen.told(question.id))
        }
        assert {name: names for name, names in nothing_fits.items() if name not in NOTHING_FITS} == {}
        assert set(nothing_fits) == set(NOTHING_FITS)  # no reason is left behind


@pytest.mark.parametrize(("question", "outcome"), WERE_MISSED, ids=lambda one: str(one))
def test_what_was_missed_can_be_chosen(question: str, outcome: str) -> None:
    asked = BASE.questions[question]
    assert outcome in asked.outcomes
    assert WERE_MISSED[question, outcome] in asked.label(outcome)
