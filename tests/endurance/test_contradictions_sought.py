"""Whatever two rules contradict each other, and however it is cleared: no crash, and the job comes to its end."""

from __future__ import annotations

import random

import pytest

from expert.engine.state import State
from tests.dialogue.shipped_desk import shipped_knowledge
from tests.endurance.contradicting import MOST_CONFLICTS, WAYS, contradict
from tests.safety.readings import Readings
from tests.safety.seeking import Seeker

KNOWLEDGE = shipped_knowledge()
MACHINE = next(iter(KNOWLEDGE.base.machines))
COLLISIONS = list(Seeker(KNOWLEDGE.base, MACHINE, random.Random(1)).collisions())
EACH = 24  # with each way, in the ordinary run


def test_there_are_collisions_and_the_engine_sees_every_one() -> None:
    assert len(COLLISIONS) > 100
    for collision in COLLISIONS:
        state = State(KNOWLEDGE.network)
        for feature, value in KNOWLEDGE.base.machines[MACHINE].features.items():
            state.narrow("machine data", f"machine.{feature}", (value,))
        for number, (fact, outcomes) in enumerate(collision.answers.items(), 1):
            state.narrow(f"answer {number}", fact, tuple(sorted(outcomes))[:1])
        assert state.conflicts(), collision


@pytest.mark.parametrize("way", WAYS)
def test_each_way_of_clearing(way: str) -> None:
    readings = Readings()
    met = 0
    for number, collision in enumerate(random.Random(way).sample(COLLISIONS, EACH)):
        result = contradict(KNOWLEDGE, readings, collision, way, number)
        assert result.ended, f"{collision.rules} by {way}: {result.lines[-12:]}"
        assert result.conflicts <= MOST_CONFLICTS
        met += bool(result.conflicts)
    assert met > EACH // 4, "hardly any of them was met"
