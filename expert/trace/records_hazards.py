"""Records of dangers and of who works at the bench. Import them from `records`."""

from __future__ import annotations

from typing import Literal

from expert.trace.record import Record
from expert.trade.frozen import dataclass


@dataclass(frozen=True, slots=True)
class HazardOpened(Record):
    """A danger stands from here on, until it is released.

    `name` and `until`: the danger, and what ends it, in the rules' words. `forbids`: acts, by id. `because`: what
    opened it, such as "answer 4", "complaint overheats", "fault part.fault". `number`: answers so far, counted as
    answers are.
    """

    hazard: str
    name: str
    until: str
    forbids: tuple[str, ...]
    because: tuple[str, ...]
    number: int


@dataclass(frozen=True, slots=True)
class HazardReleased(Record):
    """A danger no longer stands. `by`: the answers, and the repair before them, that released it.

    `how`: tests, repair, or taken back when the only answer that it stood on was a mistake.
    """

    hazard: str
    how: Literal["tests", "repair", "taken back"]
    by: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Refused(Record):
    """Something was not offered, or not yet, because of a danger that stands.

    `act`: what the danger forbids, by id, or "hand_back". `what`: such as "move switch_on" or "ending repaired".
    """

    hazard: str
    act: str
    what: str


@dataclass(frozen=True, slots=True)
class Worker(Record):
    """Who works at the bench from here on, and whether qualified for live work, by the person's own word."""

    name: str
    qualified: bool
