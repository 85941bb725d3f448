"""A saved job as a worked case: the answers that were typed, and what came of them."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field

from expert.language.keys.words import ENDS
from expert.language.model import RuleBase
from expert.language.yaml.writing import Data, yaml_text
from expert.trace.reading import Trace
from expert.trace.records import (
    Answered,
    CannotTell,
    Closed,
    Found,
    Moved,
    Opened,
    Put,
    Record,
    Repaired,
    SearchEnded,
    Stopped,
    TakenBack,
    TakenIn,
)


class NoCase(Exception):
    """The job cannot be a case; the text says why."""


@dataclass(slots=True)
class _Told:
    """What a trace tells that a case needs."""

    number: str = ""
    taken: TakenIn | None = None
    closed: Closed | None = None
    arrives: str = ""
    machine_file: str = ""
    answers: dict[str, str] = field(default_factory=dict)
    after: dict[str, dict[str, str]] = field(default_factory=dict)
    asks: list[str] = field(default_factory=list)
    found: list[str] = field(default_factory=list)
    in_order: bool = True
    ended: str = ""
    listed: tuple[str, ...] = ()


def case_from(trace: Trace, base: RuleBase) -> str:
    """The text of a cases file with this job as its one case. Raises NoCase.

    Its `says` and `source` are for the senior to write: a job shows what was done, not that it was right.
    """
    told = _told(trace)
    if told.taken is None or told.closed is None:
        raise NoCase(f"{trace.path}: the job was not carried through to its close: a case needs what came of it")
    if told.taken.machine_key not in base.machines:
        raise NoCase(f"{trace.path}: these rules have no machine type '{told.taken.machine_key}'")
    unknown = sorted({*told.answers, *told.asks} - base.questions.keys())
    if unknown:
        raise NoCase(f"{trace.path}: these rules have no question {', '.join(unknown)}")
    return yaml_text({"cases": {_id_of(told.number): _case(told, told.taken, told.closed)}})


def _told(trace: Trace) -> _Told:
    told = _Told()
    repaired = ""
    for record in trace.records:
        match record:
            case Repaired(fault=fault):
                repaired = fault
                told.after.setdefault(fault, {})
            case Answered(question=question, text=text):
                (told.after[repaired] if repaired else told.answers)[question] = text
            case CannotTell(question=question):
                (told.after[repaired] if repaired else told.answers)[question] = "can't tell"
            case TakenBack(question=question):
                for answers in (told.answers, *told.after.values()):
                    answers.pop(question, None)
                # What was asked and found on an answer that was wrong is no part of the case.
                told.found.clear()
                told.in_order = False
            case Put(question=question) if record.is_test:
                told.asks += [question] if not repaired else []
            case _:
                _note(told, record)
    return told


def _note(told: _Told, record: Record) -> None:
    match record:
        case Opened(job=number, machine_file=machine_file):
            told.number, told.machine_file = number, machine_file
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


def _case(told: _Told, taken: TakenIn, closed: Closed) -> Mapping[str, Data]:
    case: dict[str, Data] = {
        "says": f"(say what this case shows) Job {told.number}.",
        "source": f"(say where its truth comes from) Saved job {told.number}",
        "machine": taken.machine_key,
    }
    plate = dict(entry.partition(" ")[::2] for entry in taken.plate)
    case |= {"plate": plate} if plate else {}
    case |= {"complaints": list(taken.complaint_keys), "arrives": told.arrives}
    case |= {"qualified_for_live_work": "yes"} if taken.qualified else {}
    case |= {"answers": told.answers}
    case |= {"after": told.after} if told.after else {}
    outcome = next((word for word in (told.ended, closed.outcome) if word in ENDS), "unresolved")
    faults = told.found if outcome != "narrowed" else list(dict.fromkeys((*told.found, *told.listed)))
    case["expect"] = {"outcome": outcome, "faults": faults} | ({"asks": _once(told.asks)} if told.in_order else {})
    return case


def _once(asked: list[str]) -> list[Data]:
    return list(dict.fromkeys(asked))


def _id_of(number: str) -> str:
    """An id made from a job number.

    >>> _id_of("2026-0007.b")
    'job_2026_0007_b'
    """
    return "job_" + re.sub(r"[^a-z0-9]+", "_", number.lower()).strip("_")
