"""The judge's own account of a job, from the records: who is at the bench, how the machine stands, what was shown."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from expert.language.model import Bench, Machine, RuleBase
from expert.trace.records import (
    Answered,
    CannotMove,
    CannotTell,
    CautionShown,
    Moved,
    MoveOffered,
    PromptPut,
    Record,
    Resumed,
    Said,
    TakenIn,
    Worker,
)

PREPARE, TEST = "prepare ", "test "
PHASES = {"question": "search", "conflict": "search", "repair": "repair", "proof": "proof", "close": "close"}


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
    and were not offered again since; `cautions`: those that were shown and still stand.
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
            case PromptPut():
                self._put(record)
            case TakenIn(technician=name, machine_key=key, qualified=qualified):
                self._works(name)
                self.qualified = qualified
                self.machine = self.base.machines.get(key)
            case Worker(name=name, qualified=qualified):
                self._works(name)
                self.qualified = qualified
            case Moved():
                self._moved(record)
            case CautionShown(caution=caution):
                self.cautions.add(caution)
            case Answered() | CannotTell() if self.bench:
                self.bench = with_time(self.base.bench, self.bench)
            case CannotMove(move=move):
                self.cannot_move.add(move)
            case MoveOffered(move=move):
                self.cannot_move.discard(move)
            case Resumed():
                self.cautions.clear()

    def phase_of(self, put: PromptPut) -> str:
        """What a prompt belongs to: `looks` are the dead tests and moves that make safe before anything else."""
        if put.prompt == "intake":
            return "intake"  # put once more, to correct what was said
        if put.prompt in ("question", "proof") and put.why.hazard:
            return "looks"
        if put.prompt == "proof" and put.question in (*self.base.bench.check_out, *self.base.bench.before_return):
            return "check-out"
        return PHASES.get(put.prompt, self.phase if self.phase != "intake" else "looks")

    def _works(self, name: str) -> None:
        """Somebody else at the bench has read nothing yet."""
        if name != self.technician:
            self.cautions.clear()
        self.technician = name

    def _put(self, put: PromptPut) -> None:
        if put.prompt != "intake" and self.phase == "intake":
            self.phase = "looks"
        self.phase = PHASES.get(put.prompt, self.phase)

    def _moved(self, moved: Moved) -> None:
        """What is set up for a test, or altered by one, leaves the bench otherwise as it was seen to be."""
        by_a_test = moved.move.startswith((PREPARE, TEST))
        if moved.move == "stands otherwise":  # than was seen to: whatever was said of it was said of something else
            self.cautions.clear()
        self.bench = dict(moved.state)
        self.cannot_move.discard(moved.move)
        if not by_a_test:
            self.cautions = {name for name in self.cautions if self._still_stands(name)}
        if moved.state.get("altered", "nothing") == "nothing":
            self.altered_for = ""
        elif by_a_test:
            self.altered_for = moved.move.partition(" ")[2]

    def _still_stands(self, caution: str) -> bool:
        """Whether a caution need not be shown again in this state of the bench."""
        lasts = self.base.cautions[caution].lasts if caution in self.base.cautions else {}
        return bool(lasts) and all(self.bench.get(name) in states for name, states in lasts.items())
