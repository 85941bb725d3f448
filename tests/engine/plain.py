"""The plain evaluator: every rule looked at again and again until nothing changes. Sets of names, no cleverness.

It is the meaning of a rule base; the engine must agree with it.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from expert.language.model import Any, Condition, Is, Not

Rules = tuple[tuple[str, Condition, tuple[tuple[str, tuple[str, ...]], ...]], ...]
Possible = dict[str, frozenset[str]]


@dataclass(frozen=True)
class Base:
    """Facts with their outcomes, and rules."""

    outcomes: Mapping[str, tuple[str, ...]]
    rules: Rules


def truth(condition: Condition, possible: Mapping[str, frozenset[str]]) -> bool | None:
    """Kleene's strong three-valued logic (S. C. Kleene, Introduction to Metamathematics, 1952, section 64)."""
    if isinstance(condition, Is):
        left, wanted = possible[condition.fact], set(condition.outcomes)
        if not left:
            return None
        return True if left <= wanted else None if left & wanted else False
    if isinstance(condition, Not):
        inner = truth(condition.part, possible)
        return None if inner is None else not inner
    truths = [truth(part, possible) for part in condition.parts]
    decisive = isinstance(condition, Any)
    if decisive in truths:
        return decisive
    return None if None in truths else not decisive


def evaluate(base: Base, said: Iterable[tuple[str, Iterable[str]]]) -> tuple[Possible, frozenset[str]]:
    """What is possible, and which rules have fired, given what was said about facts.

    Each round starts afresh from what was said, with the rules that were true at the end of the round before. Rules do
    not go round in circles, so each round settles the conclusions one step further from the answers.
    """
    start: Possible = {fact: frozenset(outcomes) for fact, outcomes in base.outcomes.items()}
    for fact, outcomes in said:
        start[fact] &= frozenset(outcomes)
    possible, fired = start, frozenset[str]()
    while True:
        now = frozenset(rule for rule, condition, _ in base.rules if truth(condition, possible))
        following = dict(start)
        for rule, _, narrowings in base.rules:
            if rule in now:
                for fact, outcomes in narrowings:
                    following[fact] &= frozenset(outcomes)
        if (following, now) == (possible, fired):
            return possible, fired
        possible, fired = following, now
