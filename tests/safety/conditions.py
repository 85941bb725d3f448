"""What conditions and rules speak of, read from the declared data."""

from __future__ import annotations

from expert.language.model import All, Any, Condition, Evidence, Is, Not, RuleBase, Suspect


def facts_in(condition: Condition) -> frozenset[str]:
    """Every fact that a condition speaks of."""
    match condition:
        case Is(fact=fact):
            return frozenset((fact,))
        case Not(part=part):
            return facts_in(part)
        case All(parts=parts) | Any(parts=parts):
            return frozenset().union(*map(facts_in, parts))


def suspects_of(base: RuleBase, rule: str) -> frozenset[str]:
    """The faults that a rule brings under suspicion: by check, suspect or points_to."""
    if rule not in base.rules:
        return frozenset()
    named: set[str] = set()
    for said in base.rules[rule].then:
        match said:
            case Suspect(faults=faults):
                named.update(faults)
            case Evidence(fault=fault, decibans=decibans) if decibans > 0:
                named.add(fault)
    return frozenset(named)
