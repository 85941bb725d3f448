"""What uses what: every place in a rule base where an id stands."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import NamedTuple

from expert.engine.knowledge import atoms_of, faults_named
from expert.language.formulas.formula import Formula
from expert.language.model import (
    Conclusion,
    Evidence,
    Narrow,
    Normal,
    Position,
    Question,
    Rule,
    RuleBase,
    Say,
    Suspect,
)
from expert.workbench.sentences import showing as say


class Use(NamedTuple):  # of all the ways to hold four values the quickest to make, and thousands are made
    """One place where something is used: by a record of a sort (rule, question, fault ...), in what role, and where."""

    sort: str
    id: str
    role: str
    at: Position


def uses_in(base: RuleBase) -> Mapping[str, tuple[Use, ...]]:
    """By id, every place that uses it, in the order of the files."""
    found: dict[str, list[Use]] = {}
    for name, use in (*_in_rules(base), *_in_questions(base), *_in_faults(base), *_in_rest(base)):
        found.setdefault(name, []).append(use)
    return {name: tuple(dict.fromkeys(used)) for name, used in found.items()}


def _in_rules(base: RuleBase) -> Iterator[tuple[str, Use]]:
    by_text = {caution.text: caution.id for caution in base.cautions.values()}
    for rule in base.rules.values():
        for test in atoms_of(rule.when):
            yield test.fact, Use("rule", rule.id, f"if {'/'.join(test.outcomes)}", rule.at)
        for said in rule.then:
            for name, role in _concluded(said, by_text):
                yield name, Use("rule", rule.id, role, rule.at)
        for name in rule.rivals:
            yield name, Use("rule", rule.id, "rivals", rule.at)


def _in_questions(base: RuleBase) -> Iterator[tuple[str, Use]]:
    for question in base.questions.values():
        for test in atoms_of(question.only_if):
            yield test.fact, Use("question", question.id, "only_if", question.at)
        for name in limits_of(question):
            yield name, Use("question", question.id, "readings", question.at)
        if question.nominal:
            yield question.nominal, Use("question", question.id, "nominal", question.at)
        for name in question.second_tests:
            yield name, Use("question", question.id, "second_test", question.at)
        for name in question.mends:
            yield name, Use("question", question.id, "mends", question.at)
        for name in question.cautions:
            yield name, Use("question", question.id, "cautions", question.at)
        if question.instrument:
            yield question.instrument, Use("question", question.id, "with", question.at)
    for work_out in base.work_outs.values():
        for name in (*work_out.formula.names, *work_out.assume):
            yield name, Use("worked-out value", work_out.id, "formula", work_out.at)


def _in_faults(base: RuleBase) -> Iterator[tuple[str, Use]]:
    for fault in base.faults.values():
        for role in ("explains", "shows", "caused_by", "prove", "cuts", "masks"):
            for name in getattr(fault, role):
                yield name, Use("fault", fault.id, role, fault.at)
        for name in fault.repair.cautions:
            yield name, Use("fault", fault.id, "cautions", fault.at)
    for part in base.parts.values():
        for name in part.needs:
            yield name, Use("part", part.id, "needs", part.at)


def _in_rest(base: RuleBase) -> Iterator[tuple[str, Use]]:
    bench = base.bench
    tried = (("service", bench.service), ("after_opening", bench.after_opening), ("check_out", bench.check_out))
    for role, names in tried:
        for name in names:
            yield name, Use("bench", "bench", role, base.questions[name].at)
    for move in bench.moves:
        for name in (*move.first, *move.cautions, *(test.fact for test in atoms_of(move.unless))):
            yield name, Use("move", move.id, say.ROLES_IN_A_MOVE, move.at)
    for feed in base.feeds.values():
        tested = (test.fact for test in atoms_of(feed.arrives))
        for name in (*feed.through, *feed.lacking, *feed.explains, *tested):
            yield name, Use("feed", feed.id, say.ROLES_IN_A_FEED, feed.at)
    for complaint in base.complaints.values():
        raised = (test.fact for test in atoms_of(complaint.raised_when))
        for name in (*complaint.seen, *raised, *complaint.gone_when):
            yield name, Use("complaint", complaint.id, say.ROLES_IN_A_COMPLAINT, complaint.at)
    facts = base.outcomes()
    for hazard in base.hazards.values():
        for name in _named_in(hazard, facts):
            yield name, Use("hazard", hazard.id, "while or released_by", hazard.at)


def _concluded(said: Conclusion, by_text: Mapping[str, str]) -> Iterator[tuple[str, str]]:
    """The ids in a conclusion, each with its role."""
    match said:
        case Narrow(fact, outcomes, word):
            yield fact, f"{word} {'/'.join(outcomes)}" if word == "conclude" else word
        case Suspect(faults, in_order):
            yield from ((fault, "check" if in_order else "suspect") for fault in faults)
        case Evidence(fault, decibans):
            yield fault, "points_to" if decibans > 0 else "points_away"
        case Normal(complaints):
            yield from ((complaint, "normal") for complaint in complaints)
        case Say("caution", text):
            yield by_text[text], "caution"
        case Say():
            return


def faults_spoken_for(rule: Rule, base: RuleBase) -> frozenset[str]:
    """The faults in a rule's condition, and those that its conclusions speak against."""
    return faults_named(rule) | {test.fact for test in atoms_of(rule.when) if test.fact in base.faults}


def limits_of(question: Question) -> tuple[str, ...]:
    """The names that the limits of a question's readings rest on."""
    readings = question.readings
    formulas: list[Formula] = [limit for r in readings for limit in (r.low, r.high) if limit is not None]
    return tuple(dict.fromkeys(name for formula in formulas for name in formula.names))


def _named_in(record: object, facts: Mapping[str, tuple[str, ...]]) -> Iterator[str]:
    """The facts that a record of the hazards file names, whatever its fields."""
    names = getattr(record, "__dataclass_fields__", {})
    for name in names:
        yield from _facts_in(getattr(record, name), facts)


def _facts_in(value: object, facts: Mapping[str, tuple[str, ...]]) -> Iterator[str]:
    if isinstance(value, str):
        if value in facts:
            yield value
    elif isinstance(value, Mapping):
        for key, inner in value.items():
            yield from _facts_in(key, facts)
            yield from _facts_in(inner, facts)
    elif isinstance(value, tuple):
        for inner in value:
            yield from _facts_in(inner, facts)
    elif hasattr(value, "__dataclass_fields__"):
        yield from _named_in(value, facts)
