"""What of the records of a step stands plainly in its line, and what is packed beside it. Nothing is left out.

Plain is what a job adds to the sums and what people look for: what was typed, answered, moved, fired, found, repaired,
proved and ended. Packed is how it was put: prompts, sentences, cautions, reasons and weights, which repeat from step
to step. Packed text is JSON, compressed (raw DEFLATE, RFC 1951) with the last 32 kbyte of the text of the steps before
it as its dictionary, and spelled in base 85 (the alphabet of RFC 1924). So a trace copied alone still tells every word.

Before packing, a step is plain records and *rests*, one for each of its records: `[kind, fields]` of a record that is
packed whole, the packed fields of the next plain record, or 0 for none. Of the bench's state only what changed is
plain.
"""

from __future__ import annotations

import base64
import json
import zlib
from collections.abc import Mapping, Sequence
from dataclasses import field
from typing import Any

from expert.trace.errors import TraceDamaged
from expert.trace.json_values import brief
from expert.trace.kinds import from_json, kind_of, to_json
from expert.trace.records import (
    Answered,
    CannotMove,
    CautionShown,
    CustomerTold,
    Fired,
    Found,
    HandedOver,
    HazardOpened,
    HazardReleased,
    Moved,
    MoveOffered,
    Narrowed,
    NoLongerHolds,
    Proved,
    Put,
    Record,
    Refused,
    Stopped,
    Told,
)
from expert.trace.sentences import forms as say
from expert.trade.frozen import dataclass

WHOLE: tuple[type[Record], ...] = (Told, Put, CautionShown, Narrowed, MoveOffered, CustomerTold, Refused)
FIELDS: Mapping[type[Record], tuple[str, ...]] = {
    Answered: ("possible_before", "uncertainty", "instrument"),
    CannotMove: ("text",),
    Fired: ("because", "text", "told"),
    Found: ("because",),
    HandedOver: ("summary",),
    HazardOpened: ("name", "until", "forbids", "because"),
    HazardReleased: ("by",),
    Moved: ("minutes",),
    NoLongerHolds: ("question", "fault"),
    Proved: ("answer",),
    Stopped: ("text",),
}
WINDOW = 32_768  # bytes that DEFLATE can look back
LARGEST = 8_000_000  # bytes of text in one step; a file that would unfold to more is no trace


@dataclass(frozen=True, slots=True)
class Memory:
    """What the next step is packed with: the packed text of the steps before it, and the bench as it stands.

    What stands plainly is no part of it, so that an edit there leaves all later words readable for whoever looks.
    """

    text: bytes = b""
    state: Mapping[str, str] = field(default_factory=dict)


def pack(records: Sequence[Record], memory: Memory) -> tuple[list[dict[str, Any]], str, Memory]:
    """Plain records, the packed text ("" when nothing is packed), and what the next step is packed with.

    Raises NotPlain.
    """
    plain: list[dict[str, Any]] = []
    rests: list[Any] = []
    state = memory.state
    for record in records:
        kind, fields = kind_of(type(record)), brief(type(record), record, to_json(record))
        if isinstance(record, WHOLE):
            rests.append([kind, fields])
            continue
        if isinstance(record, Moved):
            fields["state"], state = _changes(state, record.state), record.state
        rests.append({name: fields.pop(name) for name in FIELDS.get(type(record), ()) if name in fields} or 0)
        plain.append({kind: fields})
    if not any(rests):
        return plain, "", Memory(memory.text, state)
    text = json.dumps(rests, sort_keys=True, separators=(",", ":"), allow_nan=False).encode("ascii")
    packer = zlib.compressobj(9, zlib.DEFLATED, -15, 9, zlib.Z_DEFAULT_STRATEGY, memory.text)
    packed = base64.b85encode(packer.compress(text) + packer.flush()).decode("ascii")
    return plain, packed, Memory((memory.text + text)[-WINDOW:], state)


def unpack(plain: object, packed: object, memory: Memory) -> tuple[tuple[Record, ...], Memory]:
    """The records of a step, and what the next one was packed with. Raises TraceDamaged."""
    if not (isinstance(plain, list) and all(isinstance(one, dict) and len(one) == 1 for one in plain)):
        raise TraceDamaged(say.ONE_KEY_EACH)
    text = _unfolded(packed, memory.text) if packed else b""
    rests = _rests(text) if packed else [0] * len(plain)
    state, records = memory.state, []
    waiting = iter(plain)
    try:
        for rest in rests:
            if isinstance(rest, list):
                kind, fields = rest
            else:
                ((kind, fields),) = next(waiting).items()
                fields = fields | (rest or {})
                if kind == "moved":
                    state = fields["state"] = _changed(state, fields["state"])
            records.append(from_json(kind, fields))
    except (StopIteration, TypeError, ValueError, KeyError, AttributeError):
        raise TraceDamaged(say.NOT_PACKED) from None
    if next(waiting, None) is not None:
        raise TraceDamaged(say.NOT_PACKED)
    return tuple(records), Memory((memory.text + text)[-WINDOW:], state)


def _unfolded(packed: object, dictionary: bytes) -> bytes:
    if not isinstance(packed, str):
        raise TraceDamaged(say.PACKED_IS_A_TEXT)
    unpacker = zlib.decompressobj(-15, dictionary)
    try:
        text = unpacker.decompress(base64.b85decode(packed), LARGEST)
    except (ValueError, zlib.error):
        raise TraceDamaged(say.NOT_PACKED) from None
    if not unpacker.eof or unpacker.unused_data:
        raise TraceDamaged(say.NOT_PACKED)
    return text


def _rests(text: bytes) -> list[Any]:
    try:
        rests = json.loads(text.decode("ascii"))
    except (ValueError, RecursionError):
        raise TraceDamaged(say.NOT_PACKED) from None
    if not isinstance(rests, list):
        raise TraceDamaged(say.NOT_PACKED)
    return rests


def _changes(before: Mapping[str, str], after: Mapping[str, str]) -> dict[str, str | None]:
    """What `_changed` makes `after` of; None for what is no longer there."""
    changed: dict[str, str | None] = {key: value for key, value in after.items() if before.get(key) != value}
    return changed | {key: None for key in before if key not in after}


def _changed(before: Mapping[str, str], changes: Mapping[str, str | None]) -> dict[str, str]:
    return {key: value for key, value in {**before, **changes}.items() if value is not None}
