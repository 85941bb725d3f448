"""A circuit file: its parts with their faults, and its findings.

Questions, worked-out values and rules are read in files of their own.
"""

from __future__ import annotations

from pathlib import PurePosixPath
from types import MappingProxyType

from expert.language import keys, model
from expert.language.reading.conditions import read_applies
from expert.language.reading.draft import Draft
from expert.language.reading.reader import Reader
from expert.language.reading.record import Record
from expert.language.reading.values import fields_of
from expert.language.records.feeds import read_feeds
from expert.language.records.named import read_named
from expert.language.records.questions import applies_within, read_questions
from expert.language.records.rules import read_rules_of
from expert.language.records.work_out import read_work_outs
from expert.language.sentences import records as say
from expert.language.yaml.nodes import Node, Scalar


def read_circuit(reader: Reader, root: Node, draft: Draft) -> None:
    """A whole circuit file into the draft."""
    before = reader.refusals
    file = Record(reader, root, keys.CIRCUIT_FILE)
    name = file.text("circuit")
    applies = MappingProxyType(read_applies(reader, file.node_of("applies")))
    at = reader.at(file.node_of("circuit") or root)
    circuit = model.Circuit(name, file.text("title"), applies, at)
    mine = draft.names.places["circuit"].get(name) == at
    if file.node_of("circuit") is not None and name:
        draft.circuit_of[str(PurePosixPath(reader.path).parent)] = circuit
    if mine:
        draft.nodes["circuit", name] = (reader.path, root)
    if mine and reader.refusals == before:
        draft.circuits[name] = circuit
    _read_lists(reader, file, circuit, draft)


def read_circuit_part(reader: Reader, root: Node, draft: Draft) -> None:
    """A further file of a circuit that has a folder of its own; its head stands in `circuit.yaml` there."""
    file = Record(reader, root, keys.CIRCUIT_PART_FILE)
    folder = str(PurePosixPath(reader.path).parent)
    circuit = draft.circuit_of.get(folder)
    if circuit is None:
        if "circuit" not in draft.names.incomplete:
            message = say.folder_without_circuit(folder)
            reader.refuse(root, "no-circuit", message)
        return
    _read_lists(reader, file, circuit, draft)


def _read_lists(reader: Reader, file: Record, circuit: model.Circuit, draft: Draft) -> None:
    name = circuit.id
    read_named(reader, file, name, draft)
    read_feeds(reader, file.node_of("feeds"), name, draft)
    for part, key, value in draft.own(reader, "part", file.node_of("parts")):
        _read_part(Record(reader, value, keys.PART, key), part, circuit, key, draft)
    read_questions(reader, file.node_of("questions"), circuit, draft)
    _read_findings(reader, file.node_of("findings"), name, draft)
    read_work_outs(reader, file.node_of("work_out"), name, draft)
    read_rules_of(reader, file.node_of("rules"), name, draft)


def _read_part(record: Record, name: str, circuit: model.Circuit, key: Scalar, draft: Draft) -> None:
    reader = record.reader
    before = reader.refusals
    applies = applies_within(record, circuit.applies)
    sound = reader.refusals == before
    own = fields_of(record)
    faults = []
    for fault, fault_key, value in _faults_of(record, name, draft):
        start = reader.refusals
        read = _fault(Record(reader, value, keys.FAULT, fault_key), name, fault, fault_key)
        if reader.refusals == start:
            faults.append(read)
            draft.faults[read.id] = read
    if sound:
        draft.parts[name] = model.Part(
            id=name, circuit=circuit.id, applies=applies, faults=tuple(faults), at=reader.at(key), **own
        )


def _faults_of(record: Record, part: str, draft: Draft) -> list[tuple[str, Scalar, Node]]:
    node = record.node_of("faults")
    if node is None:
        return []
    found = []
    for name, (key, value) in record.reader.pairs(node, "'faults'").items():
        if draft.names.places["fault"].get(f"{part}.{name}") == record.reader.at(key):
            draft.nodes["fault", f"{part}.{name}"] = (record.reader.path, value)
            found.append((name, key, value))
    return found


def _fault(record: Record, part: str, name: str, key: Scalar) -> model.Fault:
    reader, repair = record.reader, record.node_of("repair")
    return model.Fault(
        id=f"{part}.{name}",
        part=part,
        repair=_NO_REPAIR if repair is None else model.Repair(**fields_of(Record(reader, repair, keys.REPAIR))),
        at=reader.at(key),
        **fields_of(record),
    )


_NO_REPAIR = model.Repair(0.0, (), (), (), (), MappingProxyType({}))


def _read_findings(reader: Reader, root: Node | None, circuit: str, draft: Draft) -> None:
    for name, key, value in draft.own(reader, "finding", root):
        before = reader.refusals
        record = Record(reader, value, keys.FINDING, key)
        outcomes = tuple(reader.text(item, "an outcome") for item in reader.distinct(record.list_of("outcomes")))
        if len(outcomes) == 1:
            message = say.one_outcome_only(name)
            reader.refuse(record.key_node("outcomes"), "too-few-outcomes", message)
        finding = model.Finding(name, circuit, record.text("name"), outcomes, reader.at(key))
        if reader.refusals == before:
            draft.findings[name] = finding
