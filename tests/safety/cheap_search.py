"""Any question that may be put, in whatever order: no planner, for speed and for a harder test of the guards."""

from __future__ import annotations

import random
import sys
from collections.abc import Callable, Collection, Iterator
from contextlib import contextmanager
from functools import cache
from types import ModuleType
from typing import Any

from expert.engine import planner
from expert.engine.candidates import Candidate
from expert.engine.planner import Choice, Situation
from expert.engine.ways import way_to_ask
from expert.job.state import values

LEAST, MOST = 2, 9  # questions that such a search puts before it ends


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
    """Let every part of the program that asks the planner ask this instead.

    Two things cost half of the time and forbid nothing: what would settle each suspect at the end of a search, and
    which readings the limits of a question lack, which is remembered here for as long as no reading changes.
    """
    known: dict[Any, Any] = {}

    def missing_first(job: Any, question: str) -> Any:
        key = (question, tuple(given.number for given in job.given.values() if given.holds and given.quantity))
        if key not in known:
            known[key] = values_missing(job, question)
        return known[key]

    values_missing = values.missing_first
    others: dict[Callable[..., Any], Callable[..., Any]] = {
        planner.choose: choose,
        planner.worth_asking: lambda situation: (),
        values_missing: missing_first,
    }
    replaced = [(module, name, real) for real in others for module, name in _where(real)]
    for module, name, real in replaced:
        setattr(module, name, others[real])
    try:
        yield
    finally:
        for module, name, real in replaced:
            setattr(module, name, real)


@cache
def _where(function: Callable[..., Any]) -> tuple[tuple[ModuleType, str], ...]:
    """Every module of the program that knows this function, with its name there."""
    modules = [module for key, module in sys.modules.items() if key.startswith("expert.")]
    found = tuple((module, name) for module in modules for name, real in vars(module).items() if real is function)
    assert found, "it is asked under another name"
    return found
