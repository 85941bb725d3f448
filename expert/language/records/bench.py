"""The bench: its dimensions and states, how machines arrive, and the moves between states."""

from __future__ import annotations

from types import MappingProxyType

from expert.language import keys, model
from expert.language.reading.draft import Draft
from expert.language.reading.reader import Reader
from expert.language.reading.record import Record
from expert.language.reading.values import fields_of
from expert.language.sentences import records as say
from expert.language.yaml.nodes import Items, Node


def read_bench(reader: Reader, root: Node, draft: Draft) -> None:
    """The bench file into the draft."""
    file = Record(reader, root, keys.BENCH_FILE)
    draft.nodes["bench", "bench"] = (reader.path, root)
    states = {}
    for name, key, value in draft.own(reader, "bench dimension", file.node_of("states")):
        listed = [reader.text(item, "a state") for item in reader.distinct(reader.items(value, f"'{name}'"))]
        if len(listed) == 1:
            reader.refuse(key, "too-few-outcomes", say.one_state_only(name))
        states[name] = tuple(listed)
    after = file.node_of("after_opening")
    node = file.node_of("hand_back")
    back = None if node is None else Record(reader, node, keys.HAND_BACK)
    opening = None if after is None else Record(reader, after, keys.AFTER_OPENING)
    draft.bench = model.Bench(
        states=MappingProxyType(states),
        arrives=MappingProxyType(_arrivals(reader, file, draft)),
        moves=_moves(reader, file, draft),
        in_time=_in_time(reader, file),
        opened=opening.state("when") if opening else {},
        after_opening=opening.names("prove", "question") if opening else (),
        hand_back=back.state("state") if back else {},
        before_return=back.names("prove", "question") if back else (),
        read_twice=_read_twice(reader, file),
        **fields_of(file),
    )


def _read_twice(reader: Reader, file: Record) -> model.ReadTwice | None:
    node = file.node_of("read_twice")
    return None if node is None else model.ReadTwice(**fields_of(Record(reader, node, keys.READ_TWICE)))


def _arrivals(reader: Reader, file: Record, draft: Draft) -> dict[str, model.Arrival]:
    arrivals = {}
    for name, key, value in draft.own(reader, "arrival", file.node_of("arrives")):
        before = reader.refusals
        record = Record(reader, value, keys.ARRIVAL, key)
        arrival = model.Arrival(name, at=reader.at(key), **fields_of(record))
        missing = [dimension for dimension in draft.names.states if dimension not in arrival.state]
        if missing and reader.refusals == before:
            message = say.state_must_say(", ".join(missing))
            reader.refuse(record.node_of("state") or value, "missing-key", message)
        if reader.refusals == before:
            arrivals[name] = arrival
    return arrivals


def _in_time(reader: Reader, file: Record) -> tuple[model.InTime, ...]:
    node = file.node_of("in_time")
    if node is None:
        return ()
    if type(node) is not Items:
        reader.wrong_shape(node, "'in_time'", say.A_LIST_OF_CHANGES)
        return ()
    return tuple(model.InTime(**fields_of(Record(reader, item, keys.IN_TIME))) for item in node.items)


def _moves(reader: Reader, file: Record, draft: Draft) -> tuple[model.Move, ...]:
    moves = []
    for name, key, value in draft.own(reader, "move", file.node_of("moves")):
        before = reader.refusals
        move = model.Move(name, at=reader.at(key), **fields_of(Record(reader, value, keys.MOVE, key)))
        if reader.refusals == before:
            moves.append(move)
    return tuple(moves)
