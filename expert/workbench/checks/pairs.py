"""Faults that no available question can tell apart."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

from expert.language.model import Fault, Machine
from expert.language.problems import Problem
from expert.workbench.index import Index
from expert.workbench.sentences import faults as say

CODES = {
    "indistinguishable": say.INDISTINGUISHABLE,
}


def check(index: Index) -> Iterator[Problem]:
    """Pairs on each shipped machine; a pair is told once."""
    told: set[tuple[str, str]] = set()
    for machine in index.base.machines.values():
        for one, other in indistinguishable(index, machine):
            if (one.id, other.id) not in told:
                told.add((one.id, other.id))
                yield Problem(max(one.at, other.at), _message(index, machine, one, other), "indistinguishable")


def indistinguishable(index: Index, machine: Machine) -> Iterator[tuple[Fault, Fault]]:
    """The pairs that share a complaint and that neither an answer nor a rule on this machine tells apart."""
    faults = index.faults_on(machine)
    deciding = {fault.id: _deciding(index, machine, fault) for fault in faults}
    for one, other in combinations(faults, 2):
        if not set(one.explains) & set(other.explains):
            continue
        if deciding[one.id] != deciding[other.id] or _answers_differ(index, machine, one, other):
            continue
        yield one, other


def _deciding(index: Index, machine: Machine, fault: Fault) -> frozenset[str]:
    """The rules on this machine that confirm or clear the fault."""
    rules = (*index.confirming.get(fault.id, ()), *index.clearing.get(fault.id, ()))
    return frozenset(rule.id for rule in rules if index.ways_on(machine, index.ways[rule.id]))


def _answers_differ(index: Index, machine: Machine, one: Fault, other: Fault) -> bool:
    """Whether some question there has answers that the one fault gives and the other does not."""
    for name in {*one.shows, *other.shows}:
        question = index.base.questions[name]
        if not index.on(machine, question.applies):
            continue
        sound = set(question.sound)
        if not set(one.shows.get(name, ())).union(() if name in one.shows else sound) & set(
            other.shows.get(name, ())
        ).union(() if name in other.shows else sound):
            return True
    return False


def _message(index: Index, machine: Machine, one: Fault, other: Fault) -> str:
    parts = index.base.parts
    if one.part == other.part:
        kind = say.a_look_at(parts[one.part].name)
    else:
        kind = say.a_test_of_one_alone(parts[one.part].name, parts[other.part].name)
    return say.nothing_tells_apart(machine.id, other.id, one.id, kind)
