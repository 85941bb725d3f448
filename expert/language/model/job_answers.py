"""Everything that is typed in one job, when nobody is at the keyboard."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field

from expert.language.model.bench import Machine
from expert.language.model.rules import NOWHERE, Position
from expert.trade.frozen import dataclass


@dataclass(frozen=True, slots=True)
class JobAnswers:
    """Everything that is typed in one job.

    `machine`: as written, a shipped type or a path; `machine_type` is its record. `plate`: ratings, features and
    conditions as typed at the plate prompt. `rest`: 'sound' when every other question comes out as on a sound machine.
    `after_repair`: what holds once something is repaired; `after`: by fault, what holds once that one is mended, so
    that a wrong repair changes nothing. Neither: nothing is repaired.
    """

    machine: str
    machine_type: Machine
    complaints: tuple[str, ...]
    answers: Mapping[str, str]
    plate: Mapping[str, str]
    qualified_for_live_work: bool
    arrives: str
    rest: str
    after_repair: Mapping[str, str] | None
    at: Position = field(default=NOWHERE, compare=False)
    after: Mapping[str, Mapping[str, str]] = field(default_factory=dict)
    places: Mapping[tuple[str, str], Position] = field(default_factory=dict, compare=False)

    def place(self, part: str, name: str) -> Position:
        """Where a value stands: `part` is plate, answers, after_repair or a fault's id (under `after`).

        The whole where it is not written.
        """
        return self.places.get((part, name), self.at)
