"""Hazards that hold what they promise: dead tests release them, every stop and every dangerous fault opens one."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from itertools import product
from math import prod

from expert.language.model import ALWAYS, All, Any, Condition, Hazard, Is, Narrow, Not, Rule, Say
from expert.language.problems import Problem
from expert.language.reading.draft import Draft
from expert.language.sentences import checks as say

CODES = {
    "release-not-dead": say.RELEASE_NOT_DEAD,
    "release-by-itself": say.RELEASE_BY_ITSELF,
    "not-in-hazard": say.NOT_IN_HAZARD,
    "stop-without-hazard": say.STOP_WITHOUT_HAZARD,
    "danger-unguarded": say.DANGER_UNGUARDED,
    "danger-not-marked": say.DANGER_NOT_MARKED,
}
_MOST_COMBINATIONS = 4096


def check(draft: Draft) -> Iterable[Problem]:
    """What is wrong with the hazards, and what they leave unguarded; nothing where none is declared."""
    if not draft.hazards or len(draft.hazards) < len(draft.names.places["hazard"]):
        return
    for hazard in draft.hazards.values():
        yield from _releases(draft, hazard)
        if any(isinstance(part, Not) for part in _parts(hazard.holds)):
            message = say.while_contains_not(hazard.id)
            yield Problem(draft.place("hazard", hazard.id, "while"), message, "not-in-hazard")
    yield from _stops(draft)
    yield from _marks(draft)


def _releases(draft: Draft, hazard: Hazard) -> Iterator[Problem]:
    at = draft.place("hazard", hazard.id, "released_by")
    states = [state for name in hazard.forbids if name in draft.acts for state in draft.acts[name].states]
    opened_by = list(dict.fromkeys(atom.fact for atom in _atoms(hazard.holds)))
    for release in hazard.released_by:
        for test in release.tests:
            question = draft.questions.get(test)
            if question is not None and any(state.items() <= question.bench.items() for state in states):
                message = say.cannot_release(test, hazard.id)
                yield Problem(at, message, "release-not-dead")
        if not release.repairs and list(release.tests) == list(opened_by) and not hazard.suspected:
            message = say.asked_again_at_once(opened_by[0], hazard.id)
            yield Problem(at, message, "release-by-itself")


def _stops(draft: Draft) -> Iterator[Problem]:
    for rule in draft.rules.values():
        if any(isinstance(said, Say) and said.word == "stop_work" for said in rule.then):
            lacking = _unguarded(draft, rule)
            message = say.stops_and_nothing_stands(rule.id)
            if lacking:
                message = say.stops_and_no_hazard_names(rule.id, lacking)
            if lacking is not None:
                yield Problem(draft.place("rule", rule.id, "then", "stop_work"), message, "stop-without-hazard")


def _unguarded(draft: Draft, rule: Rule) -> str | None:
    """'' where no hazard stands though the rule has fired; else a question that no hazard names which stands then.

    One that was released before stands again only by a cause that is new: an answer, or the fault that the rule itself
    finds. None where all is guarded.
    """
    finds = {said.fact for said in rule.then if isinstance(said, Narrow) and said.outcomes == ("present",)}
    facts = list(dict.fromkeys(atom.fact for atom in _atoms(rule.when)))
    known = draft.names.outcomes
    choices = [known.get(fact) or () for fact in facts]
    if prod(map(len, choices)) > _MOST_COMBINATIONS:
        return None  # Too much to try out; rules are never that long.
    for combination in product(*choices):
        given = dict(zip(facts, combination, strict=True))
        if not _true(rule.when, given):
            continue
        standing = [hazard for hazard in draft.hazards.values() if _stands(hazard, given)]
        if not standing:
            return ""
        if any(atom.fact in finds for hazard in draft.hazards.values() for atom in _atoms(hazard.holds)):
            continue
        named = {atom.fact for hazard in standing for atom in _atoms(hazard.holds)}
        for fact in facts:
            if fact in draft.questions and fact not in named and not any(h.from_the_start for h in standing):
                return fact
    return None


def _stands(hazard: Hazard, given: Mapping[str, str]) -> bool:
    if not hazard.from_the_start:
        return hazard.holds != ALWAYS and _true(hazard.holds, given)
    # It stands from the start, and what is given keeps every way of release shut.
    return all(
        any(test in given and given[test] not in outcomes for test, outcomes in release.tests.items())
        for release in hazard.released_by
    )


def _true(condition: Condition, given: Mapping[str, str]) -> bool:
    match condition:
        case Is(fact=fact, outcomes=outcomes):
            return given.get(fact) in outcomes
        case All(parts=parts):
            return all(_true(part, given) for part in parts)
        case Any(parts=parts):
            return any(_true(part, given) for part in parts)
        case Not(part=part):
            return not _true(part, given)


def _marks(draft: Draft) -> Iterator[Problem]:
    opening = {
        atom.fact
        for hazard in draft.hazards.values()
        for atom in _atoms(hazard.holds)
        if atom.fact in draft.faults and "present" in atom.outcomes
    }
    suspected = {fault for hazard in draft.hazards.values() for fault in hazard.suspected}
    for fault in draft.faults.values():
        if fault.dangerous and fault.id not in opening | suspected:
            message = say.dangerous_without_hazard(fault.id)
            yield Problem(draft.place("fault", fault.id, "dangerous"), message, "danger-unguarded")
        if fault.id in opening | suspected and not fault.dangerous:
            message = say.hazard_without_danger(fault.id)
            yield Problem(draft.place("fault", fault.id), message, "danger-not-marked")


def _parts(condition: Condition) -> Iterator[Condition]:
    yield condition
    match condition:
        case All(parts=parts) | Any(parts=parts):
            for part in parts:
                yield from _parts(part)
        case Not(part=part):
            yield from _parts(part)


def _atoms(condition: Condition) -> Iterator[Is]:
    return (part for part in _parts(condition) if isinstance(part, Is))
