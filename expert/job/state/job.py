"""All that is known of one job. Immutable from outside: every step works on a copy."""

from __future__ import annotations

from dataclasses import dataclass, field, fields, replace
from enum import StrEnum
from typing import Any, Literal

from expert.engine.bench import BenchState
from expert.engine.hazards import HazardAccount
from expert.engine.knowledge import Knowledge
from expert.engine.planner import Choice
from expert.engine.state import State
from expert.job.state.applying import applies
from expert.job.state.progress import Progress
from expert.job.state.shop import Shop
from expert.language.model import Machine, Question, RuleBase
from expert.trace.records import PromptKind, Record, Told
from expert.trace.why import NO_REASON, Why
from expert.trade.quantities.units import Quantity


class Phase(StrEnum):
    """The six phases of a job, and its end."""

    INTAKE = "intake"
    SAFE = "make safe"
    FIND = "find"
    REPAIR = "repair"
    PROVE = "prove"
    CLOSE = "close"
    DONE = "done"


PHASES = tuple(phase for phase in Phase if phase is not Phase.DONE)


def phase_after(phase: Phase) -> Phase:
    """The next phase in their order.

    >>> phase_after(Phase.INTAKE), phase_after(Phase.CLOSE)
    (<Phase.SAFE: 'make safe'>, <Phase.DONE: 'done'>)
    """
    order = tuple(Phase)
    return order[order.index(phase) + 1]


UnableKind = Literal["question", "move"]
# What a trace records, an open take-back (which is not recorded), nothing as yet, and nothing any more.
PromptName = PromptKind | Literal["take back", "", "done"]


@dataclass(frozen=True, slots=True)
class Prompt:
    """What the job waits for: `kind` says who takes the line, `subject` what it is about, `choices` what will do."""

    kind: PromptName
    subject: str = ""
    choices: tuple[str, ...] = ()

    @property
    def at(self) -> tuple[PromptName, str]:
        """What tells one prompt from another."""
        return self.kind, self.subject


NO_PROMPT = Prompt("")


@dataclass(frozen=True, slots=True)
class Given:
    """An answer. `quantity` and `uncertainty`: None when nothing was measured. `holds`: not taken back or overtaken."""

    number: int
    question: str
    text: str
    outcomes: tuple[str, ...]
    quantity: Quantity | None = None
    uncertainty: Quantity | None = None
    holds: bool = True

    @property
    def about(self) -> str:
        return self.question

    @property
    def source(self) -> str:
        """The label under which the engine knows the answer."""
        return f"answer {self.number}"


@dataclass(frozen=True, slots=True)
class CouldNot:
    """A question that could not be answered, or a bench move that could not be made; numbered along with the answers.

    `kind`: question or move; `subject`: its id. `holds`: not taken back, offered again or answered since.
    """

    number: int
    kind: UnableKind
    subject: str
    reason: str = ""
    holds: bool = True
    lacking: str = ""  # the instrument that is not at hand, where that is the reason

    @property
    def about(self) -> str:
        return self.subject


