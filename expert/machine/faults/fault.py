"""What a fault is: a part, how it has failed, how often that is seen, and the changes that make it."""

from __future__ import annotations

from dataclasses import dataclass

from expert.machine.faults.change import Change
from expert.machine.running.machine import Machine

COMMON, OCCASIONAL, RARE = "common", "occasional", "rare"


@dataclass(frozen=True, slots=True)
class Fault:
    """One failure mode. part, mode: plain words, together its name. grade: COMMON, OCCASIONAL or RARE. dangerous: it
    can hurt by itself. of_a_part: False for a circumstance (water, supply, setting, handling). stored: it came about
    after the last use (in storage, in the van), so that no use has followed from it."""

    part: str
    mode: str
    grade: str
    changes: tuple[Change, ...]
    dangerous: bool = False
    of_a_part: bool = True
    stored: bool = False

    @property
    def name(self) -> str:
        """ "part: mode"."""
        return f"{self.part}: {self.mode}"

    def into(self, machine: Machine) -> Machine:
        """The machine with this fault, besides what it has already."""
        for change in self.changes:
            machine = change.apply(machine)
        return machine
