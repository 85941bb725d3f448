"""The hazards file: what can be forbidden, and the dangers that forbid it until they are released."""

from __future__ import annotations

from expert.language import keys, model
from expert.language.reading.draft import Draft
from expert.language.reading.reader import Reader
from expert.language.reading.record import Record
from expert.language.reading.values import fields_of
from expert.language.yaml.nodes import Node


def read_hazards(reader: Reader, root: Node, draft: Draft) -> None:
    """Acts and hazards into the draft."""
    file = Record(reader, root, keys.HAZARDS_FILE)
    for name, key, value in draft.own(reader, "act", file.node_of("acts")):
        before = reader.refusals
        act = model.Act(name, at=reader.at(key), **fields_of(Record(reader, value, keys.ACT, key)))
        if reader.refusals == before:
            draft.acts[name] = act
    for name, key, value in draft.own(reader, "hazard", file.node_of("hazards")):
        before = reader.refusals
        record = Record(reader, value, keys.HAZARD, key)
        releases = [Record(reader, item, keys.RELEASE) for item in record.list_of("released_by")]
        hazard = model.Hazard(
            id=name,
            released_by=tuple(model.Release(**fields_of(release)) for release in releases),
            at=reader.at(key),
            **fields_of(record),
        )
        if reader.refusals == before:
            draft.hazards[name] = hazard
