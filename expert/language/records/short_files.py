"""Features and plate values, complaints, cautions, machine types, instruments: the short files."""

from __future__ import annotations

from types import MappingProxyType

from expert.language import keys, model
from expert.language.reading.draft import Draft, entries
from expert.language.reading.quantities import read_kind, read_named, read_one, read_span, read_unit
from expert.language.reading.reader import Reader
from expert.language.reading.record import Record
from expert.language.reading.values import fields_of
from expert.language.sentences import records as say
from expert.language.yaml.nodes import Node, Pairs, Scalar
from expert.trade.quantities.units import Quantity, difference_of, with_article
from expert.trade.sensors.instruments import Instrument, Range


def read_features(reader: Reader, root: Node, draft: Draft) -> None:
    """What machines differ in, and what their rating plates state."""
    file = Record(reader, root, keys.FEATURES_FILE)
    for name, key, value in draft.own(reader, "feature", file.node_of("features")):
        before = reader.refusals
        record = Record(reader, value, keys.FEATURE, key)
        values = tuple(reader.text(item, "a value") for item in reader.distinct(record.list_of("values")))
        if len(values) == 1:
            reader.refuse(record.key_node("values"), "too-few-outcomes", say.one_value_only(name))
        feature = model.Feature(name, record.text("name"), values, record.yes("by_country"), reader.at(key))
        if reader.refusals == before:
            draft.features[name] = feature
    for name, key, value in draft.own(reader, "plate value", file.node_of("plate")):
        before = reader.refusals
        record = Record(reader, value, keys.PLATE_VALUE, key)
        kind = read_kind(record, "measure")
        whole = record.node_of("part_of")
        part_of = "" if whole is None else reader.name(whole, "plate value")
        if part_of and reader.names.kinds.get(f"plate.{part_of}") not in (None, kind):
            reader.refuse(whole or key, "wrong-kind", say.part_of_other_kind(part_of))
        unit = read_unit(record, "unit", kind)
        span = record.node_of("believable")
        believable = None if span is None else read_span(reader, span, kind, unit)
        by_country = record.word("by_country", keys.BY_COUNTRY)
        if by_country and kind not in ("", wanted := keys.BY_COUNTRY[by_country]):
            reader.refuse(key, "wrong-kind", say.not_by_country(by_country, with_article(wanted), with_article(kind)))
        plate = model.PlateValue(name, record.text("name"), kind, unit, part_of, believable, by_country, reader.at(key))
        if reader.refusals == before:
            draft.plate_values[name] = plate


def read_complaints(reader: Reader, root: Node, draft: Draft) -> None:
    """What customers say."""
    file = Record(reader, root, keys.COMPLAINTS_FILE)
    for name, key, value in draft.own(reader, "complaint", file.node_of("complaints")):
        before = reader.refusals
        complaint = model.Complaint(name, at=reader.at(key), **fields_of(Record(reader, value, keys.COMPLAINT, key)))
        if reader.refusals == before:
            draft.complaints[name] = complaint
    known: set[str] = set()
    for node in file.list_of("same_words"):
        row = tuple(" ".join(words.casefold().split()) for words in reader.text(node, say.A_ROW).split(","))
        if len(row) < 2 or "" in row:
            reader.refuse(node, "too-few-outcomes", say.ONE_WORD_IN_A_ROW)
        for words in row:
            if words in known:
                reader.refuse(node, "said-twice", say.word_in_two_rows(words))
            known.add(words)
        draft.same_words[row[0]] = row


def read_cautions(reader: Reader, root: Node, draft: Draft) -> None:
    """The sentences shown before a dangerous step."""
    file = Record(reader, root, keys.CAUTIONS_FILE)
    for name, key, value in draft.own(reader, "caution", file.node_of("cautions")):
        before = reader.refusals
        caution = _caution(reader, name, key, value)
        if reader.refusals == before:
            draft.cautions[name] = caution


