"""Machine by machine: complaints, faults and features that the rules have nothing for."""

from __future__ import annotations

from collections.abc import Iterator

from expert.language.checks.bench_reach import alterations
from expert.language.model import NOWHERE, Machine, Normal
from expert.language.problems import Problem
from expert.workbench.index import Applies, Index
from expert.workbench.sentences import faults as say
from expert.workbench.ways import Way

CODES = {
    "no-suspects": say.NO_SUSPECTS,
    "uncovered-feature": say.UNCOVERED_FEATURE,
    "fault-out-of-reach": say.FAULT_OUT_OF_REACH,
    "nothing-before-return": say.NOTHING_BEFORE_RETURN,
    "live-for-everyone": say.LIVE_FOR_EVERYONE,
    "unreached-state": say.UNREACHED_STATE,
}


def check(index: Index) -> Iterator[Problem]:
    """Each shipped machine by itself, then the bench."""
    for machine in index.base.machines.values():
        yield from _complaints(index, machine)
        yield from _features(index, machine)
        yield from _faults(index, machine)
    yield from _states(index)
    yield from _returns(index)


def _complaints(index: Index, machine: Machine) -> Iterator[Problem]:
    explained = {complaint for fault in index.faults_on(machine) for complaint in fault.explains}
    for rule in index.base.rules.values():
        if index.ways_on(machine, index.ways[rule.id]):
            explained |= {name for said in rule.then if isinstance(said, Normal) for name in said.complaints}
    led_on = {name for fault in index.base.faults.values() for name in fault.explains}
    for complaint in index.base.complaints.values():
        if complaint.id in led_on and complaint.id not in explained:
            message = say.nothing_on_machine_explains(machine.id, complaint.id)
            yield Problem(machine.at, message, "no-suspects")


def _features(index: Index, machine: Machine) -> Iterator[Problem]:
    """A value that nothing speaks of, where other values of the feature are spoken of."""
    spoken = _values_spoken_of(index)
    for feature, value in machine.features.items():
        values = spoken.get(f"machine.{feature}", set())
        if values and value not in values:
            message = say.feature_not_spoken_of(machine.id, feature, value, ", ".join(sorted(values)))
            yield Problem(machine.at, message, "uncovered-feature")


def _values_spoken_of(index: Index) -> dict[str, set[str]]:
    base = index.base
    found: dict[str, set[str]] = {}
    applies: list[Applies] = [
        *(circuit.applies for circuit in base.circuits.values()),
        *(part.applies for part in base.parts.values()),
        *(question.applies for question in base.questions.values()),
    ]
    for limits in applies:
        for feature, values in limits.items():
            found.setdefault(feature, set()).update(values)
    for fact, tests in index.tests.items():
        if fact.startswith("machine."):
            found.setdefault(fact, set()).update(value for test in tests for value in test.outcomes)
    return found


def _faults(index: Index, machine: Machine) -> Iterator[Problem]:
    for fault in index.faults_on(machine):
        if fault.id in index.confirming and way_to(index, machine, fault.id) is None:
            message = say.no_answers_lead_to(machine.id, fault.id)
            yield Problem(fault.at, message, "fault-out-of-reach")


def way_to(index: Index, machine: Machine, fault: str) -> Way | None:
    """The shortest way on this machine in which a rule confirms the fault, on answers that the fault can give."""
    record = index.base.faults[fault]
    ways = [way for rule in index.confirming.get(fault, ()) for way in index.ways_on(machine, index.ways[rule.id])]
    fitting = [
        way
        for way in ways
        if all(not shown or shown & outcomes for f, outcomes in way.items() if (shown := set(record.shows.get(f, ()))))
    ]
    return min(fitting, key=len, default=None)


def _states(index: Index) -> Iterator[Problem]:
    bench = index.base.bench
    reached = [
        *(a.state for a in bench.arrives.values()),
        *(m.makes for m in bench.moves),
        *(m.otherwise for m in bench.moves),
        *(c.becomes for c in bench.in_time),
        *(alters for _, alters in alterations(index.base.questions.values())),
    ]
    at = bench.moves[0].at if bench.moves else NOWHERE
    held = {entry for state in reached for entry in state.items()}
    for dimension, states in bench.states.items():
        for state in states:
            if (dimension, state) not in held:
                message = say.state_never_reached(dimension, state)
                yield Problem(at, message, "unreached-state")


def _returns(index: Index) -> Iterator[Problem]:
    """What keeps people safe at the bench and after it, where the bench file says nothing of it."""
    bench = index.base.bench
    at = bench.moves[0].at if bench.moves else NOWHERE
    if bench.states and index.base.questions:
        for key, names in (("service", bench.service), ("after_opening", bench.after_opening)):
            if not names:
                message = say.list_names_no_test(key)
                yield Problem(at, message, "nothing-before-return")
    for question in index.base.questions.values():
        live = question.bench.get("mains") == "on" and question.bench.get("covers") == "off"
        if live and not any(held.items() <= question.bench.items() for held in bench.qualified_only):
            message = say.live_for_anybody(question.id)
            yield Problem(question.at, message, "live-for-everyone")
