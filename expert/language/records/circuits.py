"""A circuit file: its parts with their faults, and its findings.

Questions, worked-out values and rules are read in files of their own.
"""

from __future__ import annotations

from types import MappingProxyType

from expert.language import model
from expert.language.reading import shapes
from expert.language.reading.conditions import read_applies
from expert.language.reading.draft import Draft
from expert.language.reading.reader import Reader
from expert.language.reading.record import Record
from expert.language.records.feeds import answers, read_feeds
from expert.language.records.questions import applies_within, read_questions
from expert.language.records.rules import read_rules_of
from expert.language.records.work_out import read_work_outs
from expert.language.yaml.nodes import Node, Scalar


def read_circuit(reader: Reader, root: Node, draft: Draft) -> None:
    """A whole circuit file into the draft."""
    before = reader.refusals
    file = Record(reader, root, shapes.CIRCUIT_FILE)
    name = file.text("circuit")
    applies = MappingProxyType(read_applies(reader, file.node_of("applies")))
    at = reader.at(file.node_of("circuit") or root)
    circuit = model.Circuit(name, file.text("title"), applies, at)
    mine = draft.names.places["circuit"].get(name) == at
    if mine:
        draft.nodes["circuit", name] = (reader.path, root)
    if mine and reader.refusals == before:
        draft.circuits[name] = circuit
    read_feeds(reader, file.node_of("feeds"), name, draft)
    for part, key, value in draft.own(reader, "part", file.node_of("parts")):
        _read_part(Record(reader, value, shapes.PART, key), part, circuit, key, draft)
    read_questions(reader, file.node_of("questions"), circuit, draft)
    _read_findings(reader, file.node_of("findings"), name, draft)
    read_work_outs(reader, file.node_of("work_out"), name, draft)
    read_rules_of(reader, file.node_of("rules"), name, draft)


def _read_part(record: Record, name: str, circuit: model.Circuit, key: Scalar, draft: Draft) -> None:
    reader = record.reader
    before = reader.refusals
    applies = applies_within(record, circuit.applies)
    sound = reader.refusals == before
    title, where, needs = record.text("name"), record.text("where"), record.names("needs", "feed")
    faults = []
    for fault, fault_key, value in _faults_of(record, name, draft):
        start = reader.refusals
        read = _fault(Record(reader, value, shapes.FAULT, fault_key), name, fault, fault_key, draft)
        if reader.refusals == start:
            faults.append(read)
            draft.faults[read.id] = read
    if sound:
        draft.parts[name] = model.Part(name, circuit.id, title, where, applies, tuple(faults), needs, reader.at(key))


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


def _fault(record: Record, part: str, name: str, key: Scalar, draft: Draft) -> model.Fault:
    reader = record.reader
    repair = record.node_of("repair")
    return model.Fault(
        id=f"{part}.{name}",
        part=part,
        name=record.text("name"),
        seen=record.word("seen", shapes.SEEN),
        explains=record.names("explains", "complaint"),
        shows=answers(record, "shows"),
        caused_by=record.names("caused_by", "fault"),
        dangerous=record.yes("dangerous"),
        repair=_repair(Record(reader, repair, shapes.REPAIR)) if repair is not None else _NO_REPAIR,
        prove=record.names("prove", "question"),
        cuts=record.names("cuts", "feed"),
        result=record.yes("result"),
        at=reader.at(key),
    )


_NO_REPAIR = model.Repair(0.0, (), (), (), (), MappingProxyType({}))


def _repair(record: Record) -> model.Repair:
    return model.Repair(
        minutes=record.number("minutes") or 0.0,
        steps=record.texts("steps"),
        parts=record.texts("parts"),
        consumables=record.texts("consumables"),
        cautions=record.names("cautions", "caution"),
        bench=record.state("bench"),
    )


def _read_findings(reader: Reader, root: Node | None, circuit: str, draft: Draft) -> None:
    for name, key, value in draft.own(reader, "finding", root):
        before = reader.refusals
        record = Record(reader, value, shapes.FINDING, key)
        outcomes = tuple(reader.text(item, "an outcome") for item in reader.distinct(record.list_of("outcomes")))
        if len(outcomes) == 1:
            message = f"{name} has one outcome only; two are needed"
            reader.refuse(record.key_node("outcomes"), "too-few-outcomes", message)
        finding = model.Finding(name, circuit, record.text("name"), outcomes, reader.at(key))
        if reader.refusals == before:
            draft.findings[name] = finding
