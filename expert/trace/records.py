"""What can happen in a job, as plain typed data: one frozen dataclass for each kind of record.

A new kind is one dataclass here and one line in KINDS. Fields are str, int, float, bool, None, tuples, mappings of
text to these, and dataclasses of these (see `plain`; `kinds` turns records into JSON and back). A field with a default
may be missing from older traces. Sentences are kept as the technician read or typed them.

The dataclasses stand in `records_job` and `records_talk`; everybody imports them from here.
"""

from __future__ import annotations

from expert.trace.record import Record
from expert.trace.records_job import (
    CannotMove,
    CautionShown,
    Cleared,
    Closed,
    CustomerTold,
    HandedOver,
    Moved,
    MoveOffered,
    Opened,
    Paused,
    Proved,
    Repaired,
    Resumed,
    Sealed,
    Stopped,
)
from expert.trace.records_talk import (
    Answered,
    CannotTell,
    Conflict,
    Fired,
    Found,
    Narrowed,
    NoLongerHolds,
    Noted,
    PromptKind,
    Put,
    Said,
    SearchEnded,
    TakenBack,
    Told,
    Unfired,
)

__all__ = [
    "KINDS",
    "Answered",
    "CannotMove",
    "CannotTell",
    "CautionShown",
    "Cleared",
    "Closed",
    "Conflict",
    "CustomerTold",
    "Fired",
    "Found",
    "HandedOver",
    "MoveOffered",
    "Moved",
    "Narrowed",
    "NoLongerHolds",
    "Noted",
    "Opened",
    "Paused",
    "PromptKind",
    "Proved",
    "Put",
    "Record",
    "Repaired",
    "Resumed",
    "Said",
    "Sealed",
    "SearchEnded",
    "Stopped",
    "TakenBack",
    "Told",
    "Unfired",
]

KINDS: tuple[type[Record], ...] = (
    Opened,
    Paused,
    Resumed,
    HandedOver,
    CustomerTold,
    Closed,
    Sealed,
    Said,
    Told,
    Noted,
    Put,
    Answered,
    CannotTell,
    NoLongerHolds,
    TakenBack,
    Fired,
    Unfired,
    Narrowed,
    Conflict,
    Found,
    SearchEnded,
    Moved,
    CannotMove,
    MoveOffered,
    CautionShown,
    Stopped,
    Cleared,
    Repaired,
    Proved,
)
