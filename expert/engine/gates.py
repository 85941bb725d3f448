"""Conditions as gates.

A gate is true when it lacks nothing. `all of` starts out lacking each of its parts, `any of` lacks one, whichever it
is; a part that becomes true takes one from what its gate lacks. `not` is pushed down to the tests, where it turns the
set of outcomes into the other outcomes; so no gate ever has to know that a part is false.
"""

from __future__ import annotations

from collections.abc import Sequence

from expert.engine.facts import Facts, Test
from expert.language.model import All, Any, Condition, Is, Not

# For each mask that a fact is tested for: the gates to tell.
Watchers = tuple[tuple[int, tuple[int, ...]], ...]


class Gates:
    """The gates of all rules: what each needs, its parts, and the gate above it (-1 for a rule's own gate).

    A rule's own gate has the rule's number; the gates beneath come after all of these. Raises UnknownName.
    """

    def __init__(self, facts: Facts, conditions: Sequence[Condition]) -> None:
        self.needs: list[int] = []
        self.children: list[tuple[Test | int, ...]] = []
        self.parents = [-1] * len(conditions)
        self._facts = facts
        # Each test with the gates it is a part of; found by the test itself, and by the words of the condition.
        self._by_test: dict[Test, tuple[Test, list[int]]] = {}
        self._by_words: dict[tuple[str, tuple[str, ...], bool], tuple[Test, list[int]]] = {}
        self._lay_out([(condition, False) for condition in conditions])

    def _lay_out(self, waiting: list[tuple[Condition, bool]]) -> None:
        """`waiting`: conditions, each with whether its opposite is meant. A gate's number is its place in this list."""
        needs, children, parents, by_words = self.needs, self.children, self.parents, self._by_words
        # The list grows while it is read.
        for gate, (condition, negated) in enumerate(waiting):
            while isinstance(condition, Not):
                condition, negated = condition.part, not negated
            if isinstance(condition, Is):
                condition = All((condition,))
            # By De Morgan "not all of" is "any of the negated", and the other way round.
            needs_all = isinstance(condition, Any) is negated
            needs.append(len(condition.parts) if needs_all else 1)
            parts: list[Test | int] = []
            for part in condition.parts:
                if isinstance(part, Is):
                    test, gates = by_words.get((part.fact, part.outcomes, negated)) or self._test(part, negated)
                    gates.append(gate)
                    parts.append(test)
                else:
                    parts.append(len(waiting))
                    waiting.append((part, negated))
                    parents.append(gate)
            children.append(tuple(parts))

    def _test(self, condition: Is, negated: bool) -> tuple[Test, list[int]]:
        test = self._facts.read(condition.fact, condition.outcomes)
        if negated:
            test = self._facts.others(test)
        entry = self._by_test.setdefault(test, (test, []))
        self._by_words[condition.fact, condition.outcomes, negated] = entry
        return entry

    def watchers(self) -> tuple[Watchers, ...]:
        """For each fact its watchers."""
        watchers: list[list[tuple[int, tuple[int, ...]]]] = [[] for _ in self._facts.names]
        for (fact, mask), gates in self._by_test.values():
            watchers[fact].append((mask, tuple(gates)))
        return tuple(map(tuple, watchers))

    def tested_for_all(self) -> tuple[int, ...]:
        """The facts that some condition tests for their full mask."""
        full = [outcomes.full for outcomes in self._facts.outcomes]
        return tuple(sorted(fact for fact, mask in self._by_test if mask == full[fact]))
