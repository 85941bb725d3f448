"""Weights of evidence against what the fault shows: a `points_to` on answers that it cannot give, and the reverse.

A fault alone on a machine that is sound otherwise gives one of the answers under its `shows`, and the sound ones
elsewhere. So the answers of a rule are more likely with it than without, and speak for it, or less likely, and speak
against it. Where a sound machine answers alike, the simulated machines decide: on which share of those with the fault
the rule fires, and on which of the others; and then the other faults that explain the same. What an author knows better
stands under `despite_shows`.
"""

from __future__ import annotations

from collections.abc import Iterator
from math import prod

from expert.language.model import Evidence, Fault, Rule
from expert.language.problems import Problem
from expert.workbench.index import Index
from expert.workbench.seen import SeenMachines
from expert.workbench.sentences import rules as say
from expert.workbench.ways import Way, answers_of

CODES = {
    "weight-against-shows": say.WEIGHT_AGAINST_SHOWS,
    "weight-without-ground": say.WEIGHT_WITHOUT_GROUND,
    "despite-nothing": say.DESPITE_NOTHING,
}
_CLEARLY = 1.5  # times as often on the machines with the fault, or without it


def check(index: Index) -> Iterator[Problem]:
    """Rule by rule; one that never fires is told elsewhere."""
    for rule in index.base.rules.values():
        weighed = [said for said in rule.then if isinstance(said, Evidence)]
        for said in weighed if index.ways[rule.id] else ():
            yield from _weight(index, rule, said)
        for name in rule.despite_shows:
            if name not in {said.fault for said in weighed}:
                yield Problem(rule.at, say.gives_no_weight(rule.id, name), "despite-nothing")


def _weight(index: Index, rule: Rule, said: Evidence) -> Iterator[Problem]:
    fault = index.base.faults[said.fault]
    speaks = _by_its_signs(index, rule, fault) or _by_machines(index, rule, fault) or _among_others(index, rule, fault)
    word = "to" if said.decibans > 0 else "away from"
    agrees, despite = speaks * said.decibans > 0, fault.id in rule.despite_shows
    if speaks == 0:
        message = say.weighs_what_nothing_tells(rule.id, word, fault.id, _asked(index, rule))
        yield Problem(said.at, say.say_under_shows(message), "weight-without-ground")
    elif not agrees and not despite:
        gives = say.GIVES_JUST_THESE_ANSWERS if speaks > 0 else say.HARDLY_GIVES_THESE_ANSWERS
        message = say.points_the_wrong_way(rule.id, word, fault.id, gives, _witness(index, rule, fault))
        yield Problem(said.at, message, "weight-against-shows")
    elif agrees and despite:
        message = say.needs_no_despite(rule.id, word, fault.id)
        yield Problem(said.at, message, "despite-nothing")


def _by_its_signs(index: Index, rule: Rule, fault: Fault) -> int:
    """1: the rule's answers are likelier with the fault than on a sound machine, -1: less likely, 0: as likely."""
    ways = index.ways[rule.id]
    there = max(_chance(index, way, fault) for way in ways)
    sound = max(_chance(index, way, None) for way in ways)
    return 1 if there > sound else -1 if there < sound or not there else 0


def _chance(index: Index, way: Way, fault: Fault | None) -> float:
    """How likely the answers are, each outcome that may come out as likely as any other."""
    return prod(_share_of(index, fact, outcomes, fault) for fact, outcomes in way.items())


def _share_of(index: Index, fact: str, outcomes: frozenset[str], fault: Fault | None) -> float:
    kind, _, inner = fact.partition(".")
    if kind == "complaint":
        # A sound machine is complained of as well, only less: this decides where the answers do not.
        return 0.9 if "yes" in outcomes and (fault is None or inner not in fault.explains) else 1.0
    question = index.base.questions.get(fact)
    if question is None:
        return 1.0
    given = set(fault.shows.get(fact, ())) if fault is not None else set()
    given = given or set(question.sound or question.outcomes)
    return len(given & outcomes) / len(given)


def _among_others(index: Index, rule: Rule, fault: Fault) -> int:
    """The same against the faults of other parts that explain one of its complaints."""
    others = [
        other
        for other in index.base.faults.values()
        if other.part != fault.part and set(other.explains) & set(fault.explains)
    ]
    there = max(_chance(index, way, fault) for way in index.ways[rule.id])
    usual = sum(max(_chance(index, way, other) for way in index.ways[rule.id]) for other in others)
    return 0 if not others or there * len(others) == usual else 1 if there * len(others) > usual else -1


def _by_machines(index: Index, rule: Rule, fault: Fault) -> int:
    """The same by the shares of the simulated machines on which the rule fires, those with the fault and the others."""
    for seen in index.seen:
        having = seen.having([fault.id])
        there, others = _firing(seen, rule, having), _firing(seen, rule, seen.everywhere & ~having)
        if there > _CLEARLY * others:
            return 1
        if there * _CLEARLY < others:
            return -1
    return 0


def _firing(seen: SeenMachines, rule: Rule, machines: int) -> float:
    return (machines & seen.fires[rule.id]).bit_count() / machines.bit_count() if machines else 0.0


def _witness(index: Index, rule: Rule, fault: Fault) -> str:
    """The answers in question, and what the fault gives in their place."""
    for way in index.ways[rule.id]:
        for fact, outcomes in way.items():
            question = index.base.questions.get(fact)
            given = fault.shows.get(fact) or (question.sound if question else ())
            if question and given and not set(given) & outcomes:
                return say.gives_other_outcomes(fact, "/".join(given), "/".join(sorted(outcomes)))
    return _asked(index, rule)


def _asked(index: Index, rule: Rule) -> str:
    way = index.ways[rule.id][0]
    return answers_of({fact: outcomes for fact, outcomes in way.items() if not fact.startswith("machine.")}) or "always"
