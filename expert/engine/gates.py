"""Conditions as gates.

A gate is true when it lacks nothing. `all of` starts out lacking each of its parts, `any of` lacks one, whichever it
is; a part that becomes true takes one from what its gate lacks. `not` is pushed down to the tests, where it turns the
set of outcomes into the other outcomes; so no gate ever has to know that a part is false.
"""

from __future__ import annotations

from expert.engine.facts import Facts, Test
from expert.language.model import Any, Condition, Is, Not

# For each mask that a fact is tested for: the gates to tell.
Watchers = tuple[tuple[int, tuple[int, ...]], ...]


class Gates:
    """The gates of all rules while they are being built. The first gates are the rules' own, one each."""

    def __init__(self, facts: Facts, rules: int) -> None:
        self.facts = facts
        self.needs = [0] * rules
        self.children: list[tuple[Test | int, ...]] = [()] * rules
        self.parents = [-1] * rules
        self._tests: dict[Test, Test] = {}

    def _test(self, condition: Is, negated: bool) -> Test:
        """The test; the same object each time it is met, for the sake of memory."""
        test = self.facts.read(condition.fact, condition.outcomes)
        if negated:
            test = self.facts.others(test)
        return self._tests.setdefault(test, test)

    def build(self, rule: int, condition: Condition) -> None:
        """Lay out the condition under the rule's own gate."""
        waiting = [(rule, condition, False)]
        while waiting:
            gate, condition, negated = waiting.pop()
            while isinstance(condition, Not):
                condition, negated = condition.part, not negated
            parts = (condition,) if isinstance(condition, Is) else condition.parts
            # By De Morgan "not all of" is "any of the negated", and the other way round.
            needs_all = isinstance(condition, Any) if negated else not isinstance(condition, Any)
            if isinstance(condition, Is):
                needs_all = True
            self.needs[gate] = len(parts) if needs_all else 1
            children: list[Test | int] = []
            for part in parts:
                if isinstance(part, Is):
                    children.append(self._test(part, negated))
                else:
                    children.append(len(self.needs))
                    waiting.append((len(self.needs), part, negated))
                    self._add_gate(gate)
            self.children[gate] = tuple(children)

    def _add_gate(self, parent: int) -> None:
        self.needs.append(0)
        self.children.append(())
        self.parents.append(parent)

    def watchers(self) -> tuple[Watchers, ...]:
        """For each fact its watchers."""
        gates_of: dict[Test, list[int]] = {}
        for gate, children in enumerate(self.children):
            for child in children:
                if isinstance(child, tuple):
                    gates_of.setdefault(child, []).append(gate)
        watchers: list[Watchers] = [()] * len(self.facts.names)
        for (fact, mask), gates in gates_of.items():
            watchers[fact] += ((mask, tuple(gates)),)
        return tuple(watchers)
