"""Conditions as gates.

A gate is true when it lacks nothing. `all of` starts out lacking each of its parts, `any of` lacks one, whichever it
is; a part that becomes true takes one from what its gate lacks. `not` is pushed down to the tests, where it turns the
set of outcomes into the other outcomes; so no gate ever has to know that a part is false.
"""

from __future__ import annotations

from expert.engine.facts import Facts, Test
from expert.language.model import All, Any, Condition, Is, Not

# For each mask that a fact is tested for: the gates to tell.
Watchers = tuple[tuple[int, tuple[int, ...]], ...]


class Gates:
    """The gates of all rules while they are being built. The first gates are the rules' own, one each."""

    def __init__(self, facts: Facts, rules: int) -> None:
        self.needs = [0] * rules
        self.children: list[tuple[Test | int, ...]] = [()] * rules
        self.parents = [-1] * rules
        self._facts = facts
        # Each test with the gates it is a part of; found by the test itself, and by the words of the condition.
        self._by_test: dict[Test, tuple[Test, list[int]]] = {}
        self._by_words: dict[tuple[str, tuple[str, ...], bool], tuple[Test, list[int]]] = {}

    def build(self, rule: int, condition: Condition) -> None:
        """Lay out the condition under the rule's own gate. Raises UnknownName."""
        waiting = [(rule, condition, False)]
        while waiting:
            gate, condition, negated = waiting.pop()
            while isinstance(condition, Not):
                condition, negated = condition.part, not negated
            if isinstance(condition, Is):
                condition = All((condition,))
            # By De Morgan "not all of" is "any of the negated", and the other way round.
            needs_all = isinstance(condition, Any) is negated
            self.needs[gate] = len(condition.parts) if needs_all else 1
            children: list[Test | int] = []
            for part in condition.parts:
                if isinstance(part, Is):
                    test, gates = self._by_words.get((part.fact, part.outcomes, negated)) or self._test(part, negated)
                    gates.append(gate)
                    children.append(test)
                else:
                    children.append(len(self.needs))
                    waiting.append((len(self.needs), part, negated))
                    self.needs.append(0)
                    self.children.append(())
                    self.parents.append(gate)
            self.children[gate] = tuple(children)

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
