"""What a case looked at while it was played, and which records of a rule base that touches.

A case comes out as before as long as nothing that it looked at has changed: every step rests on the answers so far,
the suspects, and the rules and questions that bear on them. Where it is not plain that a record was not looked at, it
counts as looked at.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, fields, replace

from expert.engine.knowledge import Knowledge, atoms_of
from expert.language.model import All, Any, Condition, Is, Narrow, Not, Question, Rule, RuleBase
from expert.trace.records import Answered, CannotTell, Fired, Narrowed, PromptPut, Record
from expert.workbench.case_runs.content import digest_of

BY_RECORD = ("rules", "questions", "faults", "findings", "work_outs")
"""The parts of a rule base that are judged record by record; all else concerns every case."""


@dataclass(frozen=True, slots=True)
class Footprint:
    """What a case came upon.

    `questions`: put, answered or left; `unsound`: those that came out so. `confirmed`: faults that were at any time;
    `suspected`: by a rule.
    """

    questions: frozenset[str]
    unsound: frozenset[str]
    confirmed: frozenset[str]
    suspected: frozenset[str]
    complaints: tuple[str, ...]


def footprint_of(knowledge: Knowledge, complaints: tuple[str, ...], records: Iterable[Record]) -> Footprint:
    """The footprint of a case that was played, from all its records."""
    base = knowledge.base
    questions: set[str] = set()
    unsound: set[str] = set()
    confirmed: set[str] = set()
    suspected: set[str] = set()
    for record in records:
        match record:
            case PromptPut(prompt="question" | "proof", question=question) | CannotTell(question=question):
                questions.add(question)
            case Answered(question=question, outcomes=outcomes):
                questions.add(question)
                if not set(outcomes) <= set(base.questions[question].sound):
                    unsound.add(question)
            case Fired(rule=rule):
                suspected |= knowledge.named[rule]
            case Narrowed(fact=fact, after=("present",)) if fact in base.faults:
                confirmed.add(fact)
    return Footprint(frozenset(questions), frozenset(unsound), frozenset(confirmed), frozenset(suspected), complaints)


def digest_under(knowledge: Knowledge, digests: RecordDigests, footprint: Footprint) -> str:
    """A digest of all that the footprint touches in this rule base; equal: the case comes out as it did."""
    base = knowledge.base
    faults = _suspects(knowledge, footprint)
    rules, facts = _bearing(knowledge, footprint, faults)
    rules |= {rule.id for rule in base.rules.values() if _could_fire_with(knowledge, rule, footprint.questions, facts)}
    touched = {
        "faults": faults,
        "rules": rules,
        "questions": facts,
        "findings": facts.union(*(_facts_moved(base.rules[rule]) for rule in rules)),
        "work_outs": _worked_out(base, facts),
    }
    named = [(kind, name) for kind in BY_RECORD for name in getattr(base, kind) if name in touched[kind]]
    return digest_of((digests.common, *(digests[key] for key in named)))


class RecordDigests(dict[tuple[str, str], str]):
    """The digest of each record by kind and id, worked out when asked for; `common`: that of all that is no record."""

    def __init__(self, base: RuleBase) -> None:
        super().__init__()
        self._base = base
        # A part holds its faults, which are judged one by one; the base's own digest changes with every letter.
        parts = tuple(replace(part, faults=()) for part in base.parts.values())
        apart = {*BY_RECORD, "parts", "digest"}
        self.common = digest_of((parts, *(getattr(base, f.name) for f in fields(base) if f.name not in apart)))

    def __missing__(self, key: tuple[str, str]) -> str:
        kind, name = key
        made = self[key] = digest_of(getattr(self._base, kind)[name])
        return made


# ---------------------------------------------------------------- what is touched


def _suspects(knowledge: Knowledge, footprint: Footprint) -> set[str]:
    """All that could come under suspicion: by complaint, by what was seen, by a rule, as cause or rival of another."""
    base = knowledge.base
    complaints = set(footprint.complaints)
    found = {*footprint.confirmed, *footprint.suspected}
    for fault in base.faults.values():
        if complaints.intersection(fault.explains) or footprint.unsound.intersection(fault.shows):
            found.add(fault.id)
    for name in footprint.confirmed & base.faults.keys():
        found.update(base.faults[name].caused_by)
        found.update(rival for rule in knowledge.confirming.get(name, ()) for rival in knowledge.rivals.get(rule, ()))
    return found


def _bearing(knowledge: Knowledge, footprint: Footprint, faults: set[str]) -> tuple[set[str], set[str]]:
    """The rules that could settle a suspect or a complaint, through whatever findings, and all facts on that way.

    Among the facts are the questions that were put or weighed, with those that have to come before them.
    """
    base = knowledge.base
    rules = {rule for complaint in footprint.complaints for rule in knowledge.normal_rules.get(complaint, ())}
    rules |= {rule for fault in faults & base.faults.keys() for rule in knowledge.dangers_of[fault]}
    facts: set[str] = set()
    waiting = [*faults, *footprint.questions, *base.bench.service, *base.bench.after_opening]
    waiting += [question for move in base.bench.moves for question in move.first]
    waiting += [question for fault in faults & base.faults.keys() for question in base.faults[fault].prove]
    waiting += [atom.fact for rule in rules for atom in atoms_of(base.rules[rule].when)]
    while waiting:
        fact = waiting.pop()
        if fact in facts:
            continue
        facts.add(fact)
        if fact in base.questions:
            waiting += _named_by(base.questions[fact])
        for rule in knowledge.concluding.get(fact, ()):
            rules.add(rule)
            waiting += [atom.fact for atom in atoms_of(base.rules[rule].when)]
    return rules, facts


def _could_fire_with(knowledge: Knowledge, rule: Rule, answered: frozenset[str], weighed: set[str]) -> bool:
    """Whether a rule could be decided by the answers, or confirm a fault by them and one of the weighed questions.

    A question that would confirm one fault leaves little room for the others, whichever fault it is.
    """
    confirms = any(isinstance(said, Narrow) and said.word == "confirm" for said in rule.then)
    ones = knowledge.rule_questions[rule.id] & weighed if confirms else frozenset[str]()
    return _could_fire(knowledge, rule.when, answered) or any(
        _could_fire(knowledge, rule.when, answered | {one}) for one in ones
    )


def _could_fire(knowledge: Knowledge, condition: Condition, answered: frozenset[str]) -> bool:
    """Whether the condition could have been decided by answers to these questions alone."""
    match condition:
        case Is(fact=fact):
            behind = knowledge.behind_fact(fact)
            return not behind or not behind.isdisjoint(answered)
        case Not(part=part):
            return _could_fire(knowledge, part, answered)
        case All(parts=parts):
            return all(_could_fire(knowledge, part, answered) for part in parts)
        case Any(parts=parts):
            return any(_could_fire(knowledge, part, answered) for part in parts)


def _facts_moved(rule: Rule) -> set[str]:
    return {said.fact for said in rule.then if isinstance(said, Narrow)}


def _named_by(question: Question) -> list[str]:
    """The facts that a question names: in its condition, in its limits, as second tests."""
    return [*(atom.fact for atom in atoms_of(question.only_if)), *question.second_tests, *_names_in_limits(question)]


def _names_in_limits(question: Question) -> set[str]:
    readings = question.readings
    return {name for reading in readings for limit in (reading.low, reading.high) if limit for name in limit.names}


def _worked_out(base: RuleBase, questions: set[str]) -> list[str]:
    """The worked-out values behind the limits of these questions, directly or through others."""
    waiting = {name for name in questions & base.questions.keys() for name in _names_in_limits(base.questions[name])}
    found: set[str] = set()
    while waiting:
        name = waiting.pop()
        if name in base.work_outs and name not in found:
            found.add(name)
            waiting.update(base.work_outs[name].formula.names)
    return [name for name in base.work_outs if name in found]
