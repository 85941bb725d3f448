"""Feeds: what arrives through what, and what is seen where it does not."""

from __future__ import annotations

from expert.language import keys, model
from expert.language.reading.draft import Draft
from expert.language.reading.reader import Reader
from expert.language.reading.record import Record
from expert.language.reading.values import fields_of
from expert.language.yaml.nodes import Node


def read_feeds(reader: Reader, root: Node | None, circuit: str, draft: Draft) -> None:
    """The feeds of a circuit file."""
    for name, key, value in draft.own(reader, "feed", root):
        before = reader.refusals
        record = Record(reader, value, keys.FEED, key)
        feed = model.Feed(id=name, circuit=circuit, at=reader.at(key), **fields_of(record))
        if reader.refusals == before:
            draft.feeds[name] = feed
