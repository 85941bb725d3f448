"""Rules that contradict each other, or themselves, on answers that can be given together."""

from __future__ import annotations

from collections.abc import Iterator

from expert.language.model import Evidence, Narrow, Rule
from expert.language.problems import Problem
from expert.workbench.index import Index
from expert.workbench.sentences import rules as say
from expert.workbench.ways import Way, answers_of, implies

CODES = {
    "confirms-and-clears": say.CONFIRMS_AND_CLEARS,
    "contradicting-rules": say.CONTRADICTING_RULES,
    "for-and-against": say.FOR_AND_AGAINST,
}


def check(index: Index) -> Iterator[Problem]:
    """Contradictions within a rule, then between two, then weights that cancel out."""
    for rule in index.base.rules.values():
        yield from _within(rule)
    by_fact: dict[str, list[tuple[Rule, Narrow]]] = {}
    weights: dict[str, list[tuple[Rule, Evidence]]] = {}
    for rule in index.base.rules.values():
        for said in rule.then:
            if isinstance(said, Narrow):
                by_fact.setdefault(said.fact, []).append((rule, said))
            elif isinstance(said, Evidence):
                weights.setdefault(said.fault, []).append((rule, said))
    for narrowed in by_fact.values():
        yield from _contradictions(index, narrowed)
    for fault, weighed in weights.items():
        yield from _cancelled(index, fault, weighed)


def _within(rule: Rule) -> Iterator[Problem]:
    seen: dict[str, Narrow] = {}
    for said in rule.then:
        if isinstance(said, Narrow):
            first = seen.setdefault(said.fact, said)
            if not set(first.outcomes) & set(said.outcomes):
                message = say.says_both(rule.id, said.fact, _word(first), _word(said))
                yield Problem(said.at, message, "confirms-and-clears")


def _contradictions(index: Index, narrowed: list[tuple[Rule, Narrow]]) -> Iterator[Problem]:
    for rule, said in narrowed:
        for other, others in narrowed:
            if other.at < rule.at or other is rule or set(said.outcomes) & set(others.outcomes):
                continue
            way = _always_together(index, rule, other)
            if way is not None:
                message = say.contradicts_another(
                    other.id, _word(others), said.fact, rule.id, rule.at, _word(said), answers_of(way) or "always"
                )
                yield Problem(others.at, message, "contradicting-rules")


def _cancelled(index: Index, fault: str, weighed: list[tuple[Rule, Evidence]]) -> Iterator[Problem]:
    for rule, said in weighed:
        for other, others in weighed:
            if other.at < rule.at or said.decibans * others.decibans > 0 or (other is rule and said.at >= others.at):
                continue
            way = _same_answers(index, rule, other)
            if way is not None:
                message = say.points_against_another(
                    other.id,
                    "to" if others.decibans > 0 else "away from",
                    fault,
                    rule.id,
                    rule.at,
                    answers_of(way) or "always",
                )
                yield Problem(others.at, message, "for-and-against")


def _same_answers(index: Index, one: Rule, other: Rule) -> Way | None:
    """A way that both rules fire in. A rule that fires in fewer ways than another may well correct its weight."""
    ways = index.ways[other.id]
    return next((way for way in index.ways[one.id] if any(way == same for same in ways)), None)


def _always_together(index: Index, one: Rule, other: Rule) -> Way | None:
    """A way of one rule that lets the other fire as well, whatever else is answered; None if there is none."""
    for first, second in ((one, other), (other, one)):
        for way in index.ways[first.id]:
            if any(implies(way, wide) for wide in index.ways[second.id]):
                return way
    return None


def _word(said: Narrow) -> str:
    words = {"confirm": "confirms", "clear": "clears"}
    return words.get(said.word, f"concludes {'/'.join(said.outcomes)} of")
