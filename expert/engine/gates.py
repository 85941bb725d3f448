"""Conditions as gates.

A gate is true when it lacks nothing. `all of` starts out lacking each of its parts, `any of` lacks one, whichever it
is; a part that becomes true takes one from what its gate lacks. `not` is pushed down to the tests, where it turns the
set of outcomes into the other outcomes; so no gate ever has to know that a part is false.
"""

from __future__ import annotations

from collections.abc import Mapping

from expert.engine.outcomes import Outcomes, UnknownName
from expert.language.model import Any, Condition, Is, Not

# "The fact with this number is within this mask."
Test = tuple[int, int]


class Gates:
    """The gates of all rules while they are being built. The first gates are the rules' own, one each."""

    def __init__(self, numbers: Mapping[str, int], outcomes: list[Outcomes], rules: int) -> None:
        self.needs = [0] * rules
        self.children: list[tuple[Test | int, ...]] = [()] * rules
        self.parents = [-1] * rules
        self._numbers = numbers
        self._outcomes = outcomes
        self._tests: dict[Test, Test] = {}

    def test(self, fact: str, names: tuple[str, ...], negated: bool = False) -> Test:
        """The test, the same object each time it is met. Raises UnknownName."""
        number = self._numbers.get(fact)
        if number is None:
            raise UnknownName(f"there is no fact '{fact}'")
        mask = self._outcomes[number].mask(fact, names)
        test = (number, self._outcomes[number].full & ~mask if negated else mask)
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
                    children.append(self.test(part.fact, part.outcomes, negated))
                else:
                    children.append(len(self.needs))
                    waiting.append((len(self.needs), part, negated))
                    self._add_gate(gate)
            self.children[gate] = tuple(children)

    def _add_gate(self, parent: int) -> None:
        self.needs.append(0)
        self.children.append(())
        self.parents.append(parent)

    def watchers(self) -> tuple[tuple[tuple[int, tuple[int, ...]], ...], ...]:
        """For each fact the masks that conditions test it for, each with the gates to tell."""
        gates_of: dict[Test, list[int]] = {}
        for gate, children in enumerate(self.children):
            for child in children:
                if isinstance(child, tuple):
                    gates_of.setdefault(child, []).append(gate)
        watchers: list[tuple[tuple[int, tuple[int, ...]], ...]] = [()] * len(self._outcomes)
        for (fact, mask), gates in gates_of.items():
            watchers[fact] += ((mask, tuple(gates)),)
        return tuple(watchers)
