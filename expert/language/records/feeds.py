"""Feeds: what arrives through what, and what is seen where it does not."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from expert.language import model
from expert.language.reading import shapes
from expert.language.reading.conditions import NEVER, read_condition
from expert.language.reading.draft import Draft
from expert.language.reading.reader import Reader, shortened
from expert.language.reading.record import Record
from expert.language.yaml.nodes import Node, Scalar


def read_feeds(reader: Reader, root: Node | None, circuit: str, draft: Draft) -> None:
    """The feeds of a circuit file."""
    for name, key, value in draft.own(reader, "feed", root):
        before = reader.refusals
        record = Record(reader, value, shapes.FEED, key)
        arrives = record.node_of("arrives")
        feed = model.Feed(
            id=name,
            circuit=circuit,
            name=record.text("name"),
            through=one_of(reader, record.list_of("through"), ("feed", "part")),
            lacking=answers(record, "lacking"),
            arrives=NEVER if arrives is None else read_condition(reader, arrives),
            explains=record.names("explains", "complaint"),
            at=reader.at(key),
        )
        if reader.refusals == before:
            draft.feeds[name] = feed


def answers(record: Record, key: str) -> Mapping[str, tuple[str, ...]]:
    """Questions with their outcomes; empty if the key is not there."""
    reader = record.reader
    node = record.node_of(key)
    found = {}
    for question, (question_key, value) in (reader.pairs(node, f"'{key}'") if node is not None else {}).items():
        if reader.name(question_key, "question"):
            found[question] = reader.outcomes(value, question)
    return MappingProxyType(found)


def one_of(reader: Reader, items: list[Node], spaces: tuple[str, ...]) -> tuple[str, ...]:
    """Ids of which each was given in one of these spaces."""
    found = []
    for item in reader.distinct(items):
        text = item.text if type(item) is Scalar else ""
        if any(text in reader.names.places[space] for space in spaces):
            found.append(text)
        elif text and any(space in reader.names.incomplete for space in spaces):
            reader.refusals += 1
        elif text:
            known = {name for space in spaces for name in reader.names.places[space]}
            what = " or ".join(spaces)
            instead = reader.names.instead(text, known)
            reader.refuse(item, "unknown-name", f"there is no {what} '{shortened(text)}'{instead}")
        else:
            reader.text(item, f"the name of a {' or '.join(spaces)}")
    return tuple(found)
