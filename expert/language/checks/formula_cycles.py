"""A worked-out value must not need itself, and the limits of a reading must not need the reading."""

from __future__ import annotations

from collections.abc import Iterable

from expert.language.checks.circles import circles, shortened_way
from expert.language.problems import Problem
from expert.language.reading.draft import Draft
from expert.language.sentences import checks as say

CODES: dict[str, str] = {}  # shares the code `cycle` with the rules


def needs(draft: Draft) -> dict[str, list[str]]:
    """What each worked-out value and each measured question needs for its formulas."""
    graph = {
        work_out.id: [*work_out.formula.names, *(name for name in work_out.assume.values() if isinstance(name, str))]
        for work_out in draft.work_outs.values()
    }
    for question in draft.questions.values():
        if question.readings:
            limits = [limit for reading in question.readings for limit in (reading.low, reading.high)]
            graph[question.id] = list(dict.fromkeys(name for limit in limits if limit for name in limit.names))
    return graph


def check(draft: Draft) -> Iterable[Problem]:
    """One problem for every circle of formulas."""
    for circle in circles(needs(draft)):
        first = draft.work_outs.get(circle[0]) or draft.questions[circle[0]]
        yield Problem(first.at, say.formulas_in_a_circle(" -> ".join(shortened_way(circle))), "cycle")
