"""The bench: its dimensions and states, how machines arrive, and the moves between states."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from expert.language import model
from expert.language.reading import shapes
from expert.language.reading.conditions import NEVER, read_condition
from expert.language.reading.draft import Draft
from expert.language.reading.reader import Reader
from expert.language.reading.record import Record, read_state
from expert.language.yaml.nodes import Items, Node, Scalar


def read_bench(reader: Reader, root: Node, draft: Draft) -> None:
    """The bench file into the draft."""
    file = Record(reader, root, shapes.BENCH_FILE)
    draft.nodes["bench", "bench"] = (reader.path, root)
    states = {}
    for name, key, value in draft.own(reader, "bench dimension", file.node_of("states")):
        listed = [reader.text(item, "a state") for item in reader.distinct(reader.items(value, f"'{name}'"))]
        if len(listed) == 1:
            reader.refuse(key, "too-few-outcomes", f"{name} has one state only; two are needed")
        states[name] = tuple(listed)
    after = file.node_of("after_opening")
    opening = None if after is None else Record(reader, after, shapes.AFTER_OPENING)
    draft.bench = model.Bench(
        states=MappingProxyType(states),
        arrives=MappingProxyType(_arrivals(reader, file, draft)),
        safe=file.state("safe"),
        qualified_only=_combinations(reader, file, "qualified_only"),
        passing_only=_combinations(reader, file, "passing_only"),
        moves=_moves(reader, file, draft),
        service=file.names("service", "question"),
        in_time=_in_time(reader, file),
        opened=opening.state("when") if opening else {},
        after_opening=opening.names("prove", "question") if opening else (),
    )


def _arrivals(reader: Reader, file: Record, draft: Draft) -> dict[str, model.Arrival]:
    arrivals = {}
    for name, key, value in draft.own(reader, "arrival", file.node_of("arrives")):
        before = reader.refusals
        record = Record(reader, value, shapes.ARRIVAL, key)
        arrival = model.Arrival(name, record.text("say"), record.state("state"), reader.at(key))
        missing = [dimension for dimension in draft.names.states if dimension not in arrival.state]
        if missing and reader.refusals == before:
            message = f"'state' must say how {', '.join(missing)} stands when a machine arrives"
            reader.refuse(record.node_of("state") or value, "missing-key", message)
        if reader.refusals == before:
            arrivals[name] = arrival
    return arrivals


def _combinations(reader: Reader, file: Record, key: str) -> tuple[Mapping[str, str], ...]:
    node = file.node_of(key)
    if node is None:
        return ()
    if type(node) is not Items:
        reader.wrong_shape(node, f"'{key}'", "a list of states ([{mains: on, covers: off}])")
        return ()
    return tuple(read_state(reader, item, f"an entry of '{key}'") for item in node.items)


def _in_time(reader: Reader, file: Record) -> tuple[model.InTime, ...]:
    node = file.node_of("in_time")
    if node is None:
        return ()
    if type(node) is not Items:
        reader.wrong_shape(node, "'in_time'", "a list of changes ([{while: {mains: on}, becomes: {boiler: warm}}])")
        return ()
    records = [Record(reader, item, shapes.IN_TIME) for item in node.items]
    return tuple(model.InTime(record.state("while"), record.state("becomes")) for record in records)


def _moves(reader: Reader, file: Record, draft: Draft) -> tuple[model.Move, ...]:
    moves = []
    for name, key, value in draft.own(reader, "move", file.node_of("moves")):
        before = reader.refusals
        move = _move(name, key, Record(reader, value, shapes.MOVE, key))
        if reader.refusals == before:
            moves.append(move)
    return tuple(moves)


def _move(name: str, key: Scalar, record: Record) -> model.Move:
    unless = record.node_of("unless")
    return model.Move(
        id=name,
        say=record.text("say"),
        needs=record.states("needs"),
        makes=record.state("makes"),
        minutes=record.number("minutes") or 0.0,
        steps=record.texts("steps"),
        cautions=record.names("cautions", "caution"),
        confirm=record.text("confirm"),
        first=record.names("first", "question"),
        unless=NEVER if unless is None else read_condition(record.reader, unless),
        at=record.reader.at(key),
    )
