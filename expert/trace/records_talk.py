"""Records of what was typed, shown, asked, answered and concluded. Import them from `records`."""

from __future__ import annotations

from typing import Literal

from expert.trace.record import Record
from expert.trace.why import NO_REASON, Why
from expert.trade.frozen import dataclass

PromptKind = Literal[
    "intake", "move", "question", "going on", "proof", "conflict", "danger", "happened", "repair", "close", "standing"
]


@dataclass(frozen=True, slots=True)
class Said(Record):
    """The line that the technician typed, as typed; a re-run feeds these back."""

    text: str


@dataclass(frozen=True, slots=True)
class Told(Record):
    """Any other sentence shown to the technician."""

    text: str


@dataclass(frozen=True, slots=True)
class Noted(Record):
    """A remark of the technician, kept with the job."""

    text: str


@dataclass(frozen=True, slots=True)
class PromptPut(Record):
    """A question or another prompt was put to the technician."""

    prompt: PromptKind
    question: str
    text: str
    why: Why = NO_REASON

    @property
    def is_test(self) -> bool:
        """Whether a test was put, whose answer the rules conclude from; else `question` names something else."""
        return self.prompt in ("question", "proof")


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
    """The technician could not answer. `number`: counted along with the answers; 0 in older traces."""

    question: str
    reason: str
    number: int = 0


@dataclass(frozen=True, slots=True)
class NoLongerHolds(Record):
    """An answer described the machine before a repair of this fault."""

    number: int
    question: str
    fault: str


@dataclass(frozen=True, slots=True)
class TakenBack(Record):
    """An answer was taken back, and with it all that rested on it alone; or a "can't tell", or a "can't" to a move.

    `question`: what it was about; of a move its id.
    """

    number: int
    question: str


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
