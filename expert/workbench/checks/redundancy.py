"""Rules that say what is said already, or that can never say anything."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from expert.language.model import Conclusion, Evidence, Rule, Suspect
from expert.language.problems import Problem
from expert.workbench.index import Index
from expert.workbench.sentences import rules as say
from expert.workbench.ways import Way, answers_of, implies

CODES = {
    "never-fires": say.NEVER_FIRES,
    "duplicate-rule": say.DUPLICATE_RULE,
    "subsumed-rule": say.SUBSUMED_RULE,
    "never-asked": say.NEVER_ASKED,
}


def check(index: Index) -> Iterator[Problem]:
    """Unfireable rules first, then those that add nothing, then questions that nobody ever sees."""
    for rule in index.base.rules.values():
        if not index.ways[rule.id]:
            message = say.can_never_fire(rule.id)
            yield Problem(rule.at, message, "never-fires")
    yield from _repeated(index)
    yield from _never_asked(index)


def _repeated(index: Index) -> Iterator[Problem]:
    by_conclusion: dict[Conclusion, list[Rule]] = {}
    for rule in index.base.rules.values():
        for said in rule.then:
            by_conclusion.setdefault(said, []).append(rule)
    for rule in index.base.rules.values():
        for other in by_conclusion[rule.then[0]]:
            if other is not rule and set(_lasting(rule)) == set(rule.then) <= set(other.then):
                found = _against(index, rule, other)
                if found is not None:
                    yield found
                    break


def _lasting(rule: Rule) -> tuple[Conclusion, ...]:
    """The conclusions that hold once, however often they are drawn: weights add up."""
    return tuple(said for said in rule.then if not isinstance(said, Evidence))


def _against(index: Index, rule: Rule, other: Rule) -> Problem | None:
    mine, others = index.ways[rule.id], index.ways[other.id]
    if not mine or not all(any(implies(way, wide) for wide in others) for way in mine):
        return None
    same = all(any(implies(way, narrow) for narrow in mine) for way in others)
    if same and set(rule.then) == set(other.then):
        if rule.at < other.at:
            return None  # reported once, at the later of the two
        message = say.says_the_same(rule.id, other.id, other.at, _witness(mine))
        return Problem(rule.at, message, "duplicate-rule")
    if any(isinstance(said, Suspect) for said in rule.then):
        return None
    message = say.adds_nothing(rule.id, _witness(mine), other.id, other.at)
    return Problem(rule.at, message, "subsumed-rule")


def _witness(ways: tuple[Way, ...]) -> str:
    return answers_of(ways[0]) or "always"


def _never_asked(index: Index) -> Iterator[Problem]:
    base = index.base
    before: Mapping[str, tuple[Way, ...]] = {
        question.id: index.ways_of(question.only_if, question.applies) for question in base.questions.values()
    }
    # From those that wait for nothing onwards: what is reached can be put, the rest never.
    reached: set[str] = set()
    grew = True
    while grew:
        more = {
            name
            for name, ways in before.items()
            if name not in reached and any(all(f in reached or f not in base.questions for f in way) for way in ways)
        }
        reached |= more
        grew = bool(more)
    for question in base.questions.values():
        if question.id not in reached:
            why = say.WAITS_FOR_ITSELF if before[question.id] else say.WAITS_FOR_NOTHING_TRUE
            yield Problem(question.at, say.never_put(question.id, why), "never-asked")