def _caution(reader: Reader, name: str, key: Scalar, value: Node) -> model.Caution:
    """A sentence by itself, or one with the bench states that it belongs to."""
    if type(value) is not Pairs:
        return model.Caution(name, reader.text(value, "the caution"), at=reader.at(key))
    return model.Caution(name, at=reader.at(key), **fields_of(Record(reader, value, keys.CAUTION, key)))


def read_machine(reader: Reader, root: Node, draft: Draft) -> None:
    """A machine type, with every feature and ratings in the units that the features file names."""
    before = reader.refusals
    file = Record(reader, root, keys.MACHINE_FILE)
    name = file.text("machine")
    features = {}
    for feature, key, value in entries(reader, file.node_of("features"), "'features'"):
        if reader.name(key, "feature"):
            outcomes = reader.outcomes(value, f"machine.{feature}")
            features[feature] = outcomes[0] if outcomes else ""
            if len(outcomes) > 1:
                reader.refuse(value, "wrong-shape", say.several_values(feature))
    plate = read_plate(reader, file.node_of("plate"), draft)
    at = reader.at(file.node_of("machine") or root)
    machine = model.Machine(
        id=name, features=MappingProxyType(features), plate=MappingProxyType(plate), at=at, **fields_of(file)
    )
    mine = draft.names.places["machine"].get(name) == at
    if mine:
        draft.nodes["machine", name] = (reader.path, root)
    if mine and reader.refusals == before:
        draft.machines[name] = machine


def read_plate(reader: Reader, node: Node | None, draft: Draft) -> dict[str, Quantity]:
    """Ratings of a machine, each of the kind that the features file gives it; a bare number has its unit."""
    plate = {}
    for rating, key, value in entries(reader, node, "'plate'"):
        if reader.name(key, "plate value"):
            known = draft.plate_values.get(rating)
            quantity = read_one(reader, value, known.kind if known else "", known.unit if known else "")
            if quantity is not None:
                plate[rating] = quantity
    return plate


def read_instruments(reader: Reader, root: Node, draft: Draft) -> None:
    """Meters and gauges with their accuracy."""
    file = Record(reader, root, keys.INSTRUMENTS_FILE)
    for name, key, value in draft.own(reader, "instrument", file.node_of("instruments")):
        before = reader.refusals
        instrument = _instrument(Record(reader, value, keys.INSTRUMENT, key), name)
        if reader.refusals == before:
            draft.instruments[name] = instrument


def _instrument(record: Record, name: str) -> Instrument:
    reader = record.reader
    kind = read_kind(record, "measures")
    difference = difference_of(kind)
    ranges = tuple(read_range(Record(reader, item, keys.RANGE), kind) for item in record.list_of("ranges"))
    written = set(record.written)
    if ("class" in written) != ("full_scale" in written):
        reader.refuse(record.node, "no-accuracy", say.CLASS_NEEDS_FULL_SCALE)
    ways = [way for way in ("ranges", "class", "plus_minus", "percent") if way in written]
    if not ways or ("ranges" in ways and "percent" in ways):
        message = say.ONE_FORM_OF_ACCURACY
        reader.refuse(record.node, "no-accuracy", message)
    return Instrument(
        id=name,
        name=record.text("name"),
        measures=kind,
        ranges=ranges,
        class_percent=record.number("class"),
        full_scale=read_named(record, "full_scale", kind),
        plus_minus=read_named(record, "plus_minus", difference),
        percent=record.number("percent"),
        leads=read_named(record, "leads", difference),
        owned="owned" not in written or record.yes("owned"),
    )


def read_range(record: Record, kind: str) -> Range:
    """One range of an instrument that shows this kind."""
    step = read_named(record, "step", difference_of(kind))
    return Range(
        up_to=read_named(record, "up_to", kind),
        percent=record.number("percent") or 0.0,
        digits=record.number("digits") or 0.0,
        step=step if step is not None else Quantity(0.0, difference_of(kind) if kind else "number"),
    )
