"""Facts in an order in which nothing rests on a later one."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from itertools import pairwise

from expert.language.model import Condition, Is, Not

# For each concluded fact: the facts it rests on, each with a rule that leads from there to here.
RestsOn = dict[str, dict[str, str]]


class Circular(ValueError):
    """Conclusions that rest on themselves. `facts` is the way round, ending where it began; `rules` leads along it."""

    def __init__(self, facts: tuple[str, ...], rules: tuple[str, ...]) -> None:
        steps = [f" -({rule})-> {fact}" for rule, fact in zip(rules, facts[1:], strict=True)]
        super().__init__(f"these conclusions rest on themselves: {facts[0]}{''.join(steps)}")
        self.facts = facts
        self.rules = rules


def facts_in(condition: Condition) -> list[str]:
    """Every fact that the condition tests, as often as it does.

    >>> facts_in(Not(Is("mains", ("on",))))
    ['mains']
    """
    facts = []
    waiting = [condition]
    # The list grows while it is read.
    for part in waiting:
        if isinstance(part, Is):
            facts.append(part.fact)
        elif isinstance(part, Not):
            waiting.append(part.part)
        else:
            waiting += part.parts
    return facts


def premises_first(facts: Iterable[str], rests_on: Mapping[str, Mapping[str, str]]) -> list[str]:
    """The facts, each after those it rests on. Raises Circular when some rest on themselves."""
    ordered = [fact for fact in facts if fact not in rests_on]
    done = set(ordered)
    for start in rests_on:
        # A walk kept on a list of our own: chains of rules may be longer than Python's stack.
        path = {} if start in done else {start: iter(rests_on[start])}
        while path:
            fact, premises = next(reversed(path.items()))
            for premise in premises:
                if premise in path:
                    raise _circle([*path][[*path].index(premise) :], rests_on)
                if premise not in done:
                    path[premise] = iter(rests_on[premise])
                    break
            else:
                ordered.append(fact)
                done.add(fact)
                del path[fact]
    return ordered


def _circle(resting: list[str], rests_on: Mapping[str, Mapping[str, str]]) -> Circular:
    """`resting`: each fact rests on the next, and the last on the first. The error runs from premise to conclusion."""
    facts = (resting[0], *reversed(resting))
    return Circular(facts, tuple(rests_on[later][earlier] for earlier, later in pairwise(facts)))
