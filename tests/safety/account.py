"""The judge's own account of a job, from the records: who is at the bench, how the machine stands, what was shown."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from expert.language.model import Bench, Caution, Machine, RuleBase
from expert.trace.records import (
    Answered,
    CannotMove,
    CannotTell,
    CautionShown,
    Moved,
    Put,
    Record,
    Resumed,
    Said,
    TakenIn,
    Worker,
)

PREPARE, TEST = "prepare ", "test "
PHASES = {"question": "find", "conflict": "find", "repair": "repair", "proof": "prove", "close": "close"}


def stands(state: Mapping[str, str], wanted: Mapping[str, str]) -> bool:
    """Whether every wanted dimension stands as wanted."""
    return all(state.get(dimension) == value for dimension, value in wanted.items())


def with_time(bench: Bench, state: Mapping[str, str]) -> dict[str, str]:
    """The state once time has passed in it, by the declared changes."""
    state = dict(state)
    for change in bench.in_time:
        if stands(state, change.holds):
            state |= change.becomes
    return state


@dataclass(slots=True)
class Account:
    """What is on record. `take` is given every record in its order, after the judge has looked at it.

    `altered_for`: the question whose set-up or test left something altered; `cannot_move`: moves that could not be made
    since the bench last changed; `cautions`: those that were shown and still stand.
    """

    base: RuleBase
    technician: str = ""
    qualified: bool = False
    machine: Machine | None = None
    bench: dict[str, str] = field(default_factory=dict)
    altered_for: str = ""
    cannot_move: set[str] = field(default_factory=set)
    cautions: set[str] = field(default_factory=set)
    phase: str = "intake"
    seen: int = 0
    said: str = ""

    def take(self, record: Record) -> None:
        """Note one record."""
        self.seen += 1
        match record:
            case Said(text=text):
                self.said = text.strip()
            case Put():
                self._put(record)
            case TakenIn(technician=name, machine_key=key, qualified=qualified):
                self.technician, self.qualified = name, qualified
                self.machine = self.base.machines.get(key)
            case Worker(name=name, qualified=qualified):
                if name != self.technician:
                    self.cautions.clear()
                self.technician, self.qualified = name, qualified
            case Moved():
                self._moved(record)
            case CautionShown(caution=caution):
                self.cautions.add(caution)
            case Answered() | CannotTell() if self.bench:
                self._passes(with_time(self.base.bench, self.bench))
            case CannotMove(move=move):
                self.cannot_move.add(move)
            case Resumed():
                self.cautions.clear()

    def _put(self, put: Put) -> None:
        if put.prompt != "intake" and self.phase == "intake":
            self.phase = "make safe"
        self.phase = PHASES.get(put.prompt, self.phase)

    def _moved(self, moved: Moved) -> None:
        before = self.bench
        if moved.move.startswith((PREPARE, TEST)):
            self.bench = dict(moved.state)  # nothing but what was altered: what was read still stands
        else:
            self._stands(dict(moved.state))
        self.cannot_move.clear()
        if not moved.move.startswith((PREPARE, TEST)):
            self.cautions = {name for name in self.cautions if self._lasts(name)}
        if moved.state.get("altered", "nothing") == "nothing":
            self.altered_for = ""
        elif moved.move.startswith((PREPARE, TEST)):
            self.altered_for = moved.move.partition(" ")[2]
        elif before.get("altered", "nothing") == "nothing":
            self.altered_for = ""

    def _stands(self, state: dict[str, str]) -> None:
        self.bench = state
        self.cautions = {name for name in self.cautions if not self._lasts(name) or self._still_lasts(name)}

    def _passes(self, state: dict[str, str]) -> None:
        """Time passes: a caution ends whose state was there and is over; one that was said ahead of it still stands."""
        held = {name for name in self.cautions if self._lasts(name) and self._still_lasts(name)}
        self.bench = state
        self.cautions = {name for name in self.cautions if name not in held or self._still_lasts(name)}

    def _lasts(self, caution: str) -> bool:
        return bool(self._caution(caution) and self._caution(caution).lasts)

    def _still_lasts(self, caution: str) -> bool:
        return all(self.bench.get(name) in states for name, states in self._caution(caution).lasts.items())

    def _caution(self, caution: str) -> Caution | None:
        return self.base.cautions.get(caution)
