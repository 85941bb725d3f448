"""The rules made ready for spreading answers. A `Network` never changes; every state of a job shares it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from expert.engine.gates import Gates, Test
from expert.engine.order import RestsOn, facts_in, premises_first
from expert.engine.outcomes import Outcomes, UnknownName
from expert.language.model import Condition

Narrowings = tuple[tuple[str, tuple[str, ...]], ...]


@dataclass(frozen=True, slots=True, eq=False)
class Network:
    """Facts, rules and gates by number.

    `facts`: numbers, premises before what is concluded from them; `outcomes`: what each fact can be;
    `first_count`: where the counts of a fact's outcomes begin in a state's list of counts (last: its length).
    `rules`: numbers; `narrows`: what each rule concludes. A rule's number is also the number of its own gate.
    `needs`, `children`, `parents`: the gates (see gates.py); `open_gates` need nothing and are true from the start.
    `watchers`: for each fact the masks it is tested for, each with the gates to tell; `always`: the facts that some
    condition tests for their full mask, which is true from the start.
    """

    facts: Mapping[str, int]
    fact_names: tuple[str, ...]
    outcomes: tuple[Outcomes, ...]
    first_count: tuple[int, ...]
    rules: Mapping[str, int]
    rule_names: tuple[str, ...]
    narrows: tuple[tuple[Test, ...], ...]
    needs: tuple[int, ...]
    children: tuple[tuple[Test | int, ...], ...]
    parents: tuple[int, ...]
    open_gates: tuple[int, ...]
    watchers: tuple[tuple[tuple[int, tuple[int, ...]], ...], ...]
    always: tuple[int, ...]

    @staticmethod
    def build(outcomes: Mapping[str, tuple[str, ...]], rules: Iterable[tuple[str, Condition, Narrowings]]) -> Network:
        """The network of these facts (each with its outcomes) and rules (id, condition, what it narrows).

        Raises UnknownName for a fact or outcome that is not there, Circular when conclusions rest on themselves.
        """
        rules = list(rules)
        numbers = {rule: number for number, (rule, _, _) in enumerate(rules)}
        if len(numbers) != len(rules):
            raise ValueError("two rules have the same id")
        names = premises_first(outcomes, _rests_on(rules))
        facts = {name: number for number, name in enumerate(names)}
        shared: dict[tuple[str, ...], Outcomes] = {}
        for some in outcomes.values():
            if some not in shared:
                shared[some] = Outcomes(some)
        shapes = [shared[outcomes[name]] for name in names]
        gates = Gates(facts, shapes, len(rules))
        narrows = []
        for number, (_, condition, narrowings) in enumerate(rules):
            gates.build(number, condition)
            narrows.append(tuple(gates.test(fact, left) for fact, left in narrowings))
        watchers = gates.watchers()
        return Network(
            facts=facts,
            fact_names=tuple(names),
            outcomes=tuple(shapes),
            first_count=_running_total(len(shape.names) for shape in shapes),
            rules=numbers,
            rule_names=tuple(numbers),
            narrows=tuple(narrows),
            needs=tuple(gates.needs),
            children=tuple(gates.children),
            parents=tuple(gates.parents),
            open_gates=tuple(gate for gate, needed in enumerate(gates.needs) if not needed),
            watchers=watchers,
            always=tuple(
                fact for fact, tests in enumerate(watchers) if any(mask == shapes[fact].full for mask, _ in tests)
            ),
        )

    def fact(self, name: str) -> int:
        """The number of the fact. Raises UnknownName."""
        try:
            return self.facts[name]
        except KeyError:
            raise UnknownName(f"there is no fact '{name}'") from None

    def rule(self, name: str) -> int:
        """The number of the rule. Raises UnknownName."""
        try:
            return self.rules[name]
        except KeyError:
            raise UnknownName(f"there is no rule '{name}'") from None


def _rests_on(rules: list[tuple[str, Condition, Narrowings]]) -> RestsOn:
    rests_on: RestsOn = {fact: {} for _, _, narrowings in rules for fact, _ in narrowings}
    for rule, condition, narrowings in rules:
        for fact, _ in narrowings:
            for premise in facts_in(condition):
                if premise in rests_on:
                    rests_on[fact].setdefault(premise, rule)
    return rests_on


def _running_total(sizes: Iterable[int]) -> tuple[int, ...]:
    totals = [0]
    for size in sizes:
        totals.append(totals[-1] + size)
    return tuple(totals)
