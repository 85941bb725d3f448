"""What can happen in a job, as plain typed data: one frozen dataclass for each kind of record.

A new kind is one dataclass here and one line in KINDS. Fields are str, int, float, bool, None, tuples, mappings of
text to these, and dataclasses of these (see `plain`; `kinds` turns records into JSON and back). A field with a default
may be missing from older traces. Sentences are kept as the technician read or typed them.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

from expert.trace.why import Why


PromptKind = Literal["intake", "move", "question", "proof", "conflict", "danger", "repair", "close"]


class Record:
    """Something that happened in a job."""

    __slots__ = ()


# ---------------------------------------------------------------- the job itself


@dataclass(frozen=True, slots=True)
class Opened(Record):
    """The job was opened. Pins the rules by their digest, and what the shop owns: instruments (ids), unit system."""

    rules_digest: str
    program: str
    job: str
    instruments: tuple[str, ...] = ()
    system: str = "metric"


@dataclass(frozen=True, slots=True)
class Paused(Record):
    """The technician left the job to go on later."""


@dataclass(frozen=True, slots=True)
class Resumed(Record):
    """The job was taken up again, possibly by another version of the program or with other rules."""

    program: str
    rules_digest: str


@dataclass(frozen=True, slots=True)
class HandedOver(Record):
    """The job was handed to somebody else, with what is known so far."""

    summary: str


@dataclass(frozen=True, slots=True)
class CustomerTold(Record):
    """The summary for the customer, line by line, as printed."""

    lines: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Closed(Record):
    """The job came to its end."""

    outcome: str
    minutes: float
    parts: tuple[str, ...]
    note: str


@dataclass(frozen=True, slots=True)
class Sealed(Record):
    """Nothing follows. `lines`: how many lines stand before this one; `digest`: that of the last of them."""

    lines: int
    digest: str


# ---------------------------------------------------------------- what was typed and shown


@dataclass(frozen=True, slots=True)
class Said(Record):
    """The line that the technician typed, as typed; a re-run feeds these back. `redo`: it came from a re-run."""

    text: str
    redo: bool = False


@dataclass(frozen=True, slots=True)
class Told(Record):
    """Any other sentence shown to the technician."""

    text: str


@dataclass(frozen=True, slots=True)
class Noted(Record):
    """A remark of the technician, kept with the job."""

    text: str


# ---------------------------------------------------------------- questions and answers


@dataclass(frozen=True, slots=True)
class Put(Record):
    """A question or another prompt was put to the technician."""

    prompt: PromptKind
    question: str
    text: str
    why: Why = field(default_factory=Why)


@dataclass(frozen=True, slots=True)
class Answered(Record):
    """An answer was taken. `number`: counted from 1 in the job.

    `reading` and `uncertainty`: the number read and how far off it may be, in the base unit of its kind; None
    when nothing was measured. `outcomes`: what the answer leaves possible.
    """

    number: int
    question: str
    text: str
    outcomes: tuple[str, ...]
    possible_before: tuple[str, ...]
    reading: float | None = None
    uncertainty: float | None = None
    instrument: str = ""


@dataclass(frozen=True, slots=True)
class CannotTell(Record):
    """The technician could not answer."""

    question: str
    reason: str


@dataclass(frozen=True, slots=True)
class NoLongerHolds(Record):
    """An answer described the machine before a repair of this fault."""

    number: int
    question: str
    fault: str


@dataclass(frozen=True, slots=True)
class TakenBack(Record):
    """An answer was taken back, and with it all that rested on it alone."""

    number: int
    question: str


# ---------------------------------------------------------------- what was concluded


@dataclass(frozen=True, slots=True)
class Fired(Record):
    """A rule's condition became true. `because`: the answers that it rests on. `told`: its text was shown."""

    rule: str
    because: tuple[str, ...]
    text: str
    told: bool = False


@dataclass(frozen=True, slots=True)
class Unfired(Record):
    """A rule's condition is no longer true."""

    rule: str


@dataclass(frozen=True, slots=True)
class Narrowed(Record):
    """The outcomes of a fact that are still possible changed."""

    fact: str
    before: tuple[str, ...]
    after: tuple[str, ...]
    because: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Conflict(Record):
    """Nothing is possible any more for this fact: these answers, by number, cannot all hold."""

    fact: str
    answers: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Found(Record):
    """A fault was found, or the search came down to it. `standing` says in which of the ways."""

    fault: str
    standing: str
    because: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class SearchEnded(Record):
    """No question is left that tells anything. `outcome`: in which way; `listed`: the short list, heaviest first."""

    outcome: str
    listed: tuple[str, ...]


# ---------------------------------------------------------------- bench, repair, proof


@dataclass(frozen=True, slots=True)
class Moved(Record):
    """The bench was brought into another state, confirmed by the technician."""

    move: str
    state: Mapping[str, str]
    minutes: float


@dataclass(frozen=True, slots=True)
class CautionShown(Record):
    """A caution was shown before the step that it belongs to."""

    caution: str
    text: str


@dataclass(frozen=True, slots=True)
class Stopped(Record):
    """Danger: nothing further is asked until it is dealt with."""

    rule: str
    text: str


@dataclass(frozen=True, slots=True)
class Cleared(Record):
    """The danger was dealt with, by what or whom."""

    by: str


@dataclass(frozen=True, slots=True)
class Repaired(Record):
    """The technician said that a fault is mended, and how."""

    fault: str
    minutes: float
    said: str


@dataclass(frozen=True, slots=True)
class Proved(Record):
    """A test after the repair was answered. `passed`: None when it could not be made or was too close to the limit."""

    question: str
    answer: str
    passed: bool | None


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
    CautionShown,
    Stopped,
    Cleared,
    Repaired,
    Proved,
)
