"""Why a fact is what it is, followed down to what the sources said; and which sources contradict each other.

Nothing is recorded for this while answers spread. The reasons are read off the state when somebody asks.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Set
from typing import Protocol, Self

from expert.engine.facts import Test
from expert.engine.network import Network
from expert.engine.spreading import Tally
from expert.trade.frozen import dataclass


class Known(Protocol):
    """What this module reads of a state: enough to follow its reasons, and to try out fewer sources."""

    network: Network
    tally: Tally
    said: dict[str, dict[int, int]]

    @property
    def fired(self) -> Set[str]: ...

    def only(self, sources: Iterable[str]) -> Self: ...

    def say(self, source: str, masks: Mapping[int, int]) -> object: ...

    def take_back(self, source: str) -> object: ...


@dataclass(frozen=True, slots=True)
class Said:
    """A source (an answer, machine data) says that the fact is one of these outcomes."""

    source: str
    fact: str
    outcomes: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Follows:
    """A rule that fired leaves the fact these outcomes. `because`: what makes the rule's condition true."""

    rule: str
    fact: str
    outcomes: tuple[str, ...]
    because: tuple[Reason, ...]


@dataclass(frozen=True, slots=True)
class Reason:
    """The fact is one of these outcomes (none: it is contradictory), because all of `because` hold.

    An empty `because` means that nothing is excluded. Parts of the tree may be the same object in several places.
    """

    fact: str
    outcomes: tuple[str, ...]
    because: tuple[Said | Follows, ...]

    def sources(self) -> frozenset[str]:
        """The sources at the leaves of the tree."""
        found = set()
        waiting, seen = [self], {id(self)}
        while waiting:
            for cause in waiting.pop().because:
                if isinstance(cause, Said):
                    found.add(cause.source)
                else:
                    waiting += (part for part in cause.because if id(part) not in seen)
                    seen.update(map(id, cause.because))
        return frozenset(found)


def reason_for(state: Known, wanted: Iterable[Test]) -> tuple[Reason, ...]:
    """For each fact that lies within the mask beside it: why it does."""
    wanted = tuple(wanted)
    supports = _supports(state)
    chosen: dict[Test, list[tuple[int, str | int]]] = {}
    waiting = list(wanted)
    while waiting:
        test = waiting.pop()
        if test in chosen:
            continue
        chosen[test] = _enough(supports.get(test[0], []), state.network.facts.outcomes[test[0]].full, test[1])
        for _, support in chosen[test]:
            if isinstance(support, int):
                waiting += _true_tests(state, support)
    facts = state.network.facts
    reasons: dict[Test, Reason] = {}
    # Premises have lower numbers than conclusions, so the reasons a rule needs are there when its turn comes.
    for fact, within in sorted(chosen):
        causes: list[Said | Follows] = []
        left = facts.outcomes[fact].full
        for mask, support in chosen[fact, within]:
            left &= mask
            outcomes = facts.named(fact, mask)
            if isinstance(support, str):
                causes.append(Said(support, facts.names[fact], outcomes))
            else:
                because = tuple(reasons[test] for test in _true_tests(state, support))
                causes.append(Follows(state.network.rule_names[support], facts.names[fact], outcomes, because))
        reasons[fact, within] = Reason(facts.names[fact], facts.named(fact, left), tuple(causes))
    return tuple(reasons[test] for test in wanted)


def reason_for_rule(state: Known, rule: int) -> tuple[Reason, ...]:
    """What makes the condition of a rule that fired true."""
    return reason_for(state, _true_tests(state, rule))


def _supports(state: Known) -> dict[int, list[tuple[int, str | int]]]:
    """For each fact the masks it is kept within, each with the source that said so or the number of the rule."""
    supports: dict[int, list[tuple[int, str | int]]] = {}
    for source, said in state.said.items():
        for fact, mask in said.items():
            supports.setdefault(fact, []).append((mask, source))
    for rule in sorted(map(state.network.rule, state.fired)):
        for fact, mask, *_ in state.network.narrows[rule]:
            supports.setdefault(fact, []).append((mask, rule))
    return supports


def _enough(supports: list[tuple[int, str | int]], left: int, within: int) -> list[tuple[int, str | int]]:
    """Of the supports, in their order, those that bring the fact within the mask: no later one adds anything."""
    chosen = []
    for mask, support in supports:
        if left & ~within & ~mask:
            chosen.append((mask, support))
            left &= mask
    return chosen


def _true_tests(state: Known, gate: int) -> list[Test]:
    """Tests that together make a true gate true: of its true parts the first ones, as many as it needs."""
    tests: list[Test] = []
    waiting = [gate]
    while waiting:
        gate = waiting.pop()
        needed = state.network.needs[gate]
        for part in state.network.children[gate]:
            if not needed:
                break
            if isinstance(part, int):
                if state.tally.lacking[part] > 0:
                    continue
                waiting.append(part)
            else:
                if not 0 < state.tally.masks[part[0]] == state.tally.masks[part[0]] & part[1]:
                    continue
                tests.append(part)
            needed -= 1
    return tests


def sources_behind(state: Known, test: Test) -> frozenset[str]:
    """Sources that suffice to bring the fact within the mask.

    These are the leaves of its reason. Only beside a contradiction can those fall short: with fewer sources the
    contradiction may be gone and rules fire that were held back. Then as many more are given as it takes.
    """
    leaves = reason_for(state, (test,))[0].sources()
    if _is_within(state.only(leaves), test):
        return leaves
    return frozenset(_smallest(state, state.said, lambda scratch: _is_within(scratch, test)))


def conflict_sources(state: Known, fact: int) -> tuple[str, ...]:
    """Sources that leave the fact without any outcome: no one of them can be left out. In the order they spoke."""
    nothing = (fact, 0)
    candidates: Iterable[str] = reason_for(state, (nothing,))[0].sources()
    if not _is_within(state.only(candidates), nothing):
        candidates = state.said
    return _smallest(state, candidates, lambda scratch: _is_within(scratch, nothing))


def _is_within(state: Known, test: Test) -> bool:
    fact, mask = test
    return state.tally.masks[fact] & mask == state.tally.masks[fact]


def _smallest(state: Known, candidates: Iterable[str], holds: Callable[[Known], bool]) -> tuple[str, ...]:
    """Of the candidates, which suffice, those left when no more can be left out one by one."""
    among = set(candidates)
    kept = [source for source in state.said if source in among]
    scratch = state.only(kept)
    shrinking = True
    # Once through is not always enough: beside a contradiction a source may become dispensable after another has gone.
    while shrinking:
        shrinking = False
        for source in tuple(kept):
            scratch.take_back(source)
            if holds(scratch):
                kept.remove(source)
                shrinking = True
            else:
                scratch.say(source, state.said[source])
    return tuple(kept)
