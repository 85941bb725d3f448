"""Who, what and how it ended: the head of a job, from the records of its intake and its close."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from expert.desk.replay import opened_of
from expert.job.answers.reading import YES
from expert.trace.lines import TIME_FORMAT
from expert.trace.reading import Trace
from expert.trace.records import Closed, Moved, Paused, Put, Record, Said, SearchEnded, Stopped, Told

COMPLAINT = "Complaint: "


@dataclass(frozen=True, slots=True)
class Head:
    """The job in short. A text is '' where the trace does not come so far; `ending` is then 'open' or 'paused'.

    `machine`: as it was listed to the technician. `plate`: values typed at the plate prompt that were taken.
    `search`: how the last search ended.
    """

    job: str
    program: str
    rules_digest: str
    instruments: tuple[str, ...]
    opened: str
    last: str
    sealed: bool
    technician: str
    machine: str
    plate: tuple[str, ...]
    complaints: tuple[str, ...]
    qualified: bool | None
    search: str
    ending: str
    minutes: float | None
    parts: tuple[str, ...]
    note: str
    stops: int


def head_of(trace: Trace) -> Head:
    """The head of a job. Raises TraceDamaged when the trace does not begin with the opening of a job."""
    opened = opened_of(trace)
    intake = _Intake()
    for said, asked, replies in _intake_steps(trace):
        intake.take(said, asked, replies)
    records = trace.records
    closed = next((r for r in reversed(records) if isinstance(r, Closed)), None)
    search = next((r.outcome for r in reversed(records) if isinstance(r, SearchEnded)), "")
    return Head(
        job=opened.job,
        program=opened.program,
        rules_digest=opened.rules_digest,
        instruments=opened.instruments,
        opened=trace.lines[0].at.strftime(TIME_FORMAT),
        last=trace.lines[-1].at.strftime(TIME_FORMAT),
        sealed=trace.is_sealed,
        technician=intake.technician,
        machine=intake.machine,
        plate=tuple(intake.plate),
        complaints=tuple(intake.complaints),
        qualified=intake.qualified,
        search=search,
        ending=closed.outcome if closed else "paused" if records and isinstance(records[-1], Paused) else "open",
        minutes=closed.minutes if closed else None,
        parts=closed.parts if closed else (),
        note=closed.note if closed else "",
        stops=sum(isinstance(record, Stopped) for record in records),
    )


def _intake_steps(trace: Trace) -> Iterator[tuple[str, Put, tuple[Record, ...]]]:
    """Each line typed at a prompt of the intake, the prompt, and what the line led to."""
    asked: Put | None = None
    said: str | None = None
    replies: list[Record] = []
    for record in (*trace.records, Said("")):
        if isinstance(record, Said):
            if said is not None and asked is not None and asked.prompt == "intake":
                yield said, asked, tuple(replies)
            asked = next((r for r in reversed(replies) if isinstance(r, Put)), asked)
            said, replies = record.text, []
        else:
            replies.append(record)


class _Intake:
    """What the lines of the intake say. A line counts when it led to another prompt, or to the same one again."""

    def __init__(self) -> None:
        self.technician = self.machine = ""
        self.plate: list[str] = []
        self.complaints: dict[str, None] = {}
        self.qualified: bool | None = None

    def take(self, said: str, asked: Put, replies: tuple[Record, ...]) -> None:
        self.complaints |= dict.fromkeys(
            record.text.removeprefix(COMPLAINT).removesuffix(".")
            for record in replies
            if asked.question == "complaints" and isinstance(record, Told) and record.text.startswith(COMPLAINT)
        )
        put_next = next((record.question for record in replies if isinstance(record, Put)), "")
        if not put_next and not any(isinstance(record, Moved) for record in replies):
            return
        match asked.question:
            case "technician":
                self.technician = said.strip()
            case "machine":
                self.machine = _listed(said, asked.text)
            case "plate" if put_next == "plate":
                self.plate.append(said.strip())
            case "qualified":
                self.qualified = said.strip().casefold() in YES


def _listed(said: str, text: str) -> str:
    """The entry of a numbered list that a number means; the words themselves when they are no number of it."""
    entries = dict(re.findall(r"^\s+(\d+)  (.+)$", text, re.MULTILINE))
    return str(entries.get(said.strip(), said.strip()))
