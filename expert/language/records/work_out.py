"""Worked-out values: a formula with its kind, its unit, its source, and what it assumes where a reading is missing."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from expert.language import keys, model
from expert.language.reading.draft import Draft
from expert.language.reading.formula_fields import formula_in
from expert.language.reading.quantities import read_kind, read_one, read_unit
from expert.language.reading.reader import Reader
from expert.language.reading.record import Record
from expert.language.reading.values import fields_of
from expert.language.sentences import records as say
from expert.language.yaml.nodes import Node, Scalar
from expert.trade.quantities.units import Quantity, with_article


def read_work_outs(reader: Reader, root: Node | None, circuit: str, draft: Draft) -> None:
    """The worked-out values of a circuit file."""
    for name, key, value in draft.own(reader, "worked-out value", root):
        before = reader.refusals
        work_out = _work_out(Record(reader, value, keys.WORK_OUT, key), name, key, circuit)
        if work_out is not None and reader.refusals == before:
            draft.work_outs[name] = work_out


def _work_out(record: Record, name: str, key: Scalar, circuit: str) -> model.WorkOut | None:
    kind = read_kind(record, "gives")
    unit = read_unit(record, "unit", kind)
    assume = _assumptions(record)
    formula = formula_in(record, "formula", kind)
    if formula is None:
        return None
    at = record.reader.at(key)
    return model.WorkOut(
        id=name, circuit=circuit, kind=kind, unit=unit, formula=formula, assume=assume, at=at, **fields_of(record)
    )


def _assumptions(record: Record) -> Mapping[str, Quantity | str]:
    reader, node = record.reader, record.node_of("assume")
    assume: dict[str, Quantity | str] = {}
    for question, (key, value) in (reader.pairs(node, "'assume'") if node is not None else {}).items():
        assumed = _assumed(reader, question, key, value)
        if assumed is not None:
            assume[question] = assumed
    return MappingProxyType(assume)


def _assumed(reader: Reader, question: str, key: Scalar, value: Node) -> Quantity | str | None:
    """What stands in for a reading: a quantity of its kind, or the name of a rating of its kind."""
    if not reader.name(key, "question"):
        return None
    if question not in reader.names.kinds:
        message = say.words_cannot_be_assumed(question)
        reader.refuse(key, "wrong-kind", message)
        return None
    kind = reader.names.kinds[question] or ""
    if type(value) is Scalar and value.text.startswith("plate."):
        return _rating(reader, value, kind)
    return read_one(reader, value, kind)


def _rating(reader: Reader, value: Scalar, wanted: str) -> str | None:
    kinds = reader.names.kinds
    if value.text not in kinds:
        ratings = [name for name in kinds if name.startswith("plate.")]
        instead = reader.names.instead(value.text, ratings)
        reader.refuse(value, "unknown-name", say.there_is_no_rating(value.text[:60], instead))
        return None
    if kinds[value.text] is not None and wanted and kinds[value.text] != wanted:
        found = with_article(kinds[value.text] or "")
        reader.refuse(value, "wrong-kind", say.text_is_of_other_kind(value.text, found, with_article(wanted)))
        return None
    return value.text
