"""A rule base seen from the planner: which rules speak of which faults, and which questions lead to them.

Worked out once for a rule base, never changed, shared by all jobs.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from expert.engine.bench import BenchMaps
from expert.engine.from_rules import network_of
from expert.engine.network import Network
from expert.language.feeding import faults_meant
from expert.language.model import Condition, Evidence, Is, Narrow, Normal, Not, Rule, RuleBase, Say, Suspect


def atoms_of(condition: Condition) -> tuple[Is, ...]:
    """Every single test in a condition, left to right."""
    if isinstance(condition, Is):
        return (condition,)
    if isinstance(condition, Not):
        return atoms_of(condition.part)
    return tuple(atom for part in condition.parts for atom in atoms_of(part))


def faults_named(rule: Rule) -> frozenset[str]:
    """The faults a rule speaks against: confirmed, suspected, put on a check list, or given evidence for."""
    named: set[str] = set()
    for conclusion in rule.then:
        match conclusion:
            case Narrow(fact=fact, word="confirm"):
                named.add(fact)
            case Suspect(faults=faults):
                named.update(faults)
            case Evidence(fault=fault, decibans=decibans) if decibans > 0:
                named.add(fault)
    return frozenset(named)


@dataclass(frozen=True)
class Knowledge:
    """The rule base with its compiled network and the indexes the planner needs.

    By complaint: the faults that explain it and the rules that call it normal. By finding or fault: the rules that
    narrow or weigh it, and the questions that bear on it through rules. By fault: the rules that confirm it. By rule:
    the faults that would give the same answers as one it confirms; the questions behind its condition,
    the faults it speaks against, the decibans it gives. `stopping`: the rules that stop the work; `dangers_of`: those
    that name a fault.
    """

    base: RuleBase
    network: Network = field(repr=False)
    explainers: Mapping[str, tuple[str, ...]]
    concluding: Mapping[str, tuple[str, ...]]
    questions_behind: Mapping[str, frozenset[str]]
    rule_questions: Mapping[str, frozenset[str]]
    named: Mapping[str, frozenset[str]]
    normal_rules: Mapping[str, tuple[str, ...]]
    stopping: frozenset[str]
    evidence: Mapping[str, tuple[tuple[str, int], ...]]
    dangers_of: Mapping[str, tuple[str, ...]]
    confirming: Mapping[str, tuple[str, ...]]
    rivals: Mapping[str, tuple[str, ...]]
    bench_maps: BenchMaps = field(repr=False, compare=False)

    def questions_of(self, condition: Condition) -> tuple[str, ...]:
        """Every question a condition rests on, directly or through findings, in the order it names them."""
        behind: dict[str, None] = {}
        for atom in atoms_of(condition):
            behind |= dict.fromkeys(sorted(self.behind_fact(atom.fact)))
        return tuple(behind)

    def behind_fact(self, fact: str) -> frozenset[str]:
        """The question itself, or every question that bears on a finding or fault through rules."""
        return _behind(self.base, self.questions_behind, fact)


def knowledge_of(base: RuleBase) -> Knowledge:
    """The planner's view of a checked rule base."""
    concluding: dict[str, list[str]] = {}
    normal_rules: dict[str, list[str]] = {}
    for rule in base.rules.values():
        for fact in _facts_moved(rule):
            concluding.setdefault(fact, []).append(rule.id)
        for complaint in _complaints_answered(rule):
            normal_rules.setdefault(complaint, []).append(rule.id)
    explainers: dict[str, list[str]] = {complaint: [] for complaint in base.complaints}
    for fault in base.faults.values():
        for complaint in fault.explains:
            explainers[complaint].append(fault.id)
    behind = _questions_behind(base, concluding)
    named = {rule.id: faults_named(rule) for rule in base.rules.values()}
    stopping = [rule.id for rule in base.rules.values() if _stops_work(rule)]
    return Knowledge(
        base=base,
        network=network_of(base),
        explainers={key: tuple(value) for key, value in explainers.items()},
        concluding={key: tuple(value) for key, value in concluding.items()},
        questions_behind=behind,
        rule_questions={
            rule.id: frozenset().union(*(_behind(base, behind, atom.fact) for atom in atoms_of(rule.when)))
            for rule in base.rules.values()
        },
        named=named,
        normal_rules={key: tuple(value) for key, value in normal_rules.items()},
        stopping=frozenset(stopping),
        evidence={
            rule.id: tuple((said.fault, said.decibans) for said in rule.then if isinstance(said, Evidence))
            for rule in base.rules.values()
        },
        dangers_of={fault: tuple(rule for rule in stopping if fault in named[rule]) for fault in base.faults},
        confirming=_confirming(base),
        rivals={
            rule.id: faults_meant(rule.rivals, base.parts, base.feeds, base.faults)
            for rule in base.rules.values()
            if rule.rivals
        },
        bench_maps=BenchMaps(base.bench),
    )


def _behind(base: RuleBase, behind: Mapping[str, frozenset[str]], fact: str) -> frozenset[str]:
    return frozenset((fact,)) if fact in base.questions else behind.get(fact, frozenset())


def _confirming(base: RuleBase) -> dict[str, tuple[str, ...]]:
    """By fault, the rules that confirm it."""
    found: dict[str, list[str]] = {}
    for rule in base.rules.values():
        for said in rule.then:
            if isinstance(said, Narrow) and said.word == "confirm":
                found.setdefault(said.fact, []).append(rule.id)
    return {fault: tuple(rules) for fault, rules in found.items()}


def _stops_work(rule: Rule) -> bool:
    return any(isinstance(said, Say) and said.word == "stop_work" for said in rule.then)


def _facts_moved(rule: Rule) -> Iterable[str]:
    """The facts a rule narrows or gives evidence on."""
    for conclusion in rule.then:
        if isinstance(conclusion, Narrow):
            yield conclusion.fact
        elif isinstance(conclusion, Evidence):
            yield conclusion.fault


def _complaints_answered(rule: Rule) -> Iterable[str]:
    for conclusion in rule.then:
        if isinstance(conclusion, Normal):
            yield from conclusion.complaints


def _questions_behind(base: RuleBase, concluding: Mapping[str, list[str]]) -> dict[str, frozenset[str]]:
    """For every finding and fault, the questions that bear on it. Rules are acyclic, so the recursion ends."""
    known: dict[str, frozenset[str]] = {}

    def behind(fact: str) -> frozenset[str]:
        if fact in base.questions:
            return frozenset((fact,))
        if fact not in known:
            found: set[str] = set()
            for rule_id in concluding.get(fact, ()):
                for atom in atoms_of(base.rules[rule_id].when):
                    found |= behind(atom.fact)
            known[fact] = frozenset(found)
        return known[fact]

    for fact in concluding:
        behind(fact)
    return known