@dataclass
class Job:
    """One job. Everything but `knowledge` and `shop` is its own."""

    knowledge: Knowledge
    shop: Shop
    number: str
    state: State
    phase: Phase = Phase.INTAKE
    prompt: Prompt = NO_PROMPT
    intake_settled: tuple[str, ...] = ()
    technician: str = ""
    machine: Machine | None = None
    plate_told: tuple[str, ...] = ()  # lines taken at the plate prompt, as typed
    serial_key: str = ""  # of the machine's serial number, which itself is not kept
    plate_ranges: dict[str, tuple[Quantity, Quantity]] = field(default_factory=dict)
    complaints: tuple[str, ...] = ()
    asked_back: frozenset[str] = frozenset()  # prompts of the intake that were put again to be corrected
    complaints_offered: tuple[str, ...] = ()  # what a few words may have meant, while it is asked which
    qualified: bool = False
    bench: BenchState = ()
    given: dict[int, Given] = field(default_factory=dict)
    unable: dict[int, CouldNot] = field(default_factory=dict)
    offered_again: set[str] = field(default_factory=set)
    prepared: set[str] = field(default_factory=set)
    cautions_read: set[str] = field(default_factory=set)
    cautions_told: set[str] = field(default_factory=set)  # told in full to whoever works now
    advised: set[str] = field(default_factory=set)  # rules whose advice was told since the last repair
    moves_told: set[str] = field(default_factory=set)  # bench moves that whoever works now has made
    choice: Choice | None = None
    progress: Progress | None = None  # when a question last had an effect
    asked_for_danger: frozenset[str] = frozenset()  # questions put because they may show one
    dangers_met: dict[str, str] = field(default_factory=dict)
    dangers_told: set[str] = field(default_factory=set)
    dangers_cleared: set[str] = field(default_factory=set)
    to_repair: tuple[str, ...] = ()
    repaired: dict[str, bool | None] = field(default_factory=dict)
    declined: set[str] = field(default_factory=set)
    to_prove: tuple[str, ...] = ()
    round_put: tuple[str, ...] = ()  # looks listed with the proof that is put, itself the first; one word confirms all
    proofs: tuple[tuple[str, str, bool | None], ...] = ()
    searched_for: frozenset[str] = frozenset()  # failed proofs that no complaint fits, and that were looked into
    found: dict[str, str] = field(default_factory=dict)
    announced: frozenset[str] = frozenset()
    outcome: str = ""
    minutes: float = 0.0
    parts_used: tuple[str, ...] = ()
    closing: dict[str, str] = field(default_factory=dict)
    paused: bool = False
    opened: bool = False  # at any time
    opened_at: int = 0  # number of the first answer since the machine was last seen open
    resume_with: str = ""  # the command, where the number alone does not lead back here
    back_to_close: bool = False  # what is proved now is the safety of an opened machine, on the way out
    phase_begins: int = 0  # of the records of the last line, the first that belongs to the phase as it is now
    left_at: Prompt | None = None  # what the job waited for when it was left, while it is asked how the machine stands
    hazards: HazardAccount = field(default_factory=HazardAccount)
    repaired_at: dict[str, int] = field(default_factory=dict)  # fault -> number of the first answer after it
    refused: set[tuple[str, str]] = field(default_factory=set)  # hazard and what was refused, so that it is said once
    seen_again: dict[str, int] = field(default_factory=dict)  # complaint that stood before, raised anew -> likewise
    raised: dict[str, int] = field(default_factory=dict)  # complaint the bench raised -> number of the next answer then
    again: tuple[str, ...] = ()  # questions put a second time
    gone: dict[str, int] = field(default_factory=dict)  # complaint seen to be gone -> the answer that showed it
    workers: tuple[str, ...] = ()  # everybody who worked at this job
    leaving: bool = False  # handed over as soon as the machine is safe
    handed: tuple[Phase, str] | None = None  # handed over, not closed: in which phase, and with what outcome so far
    unsure: bool = False  # how the machine stands was not as recorded: nothing comes before it is safe

    @property
    def is_closed(self) -> bool:
        """Whether somebody closed the job. One that was only handed over waits for whoever takes it on."""
        return self.phase is Phase.DONE and self.handed is None

    @property
    def how_to_resume(self) -> str:
        """The command that goes on with this job."""
        return self.resume_with or f"expert resume {self.number}"

    @property
    def base(self) -> RuleBase:
        return self.knowledge.base

    @property
    def instruments(self) -> frozenset[str]:
        """The instruments at hand: those of the shop but for those that were said to be lacking."""
        return self.shop.instruments - {noted.lacking for noted in self._unable_now("question")}

    def copy(self) -> Job:
        """A job of its own that knows the same: what can be changed in place is copied, whatever fields there are."""
        return replace(self, **{name: copied(getattr(self, name)) for name in FIELDS})

    def answer_to(self, question: str) -> Given | None:
        """The answer that holds for a question."""
        for given in reversed(self.given.values()):
            if given.question == question and given.holds:
                return given
        return None

    @property
    def next_number(self) -> int:
        """The number of the next answer; what could not be answered or done has one too."""
        return len(self.given) + len(self.unable) + 1

    @property
    def cannot(self) -> dict[str, str]:
        """Questions that could not be answered, each with the reason."""
        return {unable.subject: unable.reason for unable in self._unable_now("question")}

    @property
    def impossible(self) -> frozenset[str]:
        """Bench moves that could not be made."""
        return frozenset(unable.subject for unable in self._unable_now("move"))

    def _unable_now(self, kind: UnableKind) -> list[CouldNot]:
        return [unable for unable in self.unable.values() if unable.holds and unable.kind == kind]

    def could_not(self, kind: UnableKind, subject: str, reason: str = "", lacking: str = "") -> CouldNot:
        """Note that a question could not be answered or a move not be made."""
        self.can_again(kind, subject)
        unable = self.unable[self.next_number] = CouldNot(self.next_number, kind, subject, reason, lacking=lacking)
        return unable

    def can_again(self, kind: UnableKind, *subjects: str) -> None:
        """No longer count these as impossible; without subjects: any of the kind."""
        for unable in self._unable_now(kind):
            if unable.subject in subjects or not subjects:
                self.unable[unable.number] = replace(unable, holds=False)

    def answered(self) -> tuple[str, ...]:
        """Questions with an answer that holds, in the order they were answered."""
        return tuple(dict.fromkeys(given.question for given in self.given.values() if given.holds))

    def fault_name(self, fault: str) -> str:
        """The part and its failure in words, the part first, so that lists of suspects read like a parts list."""
        return f"{self.base.parts[self.base.faults[fault].part].name}: {self.base.faults[fault].name}"

    def concerns_machine(self, question: Question) -> bool:
        """Whether a question is one for this machine."""
        features = self.machine.features if self.machine else {}
        return applies(self.base, features, (self.base.circuits[question.circuit].applies, question.applies))

    def mended(self) -> tuple[str, ...]:
        """Faults repaired, unless their proof failed."""
        return tuple(fault for fault, proved in self.repaired.items() if proved is not False)


FIELDS = tuple(one.name for one in fields(Job))


def copied(value: Any) -> Any:
    """A value of its own where a step could change it in place, else the value itself."""
    return value.copy() if isinstance(value, dict | set | list | State | HazardAccount) else value


@dataclass(frozen=True, slots=True)
class Foreseen:
    """What a record says was asked next ("" where it is of a move on the way), and why: it need not be chosen anew."""

    asks: str
    why: Why


@dataclass
class Turn:
    """One step in the making: the job's working copy and the records so far.

    `foreseen`: the question to put where the search puts one, if it can be put. None: the planner chooses.
    `on_the_way`: what the bench is prepared for, where this step chose it. `phase`: the last that was noted.
    """

    job: Job
    records: list[Record] = field(default_factory=list)
    foreseen: Foreseen | None = None
    on_the_way: Why = NO_REASON
    phase: Phase = field(init=False)

    def __post_init__(self) -> None:
        self.phase = self.job.phase

    def note_phase(self) -> None:
        """Where the job has come to another phase: from here on the records belong to it."""
        if self.job.phase is not self.phase:
            self.phase, self.job.phase_begins = self.job.phase, len(self.records)

    def add(self, *records: Record) -> None:
        self.records.extend(records)

    def tell(self, *sentences: str) -> None:
        """Sentences for the technician, each a record of its own."""
        self.records.extend(Told(sentence) for sentence in sentences)
