"""A rule base several times its size: every circuit once more, with ids of its own.

Made for measuring; what the copies say is invented and checks nothing. A copy speaks of its own questions, findings and
faults. Its faults explain complaints of its own, or, with `shared_complaints`, those of the original: then every search
has several times the suspects.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import replace
from typing import TypeVar

from expert.language.model import (
    All,
    Any,
    Conclusion,
    Condition,
    Evidence,
    Fault,
    Is,
    Narrow,
    Normal,
    Not,
    Question,
    Rule,
    RuleBase,
    Say,
    Suspect,
)

Name = Callable[[str], str]
Record = TypeVar("Record")


def enlarged(base: RuleBase, times: int, *, shared_complaints: bool = False) -> RuleBase:
    """The rule base with every circuit `times` times."""
    apart = {*base.faults, *base.questions, *base.findings, *(() if shared_complaints else base.complaints)}
    parts, faults, questions = dict(base.parts), dict(base.faults), dict(base.questions)
    findings, rules, complaints = dict(base.findings), dict(base.rules), dict(base.complaints)
    for copy in range(2, times + 1):

        def name(fact: str, copy: int = copy) -> str:
            head, _, rest = fact.rpartition(".")
            if head == "complaint":
                return f"complaint.{name(rest)}"
            return f"{fact}_{copy}" if fact in apart else fact

        faults |= _keyed(_fault(fault, name) for fault in base.faults.values())
        questions |= _keyed(_question(question, name) for question in base.questions.values())
        findings |= _keyed(replace(finding, id=name(finding.id)) for finding in base.findings.values())
        rules |= _keyed(_rule(rule, name, f"{rule.id}_{copy}") for rule in base.rules.values())
        complaints |= _keyed(replace(complaint, id=name(complaint.id)) for complaint in base.complaints.values())
    return replace(
        base, parts=parts, faults=faults, questions=questions, findings=findings, rules=rules, complaints=complaints
    )


def _keyed(records: Iterable[Record]) -> Mapping[str, Record]:
    return {record.id: record for record in records}  # type: ignore[attr-defined]


def _fault(fault: Fault, name: Name) -> Fault:
    return replace(
        fault,
        id=name(fault.id),
        explains=tuple(map(name, fault.explains)),
        shows={name(question): outcomes for question, outcomes in fault.shows.items()},
        caused_by=tuple(map(name, fault.caused_by)),
        prove=tuple(map(name, fault.prove)),
    )


def _question(question: Question, name: Name) -> Question:
    second = tuple(map(name, question.second_tests))
    return replace(question, id=name(question.id), only_if=_condition(question.only_if, name), second_tests=second)


def _rule(rule: Rule, name: Name, key: str) -> Rule:
    then = tuple(_conclusion(said, name) for said in rule.then)
    return replace(rule, id=key, when=_condition(rule.when, name), then=then)


def _condition(condition: Condition, name: Name) -> Condition:
    match condition:
        case Is(fact=fact):
            return replace(condition, fact=name(fact))
        case Not(part=part):
            return Not(_condition(part, name))
        case All(parts=parts):
            return All(tuple(_condition(part, name) for part in parts))
        case Any(parts=parts):
            return Any(tuple(_condition(part, name) for part in parts))


def _conclusion(said: Conclusion, name: Name) -> Conclusion:
    match said:
        case Narrow(fact=fact):
            return replace(said, fact=name(fact))
        case Suspect(faults=faults):
            return replace(said, faults=tuple(map(name, faults)))
        case Evidence(fault=fault):
            return replace(said, fault=name(fault))
        case Normal(complaints=complaints):
            return replace(said, complaints=tuple(map(name, complaints)))
        case Say():
            return said
