"""Facts in an order in which nothing rests on a later one."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import pairwise

from expert.language.model import Condition, Is, Not

# For each concluded fact the rules that conclude on it, with their conditions.
ConcludedBy = Mapping[str, Sequence[tuple[str, Condition]]]


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
    if isinstance(condition, Is):
        return [condition.fact]
    if isinstance(condition, Not):
        return facts_in(condition.part)
    facts = []
    for part in condition.parts:
        if isinstance(part, Is):
            facts.append(part.fact)
        else:
            facts += facts_in(part)
    return facts


def premises_first(facts: Iterable[str], concluded_by: ConcludedBy) -> list[str]:
    """The facts, each after those it rests on. Raises Circular when some rest on themselves."""
    ordered = [fact for fact in facts if fact not in concluded_by]
    done = set(ordered)
    for start in concluded_by:
        # A walk kept on a list of our own: chains of rules may be longer than Python's stack.
        path = {} if start in done else {start: _premises(concluded_by[start])}
        while path:
            fact, premises = next(reversed(path.items()))
            for premise in premises:
                if premise in path:
                    raise _circle([*path][[*path].index(premise) :], concluded_by)
                if premise not in done and premise in concluded_by:
                    path[premise] = _premises(concluded_by[premise])
                    break
            else:
                ordered.append(fact)
                done.add(fact)
                del path[fact]
    return ordered


def _premises(rules: Iterable[tuple[str, Condition]]) -> Iterator[str]:
    return iter([premise for _, condition in rules for premise in facts_in(condition)])


def _circle(resting: list[str], concluded_by: ConcludedBy) -> Circular:
    """`resting`: each fact rests on the next, and the last on the first. The error runs from premise to conclusion."""
    facts = (resting[0], *reversed(resting))
    rules = [
        next(rule for rule, condition in concluded_by[later] if earlier in facts_in(condition))
        for earlier, later in pairwise(facts)
    ]
    return Circular(facts, tuple(rules))
