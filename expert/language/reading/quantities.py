"""Kinds, units and quantities as they stand in rule files."""

from __future__ import annotations

from expert.language.reading.reader import Reader
from expert.language.reading.record import Record
from expert.language.sentences import formulas as say
from expert.language.yaml.nodes import Node
from expert.trade.quantities.units import KINDS, NotAQuantity, Quantity, read_quantity, unit_in, with_article


def read_kind(record: Record, key: str) -> str:
    """The name of a kind of quantity; nothing if it is not one."""
    node = record.node_of(key)
    if node is None:
        return ""
    text = record.reader.text(node, f"'{key}'")
    if text in KINDS:
        return text
    if text:
        near = record.reader.names.did_you_mean(text, KINDS) or say.there_is(", ".join(KINDS))
        record.reader.refuse(node, "unknown-kind", say.is_no_kind(text[:60], near))
    return ""


def read_unit(record: Record, key: str, kind: str) -> str:
    """A unit of the kind, by the trade's own name for it; the kind's base unit if the key is not there."""
    node = record.node_of(key)
    if not kind:
        return ""
    known = KINDS[kind]
    if node is None:
        return known.base
    text = getattr(node, "text", None)
    if text is None or (text == "" and "" not in known.units):
        record.reader.text(node, f"'{key}'")
        return known.base
    unit = text if text in known.units else unit_in(known, text)
    if unit is None:
        units = ", ".join(name for name in known.units if name)
        message = say.no_unit_of_kind(text[:60], with_article(kind), units)
        message += record.reader.names.did_you_mean(text, [name for name in known.units if len(name) > 1])
        record.reader.refuse(node, "wrong-unit", message)
        return known.base
    return unit


def read_one(reader: Reader, node: Node, kind: str, unit: str = "") -> Quantity | None:
    """A quantity of a kind; a bare number takes `unit`. None on a problem, or if the kind is not known."""
    text = reader.text(node, "a quantity")
    if not text or not kind:
        reader.refusals += 1
        return None
    try:
        return read_quantity(text, kind, unit or None)
    except NotAQuantity as problem:
        reader.refuse(node, "not-a-quantity", str(problem))
        return None


def read_named(record: Record, key: str, kind: str) -> Quantity | None:
    """The quantity under a key; None if the key is not there."""
    node = record.node_of(key)
    return None if node is None else read_one(record.reader, node, kind)


def read_span(reader: Reader, node: Node, kind: str, unit: str) -> tuple[Quantity, Quantity] | None:
    """`LOW to HIGH`; a bare low takes the unit of high."""
    text = reader.text(node, "'believable'")
    low_text, to, high_text = text.partition(" to ")
    if not text or not kind:
        return None
    if not to:
        reader.refuse(node, "not-a-quantity", say.is_no_span(text[:60]))
        return None
    try:
        high = read_quantity(high_text, kind, unit or None)
        low = read_quantity(_with_unit(low_text, high_text), kind, unit or None)
    except NotAQuantity as problem:
        reader.refuse(node, "not-a-quantity", str(problem))
        return None
    if not low < high:
        reader.refuse(node, "limits-reversed", say.limits_reversed(text[:60]))
    return low, high


def _with_unit(low: str, high: str) -> str:
    """The low limit with the unit of the high one, if it has none of its own."""
    bare = low.strip().lstrip("+-").replace(".", "", 1).isdigit()
    unit = high.strip().lstrip("+-0123456789., ")
    return f"{low.strip()} {unit}" if bare and unit else low
