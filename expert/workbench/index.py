"""One index of a rule base, shared by all checks, by `expert explain` and by `expert map`.

It knows what uses what, and the ways in which each condition can come true. A *way* gives each fact the outcomes that
will do; a condition is true when one of its ways is. Findings are opened up into the answers behind them, and what a
question or part asks of the machine belongs to the way: so a way that is left over can come up on some machine, and a
condition without one never can.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from functools import cached_property

from expert.engine.knowledge import atoms_of
from expert.language.branches import Branches, branches_in
from expert.language.model import Condition, Fault, Is, Machine, Narrow, Rule, RuleBase
from expert.witness.record import MachineRecord, shipped_records
from expert.workbench.seen import SeenMachines
from expert.workbench.uses import Use, uses_in
from expert.workbench.ways import Way

Applies = Mapping[str, tuple[str, ...]]


class Index:
    """The index of one rule base. Everything is worked out when it is first asked for."""

    def __init__(self, base: RuleBase, records: Iterable[MachineRecord] | None = None) -> None:
        self.base = base
        self._records = tuple(shipped_records() if records is None else records)
        self.outcomes = base.outcomes()

    @cached_property
    def opener(self) -> Branches:
        return branches_in(self.base)

    @cached_property
    def ways(self) -> Mapping[str, tuple[Way, ...]]:
        """By rule, the ways in which it fires on some machine."""
        circuits = self.base.circuits
        return {
            rule.id: self.ways_of(rule.when, circuits[rule.circuit].applies if rule.circuit in circuits else {})
            for rule in self.base.rules.values()
        }

    def ways_of(self, condition: Condition, applies: Applies | None = None) -> tuple[Way, ...]:
        """The ways in which a condition can come true on some machine on which all this applies."""
        found: dict[frozenset[tuple[str, frozenset[str]]], Way] = {}
        for branch in self.opener.of(condition):
            way = self._merged(branch, applies or {})
            if way is not None:
                found.setdefault(frozenset(way.items()), way)
        return tuple(found.values())

    def _merged(self, branch: Iterable[Is], applies: Applies) -> Way | None:
        way: dict[str, frozenset[str]] = {}
        for fact, outcomes in [*applies.items(), *self._limited(branch)]:
            way[fact] = way.get(fact, frozenset(outcomes)) & frozenset(outcomes)
            if not way[fact]:
                return None
        return way

    def _limited(self, branch: Iterable[Is]) -> Iterator[tuple[str, Iterable[str]]]:
        for test in branch:
            yield test.fact, test.outcomes
            yield from self.applies_of(test.fact).items()

    def applies_of(self, fact: str) -> Applies:
        """What a question or the part of a fault asks of the machine."""
        if fact in self.base.questions:
            return self.base.questions[fact].applies
        fault = self.base.faults.get(fact)
        return self.base.parts[fault.part].applies if fault and fault.part in self.base.parts else {}

    @cached_property
    def seen(self) -> tuple[SeenMachines, ...]:
        """What the simulated machines show, for the machine types of this rule base."""
        records = [record for record in self._records if record.machine in self.base.machines]
        return tuple(SeenMachines(self.base, record, self.ways, self.ways_of) for record in records)

    @cached_property
    def uses(self) -> Mapping[str, tuple[Use, ...]]:
        """By id (question, finding, fault, feature as `machine.x` ...), every place that uses it."""
        return uses_in(self.base)

    @cached_property
    def tests(self) -> Mapping[str, tuple[Is, ...]]:
        """By fact, every test of it: in rules, in what questions wait for, what bars a move, what raises a hazard."""
        base = self.base
        conditions = [
            *(rule.when for rule in base.rules.values()),
            *(question.only_if for question in base.questions.values()),
            *(move.unless for move in base.bench.moves),
            *(feed.arrives for feed in base.feeds.values()),
            *(hazard.holds for hazard in base.hazards.values()),
        ]
        return self.tests_of(*conditions)

    @staticmethod
    def tests_of(*conditions: Condition) -> Mapping[str, tuple[Is, ...]]:
        """By fact, the tests of it in these conditions, as their author wrote them."""
        found: dict[str, list[Is]] = {}
        for condition in conditions:
            for test in atoms_of(condition):
                found.setdefault(test.fact, []).append(test)
        return {fact: tuple(tests) for fact, tests in found.items()}

    @cached_property
    def confirming(self) -> Mapping[str, tuple[Rule, ...]]:
        """By fault, the rules that confirm it."""
        return self._narrowing("confirm")

    @cached_property
    def clearing(self) -> Mapping[str, tuple[Rule, ...]]:
        """By fault, the rules that clear it."""
        return self._narrowing("clear")

    def _narrowing(self, word: str) -> Mapping[str, tuple[Rule, ...]]:
        found: dict[str, list[Rule]] = {}
        for rule in self.base.rules.values():
            for said in rule.then:
                if isinstance(said, Narrow) and said.word == word:
                    found.setdefault(said.fact, []).append(rule)
        return {fault: tuple(rules) for fault, rules in found.items()}

    def on(self, machine: Machine, applies: Applies) -> bool:
        """Whether what applies so is there on the machine."""
        return all(machine.features.get(fact.removeprefix("machine.")) in values for fact, values in applies.items())

    def faults_on(self, machine: Machine) -> tuple[Fault, ...]:
        """The faults that the machine can have."""
        return tuple(f for f in self.base.faults.values() if self.on(machine, self.base.parts[f.part].applies))

    def ways_on(self, machine: Machine, ways: Iterable[Way]) -> tuple[Way, ...]:
        """The ways that can come up on this machine."""
        return tuple(
            way
            for way in ways
            if all(
                machine.features.get(fact.removeprefix("machine.")) in values
                for fact, values in way.items()
                if fact.startswith("machine.")
            )
        )
