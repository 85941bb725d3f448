"""Records of the job itself, of the bench, of repair and proof. Import them from `records`."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal

from expert.trace.record import Record
from expert.trade.frozen import dataclass


@dataclass(frozen=True, slots=True)
class Opened(Record):
    """The job was opened. Pins the rules by their digest, and what the shop owns: instruments (ids), unit system.

    `machine_file`: the text of a machine type that does not stand in the rules, or "". `purpose`: "" for real work,
    "practice" for a machine that was simulated, "invented" for a made-up job; these never count among real ones.
    `shop_file`: the text of the shop's profile, or "". `redacted_from`: in a copy for sharing, the digest of the last
    line of the trace that it was made from.
    """

    rules_digest: str
    program: str
    job: str
    instruments: tuple[str, ...] = ()
    system: str = "metric"
    machine_file: str = ""
    purpose: str = ""
    shop_file: str = ""
    redacted_from: str = ""


@dataclass(frozen=True, slots=True)
class TakenIn(Record):
    """The intake is done: who is at the bench, with what machine, and what the customer noticed.

    `machine` and `complaints`: in words; `machine_key` and `complaint_keys`: their ids. `plate`: what was taken at the
    plate prompt, each a name and a value as typed. `qualified`: for live work. `serial_key`: the machine's serial
    number as a keyed digest, or "". How the machine stands is recorded as the bench's first state.
    """

    technician: str
    machine: str
    machine_key: str
    plate: tuple[str, ...]
    complaints: tuple[str, ...]
    complaint_keys: tuple[str, ...]
    qualified: bool
    serial_key: str = ""


@dataclass(frozen=True, slots=True)
class ComplaintNow(Record):
    """A complaint (id) that the bench raised by what it saw, or that its own re-test showed to be gone.

    `withdrawn`: the answer that had raised it was taken back. Where one that had shown it gone was: raised.
    """

    complaint: str
    standing: Literal["raised", "gone", "withdrawn"]


@dataclass(frozen=True, slots=True)
class Paused(Record):
    """The technician left the job to go on later."""


@dataclass(frozen=True, slots=True)
class Resumed(Record):
    """The job was taken up again, possibly by another version of the program or with other rules.

    `asks_standing`: the technician was asked whether the machine still stands as recorded; the question follows.
    `rebuilt`: this program, or these rules, decide some of what is on record otherwise; the technician saw what, and
    chose to go on with them. What was answered and done is kept, and the prompt that now waits follows.
    """

    program: str
    rules_digest: str
    asks_standing: bool = False
    rebuilt: bool = False


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
    """The job came to its end. In a shop that wants costs: `currency`, and in it what work and parts cost.

    `without_price`: parts that the shop's list has no price for; `parts_cost` is without them.
    """

    outcome: str
    minutes: float
    parts: tuple[str, ...]
    note: str
    currency: str = ""
    work_cost: float = 0.0
    parts_cost: float = 0.0
    without_price: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Sealed(Record):
    """Nothing follows. `lines`: how many lines stand before this one; `digest`: that of the last of them.

    `key`, `signature`: of the shop over both, or "" where it has no key.
    """

    lines: int
    digest: str
    key: str = ""
    signature: str = ""


@dataclass(frozen=True, slots=True)
class Moved(Record):
    """The bench was brought into another state, confirmed by the technician."""

    move: str
    state: Mapping[str, str]
    minutes: float


@dataclass(frozen=True, slots=True)
class CannotMove(Record):
    """A bench move could not be made, by the technician's word. `number`: counted along with the answers.

    `text`: what was to be done.
    """

    number: int
    move: str
    text: str


@dataclass(frozen=True, slots=True)
class MoveOffered(Record):
    """A move that could not be made is offered once more, because nothing else is left."""

    move: str
    text: str


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
