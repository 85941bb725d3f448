"""Named conditions and named lists of a circuit file."""

from __future__ import annotations

from expert.language import model
from expert.language.reading.conditions import read_condition
from expert.language.reading.draft import Draft
from expert.language.reading.reader import Reader
from expert.language.reading.record import Record


def read_named(reader: Reader, file: Record, circuit: str, draft: Draft) -> None:
    """Both into the draft. Each is read here once for itself, so that a mistake shows where nothing uses it yet."""
    for name, key, value in draft.own(reader, "condition", file.node_of("conditions")):
        inner = Reader(reader.path, reader.names, reader.problems, (name,))
        when = read_condition(inner, value)
        if not inner.refusals:
            draft.conditions[name] = model.NamedCondition(name, circuit, when, at=reader.at(key))
    for name, key, value in draft.own(reader, "list", file.node_of("lists")):
        before = reader.refusals
        entries = tuple(reader.text(item, "an entry") for item in reader.distinct(reader.one_or_more(value, "a list")))
        if reader.refusals == before:
            draft.lists[name] = model.NamedList(name, circuit, entries, at=reader.at(key))
