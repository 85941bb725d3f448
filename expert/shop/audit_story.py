"""From the records of a trace to its head and its events, in order. Nothing but the trace is looked at."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field, replace

from expert.shop.audit_happened import tells_by_itself
from expert.shop.audit_head import Head, head_of
from expert.shop.audit_reasons import Ledger, Reason
from expert.trace.reading import Trace
from expert.trace.records import (
    Answered,
    CannotTell,
    Fired,
    Found,
    Narrowed,
    PromptKind,
    PromptPut,
    Record,
    Repaired,
    Said,
    SearchEnded,
    TakenBack,
    Told,
    Unfired,
)
from expert.trace.why import Why


@dataclass(frozen=True, slots=True)
class Concluded:
    """What the rules made of one line: rules that fired, with reasons, rules that no longer hold, facts changed."""

    fired: tuple[Reason, ...] = ()
    unfired: tuple[str, ...] = ()
    narrowed: tuple[Narrowed, ...] = ()

    def __bool__(self) -> bool:
        return bool(self.fired or self.unfired or self.narrowed)


@dataclass(frozen=True, slots=True)
class Asked:
    """A question that was put, with its answer. `answered` and `cannot` None: no answer was given.

    `line`: where it was put. `understood`: how the dialogue told that it understood a reading.
    """

    line: int
    prompt: PromptKind
    question: str
    text: str
    why: Why
    answered: Answered | None = None
    cannot: CannotTell | None = None
    understood: str = ""
    concluded: Concluded = field(default_factory=Concluded)


@dataclass(frozen=True, slots=True)
class FaultFound:
    """A fault that was found or left, with the tree of its reasons."""

    line: int
    found: Found
    tree: Reason


@dataclass(frozen=True, slots=True)
class Happened:
    """Anything else that belongs to the story. `told`: sentences that the end of a search came with."""

    line: int
    record: Record
    told: tuple[str, ...] = ()
    concluded: Concluded = field(default_factory=Concluded)


Event = Asked | FaultFound | Happened


@dataclass(frozen=True, slots=True)
class Story:
    """The head of the job, its events in order, and the questions by id as they were put."""

    head: Head
    events: tuple[Event, ...]
    questions: dict[str, str]


def story_of(trace: Trace) -> Story:
    """The story that a trace tells. Raises TraceDamaged when it does not begin with the opening of a job."""
    head = head_of(trace)
    ledger = Ledger()
    events: list[Event] = []
    waiting: Asked | None = None
    for step in _steps(trace):
        told, waiting = _events_of(step, ledger, waiting)
        events += told
    if waiting is not None:
        events.append(waiting)
    return Story(head, tuple(events), ledger.questions)


def _steps(trace: Trace) -> Iterator[list[tuple[int, Record]]]:
    """The records with their line numbers, a new list beginning with each line that was typed."""
    step: list[tuple[int, Record]] = []
    for recorded in trace.recorded:
        if isinstance(recorded.record, Said):
            yield step
            step = []
        step.append((recorded.line, recorded.record))
    yield step


def _events_of(
    step: list[tuple[int, Record]], ledger: Ledger, waiting: Asked | None
) -> tuple[list[Event], Asked | None]:
    """The events of one step, and the question that waits for its answer after it."""
    for _, record in step:
        ledger.tell(record)
    concluded = _concluded(step, ledger)
    events: list[Event] = []
    for position, (line, record) in enumerate(step):
        match record:
            case PromptPut(prompt="question" | "proof"):
                if waiting is not None and waiting.question != record.question:
                    events.append(waiting)
                waiting = Asked(line, record.prompt, record.question, record.text, record.why)
            case Answered():
                asked = waiting or _in_a_round(line, record.question, ledger)
                understood = _told_after(step, position)[:1] if record.instrument else ()
                events.append(replace(asked, answered=record, understood=" ".join(understood), concluded=concluded))
                concluded, waiting = Concluded(), None
            case CannotTell():
                asked = waiting or _in_a_round(line, record.question, ledger)
                events.append(replace(asked, cannot=record, concluded=concluded))
                concluded, waiting = Concluded(), None
            case Found():
                events.append(FaultFound(line, record, ledger.tree(record.fault, record.standing)))
            case _ if tells_by_itself(record):
                told = _told_after(step, position) if isinstance(record, SearchEnded) else ()
                takes = isinstance(record, TakenBack | Repaired)
                events.append(Happened(line, record, told, concluded if takes else Concluded()))
                concluded = Concluded() if takes else concluded
    if concluded:
        # No answer of this step: an intake line, or an answer set aside to be given anew.
        events.insert(0, Happened(step[0][0], step[0][1], (), concluded))
    return events, waiting


def _in_a_round(line: int, question: str, ledger: Ledger) -> Asked:
    """A test that was answered with others in one round, and not put by itself: as it was put before, if it was."""
    return Asked(line, "proof", question, ledger.questions.get(question, question.replace("_", " ")), Why())


def _concluded(step: list[tuple[int, Record]], ledger: Ledger) -> Concluded:
    records = [record for _, record in step]
    return Concluded(
        tuple(ledger.rule(record.rule) for record in records if isinstance(record, Fired)),
        tuple(record.rule for record in records if isinstance(record, Unfired)),
        tuple(record for record in records if isinstance(record, Narrowed) and not _of_the_machine(record, records)),
    )


def _of_the_machine(record: Narrowed, step: list[Record]) -> bool:
    """Faults of parts that this machine does not have: settled at intake, by no rule."""
    return not record.because and any(isinstance(other, PromptPut) and other.prompt == "intake" for other in step)


def _told_after(step: list[tuple[int, Record]], position: int) -> tuple[str, ...]:
    """The sentences told directly after a record."""
    told = []
    for _, record in step[position + 1 :]:
        if not isinstance(record, Told):
            break
        told.append(record.text)
    return tuple(told)
