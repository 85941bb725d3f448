"""What a saved trace tells of its job: who came with what, what was answered when, and what came of it."""

from __future__ import annotations

from dataclasses import dataclass, field

from expert.trace.reading import Trace
from expert.trace.records import (
    Answered,
    CannotTell,
    Closed,
    Found,
    Moved,
    Opened,
    PromptPut,
    Record,
    Repaired,
    SearchEnded,
    Stopped,
    TakenBack,
    TakenIn,
)


@dataclass(slots=True)
class Told:
    """The job as its trace tells it. `answers`: before any repair; `after`: by repaired fault, what was said then."""

    number: str = ""
    taken: TakenIn | None = None
    closed: Closed | None = None
    arrives: str = ""
    machine_file: str = ""
    rules_digest: str = ""
    system: str = "metric"
    answers: dict[str, str] = field(default_factory=dict)
    after: dict[str, dict[str, str]] = field(default_factory=dict)
    asks: list[str] = field(default_factory=list)
    found: list[str] = field(default_factory=list)
    in_order: bool = True
    ended: str = ""
    listed: tuple[str, ...] = ()


def told_by(trace: Trace) -> Told:
    """Read a job off its records. What was taken back does not count."""
    told = Told()
    repaired = ""
    for record in trace.records:
        match record:
            case Repaired(fault=fault):
                repaired = fault
                told.after.setdefault(fault, {})
            case Answered(question=question, text=text):
                (told.after[repaired] if repaired else told.answers)[question] = text
            case CannotTell(question=question):
                # Where a reading was to be taken once more and was not, the first one stands.
                (told.after[repaired] if repaired else told.answers).setdefault(question, "can't tell")
            case TakenBack(question=question):
                for answers in (told.answers, *told.after.values()):
                    answers.pop(question, None)
                # What was asked and found on an answer that was wrong is no part of the case.
                told.found.clear()
                told.in_order = False
            case PromptPut(prompt="question", question=question):
                # Of the search alone: rounds of what is proved at the end have an order of their own.
                told.asks += [question] if not repaired else []
            case _:
                _note(told, record)
    return told


def _note(told: Told, record: Record) -> None:
    match record:
        case Opened():
            told.number, told.machine_file = record.job, record.machine_file
            told.rules_digest, told.system = record.rules_digest, record.system
        case TakenIn():
            told.taken = record
        case Closed():
            told.closed = record
        case Moved(move=move) if move.startswith("arrives "):
            told.arrives = move.removeprefix("arrives ")
        case Found(fault=fault) if fault not in told.found:
            told.found.append(fault)
        case Stopped():
            told.ended = "stopped"
        case SearchEnded(outcome=outcome, listed=listed):
            told.ended, told.listed = outcome, listed
