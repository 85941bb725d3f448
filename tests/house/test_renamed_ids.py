"""No id of the shipped rules means anything to the program: with every id renamed, jobs go as before."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterator, Mapping
from functools import cache
from types import MappingProxyType
from typing import Any

import pytest

from expert.desk.opening import shop_of
from expert.desk.unattended import play
from expert.engine.knowledge import Knowledge, knowledge_of
from expert.job.state.job import Job
from expert.job.state.shop import at_home
from expert.language.load import load_rules
from expert.language.model import RuleBase
from expert.language.model.job_answers import JobAnswers
from expert.language.shipped import shipped
from expert.language.worked.cases import load_cases
from expert.trace.records import (
    Answered,
    CannotTell,
    CautionShown,
    Closed,
    Fired,
    Found,
    Moved,
    PromptPut,
    Proved,
    Record,
    Repaired,
    SearchEnded,
    Stopped,
)
from expert.trade.sensors.instruments import Instrument

EVERY = 37  # of the worked cases, one in so many is played
MARK = "_renamed"
OF_THE_TRADE = ("figure", "kind", "unit")  # fields that name a calculation, a kind of quantity, a unit
OF_THE_SHIPPED = ("circuits", "parts", "faults", "questions", "findings", "work_outs", "rules", "complaints", "hazards")


@cache
def shipped_base() -> RuleBase:
    return load_rules(shipped("rules"))


def ids_of(base: RuleBase) -> set[str]:
    """Every id that an author chose: records, features, plate values, moves, cautions, instruments."""
    ids = {name for kind in OF_THE_SHIPPED for name in getattr(base, kind)}
    ids |= {part for fault in base.faults for part in fault.split(".")}
    ids |= {*base.features, *base.plate_values, *base.cautions, *base.instruments, *base.machines}
    ids |= {move.id for move in base.bench.moves} | set(base.bench.arrives)
    return ids


def renamed(value: Any, ids: set[str]) -> Any:
    """The same value with every id in it renamed, also as a part of a dotted name."""
    match value:
        case str():
            parts = [part + MARK if part in ids else part for part in value.split(".")]
            return (
                ".".join(parts) if value in ids or (len(parts) == 2 and value.isascii() and " " not in value) else value
            )
        case Mapping():
            return MappingProxyType({renamed(key, ids): renamed(entry, ids) for key, entry in value.items()})
        case tuple() if not hasattr(value, "_fields"):
            return tuple(renamed(entry, ids) for entry in value)
        case frozenset():
            return frozenset(renamed(entry, ids) for entry in value)
    if dataclasses.is_dataclass(value) and not isinstance(value, type) and type(value).__module__.startswith("expert."):
        if isinstance(value, Instrument):
            return dataclasses.replace(value, id=renamed(value.id, ids))
        if type(value).__module__.startswith("expert.trade") or type(value).__name__ == "Position":
            return value
        fields = [one for one in dataclasses.fields(value) if one.init and one.name not in OF_THE_TRADE]
        return dataclasses.replace(value, **{one.name: renamed(getattr(value, one.name), ids) for one in fields})
    return value


def _is_name(text: str) -> bool:
    return text.replace(".", "").replace("_", "").isalnum() and text.count(".") < 2


@cache
def both() -> tuple[Knowledge, Knowledge, set[str]]:
    base = shipped_base()
    ids = ids_of(base)
    return knowledge_of(base), knowledge_of(renamed(base, ids)), ids


def what_happened(records: list[Record], ids: set[str], *, rename: bool) -> Iterator[tuple[object, ...]]:
    """What was asked, moved, shown and found, by id."""

    def named(text: str) -> str:
        # Word by word: a move may name the test that it makes ready, such as "prepare coil".
        return " ".join(str(renamed(word, ids)) for word in text.split(" ")) if rename else text

    for record in records:
        match record:
            case PromptPut(prompt=prompt, question=question) if prompt in ("question", "proof", "move", "repair"):
                yield "put", prompt, named(question)
            case Answered(question=question, outcomes=outcomes):
                yield "answered", named(question), tuple(map(named, outcomes))
            case CannotTell(question=question):
                yield "left", named(question)
            case Moved(move=move) if not move.startswith("arrives "):
                yield "moved", named(move)
            case CautionShown(caution=caution):
                yield "caution", named(caution)
            case Fired(rule=rule) | Stopped(rule=rule):
                yield type(record).__name__, named(rule)
            case Found(fault=fault, standing=standing):
                yield "found", named(fault), standing
            case Repaired(fault=fault):
                yield "repaired", named(fault)
            case Proved(question=question, passed=passed):
                yield "proved", named(question), passed
            case SearchEnded(outcome=outcome) | Closed(outcome=outcome):
                yield type(record).__name__, outcome


def some_cases() -> list[JobAnswers]:
    cases = load_cases(shipped("rules"), shipped_base())
    return [case.job for case in cases[::EVERY]]


@pytest.mark.parametrize("answers", some_cases(), ids=lambda answers: str(answers.at.line))
def test_a_job_goes_as_before_when_every_id_has_another_name(answers: JobAnswers) -> None:
    plain, other, ids = both()
    _, before = play(plain, shop_of(plain), answers, "7")
    _, after = play(other, shop_of(other), renamed(answers, ids), "7")
    assert list(what_happened(after, ids, rename=False)) == list(what_happened(before, ids, rename=True))


def test_a_machine_of_another_country_is_the_same_when_every_id_has_another_name() -> None:
    plain, other, ids = both()
    shop = dataclasses.replace(shop_of(plain), country="us")
    for name, machine in plain.base.machines.items():
        built = at_home(shop, plain.base, machine)
        other_built = at_home(shop, other.base, other.base.machines[name + MARK])
        # The sets of limits are words of the trade functions, not ids.
        assert set(built.plate.items()) != set(machine.plate.items())
        assert {renamed(key, ids): value for key, value in built.plate.items()} == other_built.plate
        assert {renamed(key, ids): value for key, value in built.features.items() if value == "us"} == {
            key: value for key, value in other_built.features.items() if value == "us"
        }


def test_an_id_that_means_something_would_be_found() -> None:
    plain, other, ids = both()
    assert not set(plain.base.questions) & set(other.base.questions)
    assert not set(plain.base.complaints) & set(other.base.complaints)
    assert not {move.id for move in plain.base.bench.moves} & {move.id for move in other.base.bench.moves}
    assert "trips_supply" in ids and isinstance(Job, type)
