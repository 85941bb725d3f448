"""Check lists that cost time: the order in which they are worked through against the best one there is.

A list is worked through until its fault is found. How long that takes on the average follows from how often each fault
is seen, the weight that the rule itself gives it, and the minutes of the cheapest test that decides it; what has been
opened or heated up for one test need not be done again for the next. The best order is found exactly; a dangerous fault
that its author puts before others stays before them, whatever it takes, and `in_this_order` says why a list stands so.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cache

from expert.engine.candidates import ASKING
from expert.engine.suspicion import START
from expert.language.model import Evidence, Rule, Suspect
from expert.language.problems import Problem
from expert.workbench.index import Index
from expert.workbench.sentences import rules as say
from expert.workbench.ways import Way

CODES = {"dear-order": say.DEAR_ORDER}
_CLEARLY = 1.3  # times the minutes of the best order
_MOST = 10  # faults in a list; a longer one is not judged

Set_up = tuple[str, str]  # a bench state that has to be brought about first


@dataclass(frozen=True, slots=True)
class Step:
    """One fault of a list: its weight as odds, the minutes of its test, and what has to be set up for it.

    `after`: the dangerous faults that stay before it.
    """

    fault: str
    odds: float
    minutes: float
    set_up: frozenset[Set_up]
    after: frozenset[str]


def check(index: Index) -> Iterator[Problem]:
    """Each check list of more than one fault that a test decides."""
    dear = _set_ups(index)
    for rule in index.base.rules.values():
        for said in rule.then:
            if isinstance(said, Suspect) and said.in_order and 1 < len(said.faults) <= _MOST:
                yield from _list(index, rule, said, dear)


def _list(index: Index, rule: Rule, said: Suspect, dear: Mapping[Set_up, float]) -> Iterator[Problem]:
    steps = _steps(index, rule, said, dear)
    if len(steps) < 2:
        return
    written, (best, order) = _minutes(steps, dear), _best(tuple(steps), tuple(dear.items()))
    if written > _CLEARLY * best and not rule.in_this_order:
        message = say.shorter_in_another_order(rule.id, written, best, ", ".join(order))
        yield Problem(said.at, message, "dear-order")


def _set_ups(index: Index) -> dict[Set_up, float]:
    """What a move has to bring about before a test, with its minutes."""
    found: dict[Set_up, float] = {}
    for move in index.base.bench.moves:
        for entry in move.makes.items():
            found[entry] = min(found.get(entry, move.minutes), move.minutes)
    arrived = [entry for arrival in index.base.bench.arrives.values() for entry in arrival.state.items()]
    usual = {entry for entry in arrived if arrived.count(entry) == len(index.base.bench.arrives)}
    return {entry: minutes for entry, minutes in found.items() if entry not in usual}


def _steps(index: Index, rule: Rule, said: Suspect, dear: Mapping[Set_up, float]) -> list[Step]:
    weights = {given.fault: given.decibans for given in rule.then if isinstance(given, Evidence)}
    found: list[Step] = []
    for fault in said.faults:
        rules = (*index.confirming.get(fault, ()), *index.clearing.get(fault, ()))
        tests = [_test(index, way, dear) for deciding in rules for way in index.ways[deciding.id]]
        if tests := [test for test in tests if test is not None]:
            minutes, set_up = min(tests, key=lambda test: (test[0] + sum(dear[entry] for entry in test[1]), test[0]))
            odds = 10 ** ((START[index.base.faults[fault].seen] + weights.get(fault, 0)) / 10)
            before = frozenset(step.fault for step in found if index.base.faults[step.fault].dangerous)
            after = frozenset() if index.base.faults[fault].dangerous else before
            found.append(Step(fault, odds, minutes, set_up, after))
    return found


def _test(index: Index, way: Way, dear: Mapping[Set_up, float]) -> tuple[float, frozenset[Set_up]] | None:
    """The minutes of all questions of a way, and what has to be set up for them; None where it asks none."""
    asked = [index.base.questions[fact] for fact in way if fact in index.base.questions]
    set_up = frozenset(entry for question in asked for entry in question.bench.items() if entry in dear)
    return (sum(ASKING + question.minutes for question in asked), set_up) if asked else None


def _minutes(steps: Sequence[Step], dear: Mapping[Set_up, float]) -> float:
    """The average minutes until the fault is found, in this order."""
    left = whole = sum(step.odds for step in steps)
    there: frozenset[Set_up] = frozenset()
    minutes = 0.0
    for step in steps:
        minutes += (step.minutes + sum(dear[entry] for entry in step.set_up - there)) * left / whole
        there, left = there | step.set_up, left - step.odds
    return minutes


@cache
def _best(steps: tuple[Step, ...], dear: tuple[tuple[Set_up, float], ...]) -> tuple[float, tuple[str, ...]]:
    """The least average minutes, and the order that takes them: over all sets of steps that may be done already."""
    cost, whole = dict(dear), sum(step.odds for step in steps)
    found: dict[frozenset[int], tuple[float, tuple[str, ...]]] = {frozenset(): (0.0, ())}
    for _ in steps:
        grown: dict[frozenset[int], tuple[float, tuple[str, ...]]] = {}
        for done, (minutes, order) in found.items():
            there = frozenset(entry for number in done for entry in steps[number].set_up)
            left = (whole - sum(steps[number].odds for number in done)) / whole
            for number, step in enumerate(steps):
                if number not in done and step.after <= set(order):
                    more = (step.minutes + sum(cost[entry] for entry in step.set_up - there)) * left
                    now = (minutes + more, (*order, step.fault))
                    key = done | {number}
                    grown[key] = min(grown.get(key, now), now)
        found = grown
    return next(iter(found.values()))
