"""The ways in which a condition can come true, as lists of single tests; findings opened up into the answers behind."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from itertools import islice

from expert.language.model import All, Condition, Is, Narrow, Not, RuleBase

Branch = tuple[Is, ...]
_MOST = 4_000  # ways; a condition with more is looked at in so many


@dataclass(frozen=True, slots=True)
class Branches:
    """Opens conditions of one rule base. `opened`, `followed`: those it has opened already, with their ways."""

    base: RuleBase
    outcomes: Mapping[str, tuple[str, ...]]
    concluding: Mapping[str, tuple[tuple[tuple[str, ...], Condition], ...]]
    # By identity: a condition lives as long as its rule base, and to hash one takes as long as to open it.
    opened: dict[int, tuple[Condition, tuple[Branch, ...]]] = field(default_factory=dict, repr=False)
    followed: dict[int, tuple[Condition, tuple[Branch, ...]]] = field(default_factory=dict, repr=False)

    def of(self, condition: Condition) -> tuple[Branch, ...]:
        """Every way in which the condition can be true, in answers, faults, features and complaints."""
        if id(condition) not in self.opened:
            ways = (way for branch in self._ways(condition, wanted=True) for way in self._open(branch))
            self.opened[id(condition)] = condition, tuple(islice(ways, _MOST))
        return self.opened[id(condition)][1]

    def asked(self, condition: Condition) -> tuple[Branch, ...]:
        """The same with what must have been known before each question could be asked."""
        if id(condition) not in self.followed:
            ways = (whole for branch in self.of(condition) for whole in self._with_what_came_before(branch))
            joined = (way for whole in ways if (way := _joined(whole)) is not None)
            self.followed[id(condition)] = condition, tuple(islice(joined, _MOST))
        return self.followed[id(condition)][1]

    def own_facts(self, condition: Condition) -> frozenset[str]:
        """Every question, fault, feature and complaint on which the condition itself rests."""
        return frozenset(test.fact for branch in self.of(condition) for test in branch)

    def _with_what_came_before(self, branch: Branch) -> list[Branch]:
        waiting = [(branch, 0)]
        whole: list[Branch] = []
        while waiting and len(whole) < _MOST:
            way, place = waiting.pop()
            while place < len(way) and (way[place].fact not in self.base.questions or _again(way, place)):
                place += 1
            if place == len(way):
                whole.append(way)
                continue
            before = self.of(self.base.questions[way[place].fact].only_if)
            waiting += [(way + more, place + 1) for more in reversed(before)]
        return whole

    def _ways(self, condition: Condition, wanted: bool) -> list[Branch]:
        match condition:
            case Is(fact, outcomes, at):
                if wanted:
                    return [(condition,)]
                others = tuple(o for o in self.outcomes.get(fact, ()) if o not in outcomes)
                return [(Is(fact, others, at),)]
            case Not(part):
                return self._ways(part, not wanted)
        parts = [self._ways(part, wanted) for part in condition.parts]
        if isinstance(condition, All) != wanted:
            return [branch for ways in parts for branch in ways]
        whole: list[Branch] = [()]
        for ways in parts:
            whole = [before + branch for before in whole for branch in ways][:_MOST]
        return whole

    def _open(self, branch: Branch) -> list[Branch]:
        """The same with each finding replaced by the answers from which rules conclude it. Rules run in no circle."""
        whole: list[Branch] = [()]
        for test in branch:
            ways: list[Branch] = [(test,)]
            if test.fact in self.base.findings:
                concluded = self.concluding.get(test.fact, ())
                ways = [way for outs, when in concluded if set(outs) <= set(test.outcomes) for way in self.of(when)]
            whole = [before + way for before in whole for way in ways or [(test,)]][:_MOST]
        return whole


def _joined(branch: Branch) -> Branch | None:
    """The branch with one test for each fact; None where two of its tests exclude each other."""
    tests: dict[str, Is] = {}
    for test in branch:
        there = tests.get(test.fact)
        both = test.outcomes if there is None else tuple(o for o in there.outcomes if o in test.outcomes)
        if not both:
            return None
        tests[test.fact] = Is(test.fact, both, test.at)
    return tuple(tests.values())


def _again(way: Branch, place: int) -> bool:
    """Whether the same question stands earlier in the way: what came before it is in it already."""
    return any(test.fact == way[place].fact for test in way[:place])


def branches_in(base: RuleBase) -> Branches:
    """The opener of a rule base's conditions."""
    concluding: dict[str, list[tuple[tuple[str, ...], Condition]]] = {}
    for fact, outcomes, when in _concluded(base):
        concluding.setdefault(fact, []).append((outcomes, when))
    return Branches(base, base.outcomes(), {fact: tuple(ways) for fact, ways in concluding.items()})


def _concluded(base: RuleBase) -> Iterator[tuple[str, tuple[str, ...], Condition]]:
    for rule in base.rules.values():
        for said in rule.then:
            if isinstance(said, Narrow) and said.fact in base.findings:
                yield said.fact, said.outcomes, rule.when
