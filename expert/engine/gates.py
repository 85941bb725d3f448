"""Conditions as gates.

A gate is true when it lacks nothing. `all of` starts out lacking each of its parts, `any of` lacks one, whichever it
is; a part that becomes true takes one from what its gate lacks. `not` is pushed down to the tests, where it turns the
set of outcomes into the other outcomes; so no gate ever has to know that a part is false.
"""

from __future__ import annotations

from collections.abc import Sequence

from expert.engine.facts import Facts, Test
from expert.language.model import Any, Condition, Is, Not

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
        # For each fact the masks it is tested for, each with the test and the gates that the test is a part of.
        self._tests: list[dict[int, tuple[Test, list[int]]]] = [{} for _ in facts.names]
        self._lay_out([(condition, False) for condition in conditions])

    def _lay_out(self, waiting: list[tuple[Condition, bool]]) -> None:
        """`waiting`: conditions, each with whether its opposite is meant. A gate's number is its place in this list."""
        facts, tests = self._facts, self._tests
        numbers, outcomes = facts.numbers, facts.outcomes
        # The list grows while it is read.
        for gate, (condition, negated) in enumerate(waiting):
            while isinstance(condition, Not):
                condition, negated = condition.part, not negated
            parts = (condition,) if isinstance(condition, Is) else condition.parts
            # By De Morgan "not all of" is "any of the negated", and the other way round.
            needs_all = isinstance(condition, Any) is negated
            self.needs.append(len(parts) if needs_all else 1)
            children: list[Test | int] = []
            for part in parts:
                if isinstance(part, Is):
                    try:
                        fact = numbers[part.fact]
                        mask = outcomes[fact].masks[part.outcomes]
                    except KeyError:
                        facts.read(part.fact, part.outcomes)  # says which name is wrong
                        raise
                    if negated:
                        mask = outcomes[fact].full & ~mask
                    same = tests[fact].get(mask)
                    if same is None:
                        same = tests[fact][mask] = (fact, mask), []
                    same[1].append(gate)
                    children.append(same[0])
                else:
                    children.append(len(waiting))
                    waiting.append((part, negated))
                    self.parents.append(gate)
            self.children.append(tuple(children))

    def watchers(self) -> tuple[Watchers, ...]:
        """For each fact its watchers."""
        return tuple([tuple([(mask, tuple(gates)) for mask, (_, gates) in tests.items()]) for tests in self._tests])

    def tested_for_all(self) -> tuple[int, ...]:
        """The facts that some condition tests for their full mask."""
        full = [outcomes.full for outcomes in self._facts.outcomes]
        return tuple([fact for fact, tests in enumerate(self._tests) if full[fact] in tests])
