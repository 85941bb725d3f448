"""The rules made ready for spreading answers. A `Network` never changes; every state of a job shares it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from expert.engine.facts import Facts, Support, Test
from expert.engine.gates import Gates, Watchers
from expert.engine.order import ConcludedBy, premises_first
from expert.engine.outcomes import UnknownName
from expert.language.garbage import garbage_collection_off
from expert.language.model import Condition

# Facts that a rule narrows, each with the outcomes it leaves.
Narrowings = tuple[tuple[str, tuple[str, ...]], ...]
Rules = Iterable[tuple[str, Condition, Narrowings]]


@dataclass(frozen=True, slots=True, eq=False)
class Network:
    """Facts, rules and gates by number.

    `facts`: numbered so that premises come before what is concluded from them.
    `rules`: numbers; `narrows`: what each rule concludes. A rule's number is also the number of its own gate.
    `needs`, `children`, `parents`: the gates (see gates.py), -1 for the parent of a rule's own gate.
    `watchers`: for each fact the masks it is tested for, each with the gates to tell.
    `open_gates`: gates that need nothing; `always`: facts that some condition tests for their full mask. Both are true
    before anything has been said.
    """

    facts: Facts
    rules: Mapping[str, int]
    rule_names: tuple[str, ...]
    narrows: tuple[tuple[Support, ...], ...]
    needs: tuple[int, ...]
    children: tuple[tuple[Test | int, ...], ...]
    parents: tuple[int, ...]
    watchers: tuple[Watchers, ...]
    open_gates: tuple[int, ...]
    always: tuple[int, ...]

    @staticmethod
    @garbage_collection_off()
    def build(outcomes: Mapping[str, tuple[str, ...]], rules: Rules) -> Network:
        """The network of these facts (each with its outcomes) and rules (id, condition, what it narrows).

        Raises UnknownName for a fact or outcome that is not there, Circular when conclusions rest on themselves,
        ValueError for a rule id met twice or a fact without outcomes.
        """
        rules = list(rules)
        numbers = {rule: number for number, (rule, _, _) in enumerate(rules)}
        if len(numbers) != len(rules):
            raise ValueError("two rules have the same id")
        facts = Facts(premises_first(outcomes, _concluded_by(rules)), outcomes)
        gates = Gates(facts, [condition for _, condition, _ in rules])
        # Rules that conclude the same share it, for the sake of memory.
        shared: dict[Narrowings, tuple[Support, ...]] = {}
        narrows = []
        for _, _, narrowings in rules:
            supports = shared.get(narrowings)
            if supports is None:
                supports = tuple([facts.support(*facts.read(*narrowing)) for narrowing in narrowings])
                shared[narrowings] = supports
            narrows.append(supports)
        return Network(
            facts=facts,
            rules=numbers,
            rule_names=tuple(numbers),
            narrows=tuple(narrows),
            needs=tuple(gates.needs),
            children=tuple(gates.children),
            parents=tuple(gates.parents),
            watchers=gates.watchers(),
            open_gates=tuple([gate for gate, needed in enumerate(gates.needs) if not needed]),
            always=gates.tested_for_all(),
        )

    def rule(self, name: str) -> int:
        """The number of the rule. Raises UnknownName."""
        try:
            return self.rules[name]
        except KeyError:
            raise UnknownName(f"there is no rule '{name}'") from None


def _concluded_by(rules: Rules) -> ConcludedBy:
    concluded_by: dict[str, list[tuple[str, Condition]]] = {}
    for rule, condition, narrowings in rules:
        for fact, _ in narrowings:
            concluded_by.setdefault(fact, []).append((rule, condition))
    return concluded_by
