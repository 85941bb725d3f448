"""Every rating that a question's limits need on a machine must be stated by that machine type."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from expert.language.checks.formula_cycles import needs
from expert.language.model import Machine
from expert.language.problems import Problem
from expert.language.reading.draft import Draft
from expert.language.sentences import checks as say

CODES = {"missing-rating": say.MISSING_RATING}


def applies_to(machine: Machine, applies: Mapping[str, tuple[str, ...]]) -> bool:
    """Whether a part or question is there on this machine."""
    return all(machine.features.get(fact.removeprefix("machine.")) in values for fact, values in applies.items())


def check(draft: Draft) -> Iterable[Problem]:
    """One problem for every rating that a machine lacks."""
    graph = needs(draft)
    ratings = {question: _ratings(question, graph) for question in draft.questions}
    for machine in draft.machines.values():
        needed: dict[str, str] = {}  # rating -> the first question that needs it
        for question in draft.questions.values():
            if ratings[question.id] and applies_to(machine, question.applies):
                for rating in ratings[question.id]:
                    needed.setdefault(rating, question.id)
        for rating, question_id in needed.items():
            if rating not in machine.plate and rating in draft.plate_values:
                message = say.must_state_rating(machine.id, rating, question_id)
                yield Problem(draft.place("machine", machine.id, "plate"), message, "missing-rating")


def _ratings(question: str, graph: Mapping[str, list[str]]) -> tuple[str, ...]:
    """The ratings that a question's limits need, through worked-out values."""
    found: dict[str, None] = {}
    seen: set[str] = set()
    waiting = list(graph.get(question, ()))
    while waiting:
        name = waiting.pop()
        if name.startswith("plate."):
            found[name.removeprefix("plate.")] = None
        elif name not in seen:
            seen.add(name)
            waiting.extend(graph.get(name, ()))
    return tuple(found)
