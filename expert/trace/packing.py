"""What of the records of a step stands plainly in its line, and what is packed beside it. Nothing is left out.

Plain is what a job adds to the sums and what people look for: what was typed, answered, moved, fired, found, repaired,
proved and ended. Packed is how it was put: prompts, sentences, cautions, reasons and weights, which repeat from step
to step. Packed text is JSON, folded after the text of the steps before it (see `folding`). So a trace copied alone
still tells every word. What a step names again (the answer that is the line as typed) stands in it once.

Before packing, a step is plain records and *rests*, one for each of its records: `[kind, fields]` of a record that is
packed whole, the packed fields of the next plain record, or 0 for none. Of the bench's state only what changed is
plain.
"""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from dataclasses import field
from typing import Any

from expert.trace.errors import TraceDamaged
from expert.trace.folding import WINDOW, fold, unfold
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
    Opened,
    PromptPut,
    Proved,
    Record,
    Refused,
    Repaired,
    Stopped,
    Told,
    Unfired,
)
from expert.trace.sentences import forms as say
from expert.trade.frozen import dataclass

WHOLE: tuple[type[Record], ...] = (
    Told,
    PromptPut,
    CautionShown,
    Narrowed,
    MoveOffered,
    CustomerTold,
    Refused,
    HazardOpened,
    HazardReleased,
)
FIELDS: Mapping[type[Record], tuple[str, ...]] = {
    Answered: ("possible_before", "uncertainty", "instrument"),
    CannotMove: ("text",),
    Fired: ("because", "text", "told"),
    Found: ("because",),
    HandedOver: ("summary",),
    Moved: ("minutes",),
    NoLongerHolds: ("question", "fault"),
    Opened: ("instruments",),
    Proved: ("answer",),
    Stopped: ("text",),
}
# After a repair these tell only what everybody knows: that the rules which had led to it hold no longer.
AFTER_A_REPAIR: tuple[type[Record], ...] = (Unfired, NoLongerHolds)


@dataclass(frozen=True, slots=True)
class Memory:
    """What the next step is packed with: the packed text of the steps before it, and the bench as it stands.

    What stands plainly is no part of it, so that an edit there leaves all later words readable for whoever looks.
    """

    text: bytes = b""
    state: Mapping[str, str] = field(default_factory=dict)


def whole_in(records: Sequence[Record]) -> tuple[type[Record], ...]:
    """The kinds that are packed whole in a step of these records."""
    return WHOLE + (AFTER_A_REPAIR if any(isinstance(record, Repaired) for record in records) else ())


def pack(records: Sequence[Record], memory: Memory) -> tuple[list[dict[str, Any]], str, Memory]:
    """Plain records, the packed text ("" when nothing is packed), and what the next step is packed with.

    Raises NotPlain.
    """
    plain: list[dict[str, Any]] = []
    rests: list[Any] = []
    state, named = memory.state, NOTHING_NAMED
    whole = whole_in(records)
    for record in records:
        kind, fields = kind_of(type(record)), brief(type(record), record, to_json(record))
        if isinstance(record, whole):
            rests.append([kind, fields])
            continue
        if isinstance(record, Moved):
            fields["state"], state = _changes(state, record.state), record.state
        named = _leave_out(kind, fields, named)
        rests.append({name: fields.pop(name) for name in FIELDS.get(type(record), ()) if name in fields} or 0)
        plain.append({kind: fields})
    if not any(rests):
        return plain, "", Memory(memory.text, state)
    text = json.dumps(rests, sort_keys=True, separators=(",", ":"), allow_nan=False).encode("ascii")
    return plain, fold(text, memory.text), Memory((memory.text + text)[-WINDOW:], state)


def unpack(plain: object, packed: object, memory: Memory) -> tuple[tuple[Record, ...], Memory]:
    """The records of a step, and what the next one was packed with. Raises TraceDamaged."""
    if not (isinstance(plain, list) and all(isinstance(one, dict) and len(one) == 1 for one in plain)):
        raise TraceDamaged(say.ONE_KEY_EACH)
    text = unfold(packed, memory.text) if packed else b""
    rests = _rests(text) if packed else [0] * len(plain)
    state, named, records = memory.state, NOTHING_NAMED, []
    waiting = iter(plain)
    try:
        for rest in rests:
            if isinstance(rest, list):
                kind, fields = rest
            else:
                ((kind, fields),) = next(waiting).items()
                fields = fields | (rest or {})
                named = _fill_in(kind, fields, named)
                if kind == "moved":
                    state = fields["state"] = _changed(state, fields["state"])
            records.append(from_json(kind, fields))
    except (StopIteration, TypeError, ValueError, KeyError, AttributeError):
        raise TraceDamaged(say.NOT_PACKED) from None
    if next(waiting, None) is not None:
        raise TraceDamaged(say.NOT_PACKED)
    return tuple(records), Memory((memory.text + text)[-WINDOW:], state)


def _rests(text: bytes) -> list[Any]:
    try:
        rests = json.loads(text.decode("ascii"))
    except (ValueError, RecursionError):
        raise TraceDamaged(say.NOT_PACKED) from None
    if not isinstance(rests, list):
        raise TraceDamaged(say.NOT_PACKED)
    return rests


# What the step has named already, by the kind and the field that may name it again.
NAMED_AGAIN = {"answered": ("text", "said", "text"), "proved": ("question", "answered", "question")}
_Named = Mapping[tuple[str, str], object]
NOTHING_NAMED: _Named = {}


def _leave_out(kind: str, fields: dict[str, Any], named: _Named) -> _Named:
    """Take out of `fields` what the step has named already; gives what it has named by now."""
    now = {**named, **{(kind, name): value for name, value in fields.items()}}
    if kind in NAMED_AGAIN:
        name, of, its = NAMED_AGAIN[kind]
        if fields[name] == named.get((of, its)):
            del fields[name]
    return now


def _fill_in(kind: str, fields: dict[str, Any], named: _Named) -> _Named:
    """Put back what `_leave_out` took; gives what the step has named by now."""
    if kind in NAMED_AGAIN:
        name, of, its = NAMED_AGAIN[kind]
        if name not in fields and (of, its) in named:
            fields[name] = named[of, its]
    return {**named, **{(kind, name): value for name, value in fields.items()}}


def _changes(before: Mapping[str, str], after: Mapping[str, str]) -> dict[str, str | None]:
    """What `_changed` makes `after` of; None for what is no longer there."""
    changed: dict[str, str | None] = {key: value for key, value in after.items() if before.get(key) != value}
    return changed | {key: None for key in before if key not in after}


def _changed(before: Mapping[str, str], changes: Mapping[str, str | None]) -> dict[str, str]:
    return {key: value for key, value in {**before, **changes}.items() if value is not None}
