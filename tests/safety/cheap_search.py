"""Any question that may be put, in whatever order: no planner, for speed and for a harder test of the guards."""

from __future__ import annotations

import random
import sys
from collections.abc import Collection, Iterator
from contextlib import contextmanager

from expert.engine import planner
from expert.engine.planner import Candidate, Choice, Situation, way_to_ask

LEAST, MOST = 3, 14  # questions that such a search puts before it ends


class AnyQuestion:
    """Chooses like the planner, but by chance alone; what the technician seeks comes sooner."""

    def __init__(self, chance: random.Random, sought: Collection[str] = (), keen: float = 0.6) -> None:
        self.chance = chance
        self.sought = list(sought)
        self.keen = keen
        self.left = chance.randint(LEAST, MOST) if keen < 1 else MOST

    def __call__(self, situation: Situation) -> Choice | None:
        self.left -= 1
        if self.left < 0 and not (self.left > -MOST and set(self.sought) - situation.settled_questions):
            return None
        questions = situation.knowledge.base.questions
        names = self.chance.sample(list(questions), min(12, len(questions)))
        if self.sought and self.chance.random() < self.keen:
            names = [*self.chance.sample(self.sought, len(self.sought)), *names]
        for name in names:
            way = way_to_ask(situation, questions[name])
            if way is not None:
                return Choice(Candidate(name, way.asks, 0.0, way.minutes, way.route, ()), None, None, ())
        return None


@contextmanager
def any_order(choose: AnyQuestion) -> Iterator[None]:
    """Let every part of the program that asks the planner ask this instead."""
    real = planner.choose
    users = [
        module
        for name, module in sys.modules.items()
        if name.startswith("expert.") and module is not planner and getattr(module, "choose", None) is real
    ]
    assert users, "nobody asks the planner: this would change nothing"
    for module in users:
        setattr(module, "choose", choose)  # noqa: B010
    try:
        yield
    finally:
        for module in users:
            setattr(module, "choose", real)  # noqa: B010
