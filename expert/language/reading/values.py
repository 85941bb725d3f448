"""The fields of a record, read by the kind that the key table gives them.

What needs more than the key itself (a record within a record, a formula of another key's kind) is left to the module
that reads the record.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Any, Final

from expert.language.keys import Key, kinds
from expert.language.model import ALWAYS, NEVER
from expert.language.reading.conditions import read_condition
from expert.language.reading.record import Record
from expert.language.sentences import reading as say

_LEFT: Final = object()  # not read here


def fields_of(record: Record, own: str = "") -> dict[str, Any]:
    """Field of the model -> value, for every key that is read by its kind alone; `own` is the fact the record is about.

    The values have the types that the model's fields have: `tests/language/test_keys.py` holds both against each other.
    """
    found = {}
    for key in record.shape.keys:
        value = _value(record, key, own)
        if value is not _LEFT:
            found[key.field] = value
    return found


def _value(record: Record, key: Key, own: str) -> object:
    match key.kind:
        case kinds.Text():
            return record.text(key.name)
        case kinds.Texts():
            return record.texts(key.name)
        case kinds.Number():
            return record.number(key.name) or 0.0
        case kinds.YesNo():
            return record.yes(key.name)
        case kinds.Word(words):
            return record.word(key.name, words)
        case kinds.Id(space, own=False):
            return record.name(key.name, space)
        case kinds.Ids(space, also):
            items = record.list_of(key.name)
            return record.reader.names_of_any(items, (space, *also)) if also else record.names(key.name, space)
        case kinds.IdsOf(space, spaces):
            return _ids_of(record, key.name, space, spaces)
        case kinds.State(any_of):
            return record.states(key.name) if any_of else record.state(key.name)
        case kinds.States():
            return record.combinations(key.name)
        case kinds.Holds(left_out):
            node = record.node_of(key.name)
            return (ALWAYS if left_out == "always" else NEVER) if node is None else read_condition(record.reader, node)
        case kinds.Outcomes(""):
            node = record.node_of(key.name)
            return () if node is None else record.reader.outcomes(node, own)
        case kinds.Outcomes(space, also):
            return _outcomes(record, key.name, (space, *also))
        case kinds.Id() | kinds.Machines() | kinds.Outcome() | kinds.Labels() | kinds.Weights():
            return _LEFT
        case _:
            return _by_record(key.kind)


def _by_record(kind: kinds.ByRecord) -> object:
    """These kinds are read where their record is read: nothing else may fall through to here, says the type checker."""
    return _LEFT


def _ids_of(record: Record, key: str, space: str, spaces: tuple[str, ...]) -> Mapping[str, tuple[str, ...]]:
    """Ids of one space, each with the ids of others that stand beside it."""
    reader, node = record.reader, record.node_of(key)
    found = {}
    for name, (name_node, value) in (reader.pairs(node, f"'{key}'") if node is not None else {}).items():
        if reader.name(name_node, space):
            found[name] = reader.names_of_any(reader.one_or_more(value, say.list_of(name)), spaces)
    return MappingProxyType(found)


def _outcomes(record: Record, key: str, spaces: tuple[str, ...]) -> Mapping[str, tuple[str, ...]]:
    """Facts of these spaces, each with the outcomes that stand beside it."""
    reader, node = record.reader, record.node_of(key)
    found = {}
    for fact, (fact_node, value) in (reader.pairs(node, f"'{key}'") if node is not None else {}).items():
        if reader.name(fact_node, spaces[0]) if len(spaces) == 1 else reader.names_of_any([fact_node], spaces):
            found[fact] = reader.outcomes(value, fact)
    return MappingProxyType(found)
