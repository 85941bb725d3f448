"""Rules must not argue in a circle: a fact that rests, through rules, on itself."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import pairwise

from expert.language.checks.circles import circles, shortened_way
from expert.language.model import Condition, Is, Narrow, Not
from expert.language.problems import Problem
from expert.language.reading.draft import Draft
from expert.language.sentences import checks as say

CODES = {"cycle": say.CYCLE}


def facts_in(condition: Condition) -> Iterator[str]:
    """Every fact that a condition tests."""
    if isinstance(condition, Is):
        yield condition.fact
    elif isinstance(condition, Not):
        yield from facts_in(condition.part)
    else:
        for part in condition.parts:
            yield from facts_in(part)


def check(draft: Draft) -> Iterable[Problem]:
    """One problem for every knot of facts, with its shortest circle."""
    rules: dict[tuple[str, str], str] = {}  # from fact, to fact -> the first rule that goes there
    graph: dict[str, list[str]] = {}
    for rule in draft.rules.values():
        concluded = [conclusion.fact for conclusion in rule.then if isinstance(conclusion, Narrow)]
        if not concluded:
            continue
        for tested in facts_in(rule.when):
            for fact in concluded:
                if (tested, fact) not in rules:
                    rules[tested, fact] = rule.id
                    graph.setdefault(tested, []).append(fact)
    for circle in circles(graph):
        steps = [say.rule_leads_to(rules[tested, fact], fact) for tested, fact in pairwise(circle)]
        way = " -> ".join([circle[0], *shortened_way(steps)])
        first = rules[circle[0], circle[1]]
        yield Problem(draft.rules[first].at, say.rules_in_a_circle(way), "cycle")
