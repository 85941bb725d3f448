"""Findings under `shows` and `prove`, unfolded into the answers from which rules conclude them.

A finding under `shows` stands for the answers that all its ways have in common; under `prove`, for every question from
which rules conclude it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace
from types import MappingProxyType

from expert.language.branches import Branches, branches_in
from expert.language.model import Fault, Is, Position, RuleBase
from expert.language.problems import Problem
from expert.language.sentences import checks as say

Place = Callable[[str, str, str, str], Position]


def unfolded(base: RuleBase, place: Place, problems: list[Problem]) -> RuleBase:
    """The rule base with findings only where rules conclude and use them. Adds what cannot be unfolded."""
    concerned = [f for f in base.faults.values() if base.findings.keys() & {*f.shows, *f.prove}]
    if not concerned:
        return base
    opener = branches_in(base)
    faults = dict(base.faults)
    for fault in concerned:
        shows = dict(_shown(base, opener, fault, place, problems))
        prove = tuple(dict.fromkeys(question for name in fault.prove for question in _behind(base, opener, name)))
        faults[fault.id] = replace(fault, shows=MappingProxyType(shows), prove=prove)
    return replace(base, faults=MappingProxyType(faults))


def _shown(
    base: RuleBase, opener: Branches, fault: Fault, place: Place, problems: list[Problem]
) -> Iterator[tuple[str, tuple[str, ...]]]:
    """The answers of findings first, so that what the author says of a question stands."""
    for name, outcomes in fault.shows.items():
        if name in base.findings:
            answers = _common(base, opener, name, outcomes)
            if not answers:
                message = say.nothing_in_common(name)
                problems.append(Problem(place("fault", fault.id, "shows", name), message, "nothing-in-common"))
            yield from answers.items()
    yield from ((name, outcomes) for name, outcomes in fault.shows.items() if name not in base.findings)


def _common(base: RuleBase, opener: Branches, finding: str, outcomes: tuple[str, ...]) -> Mapping[str, tuple[str, ...]]:
    ways = [
        {test.fact: test.outcomes for test in branch if test.fact in base.questions}
        for branch in opener.of(Is(finding, outcomes))
    ]
    common = [fact for fact in ways[0] if all(fact in way for way in ways)] if ways else []
    return {fact: tuple(dict.fromkeys(outcome for way in ways for outcome in way[fact])) for fact in common}


def _behind(base: RuleBase, opener: Branches, name: str) -> Iterator[str]:
    if name not in base.findings:
        yield name
        return
    for branch in opener.of(Is(name, base.findings[name].outcomes)):
        yield from (test.fact for test in branch if test.fact in base.questions)
