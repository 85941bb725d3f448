"""The intake of a job, read from the lines typed: for a trace of before it was recorded, or that ends within it."""

from __future__ import annotations

import re
from collections.abc import Iterator

from expert.job.answers.reading import YES
from expert.trace.reading import Trace
from expert.trace.records import Moved, PromptPut, Record, Said, TakenIn, Told

COMPLAINT = "Complaint: "


class IntakeFromLines:
    """What the lines of the intake say, as far as they come. `qualified` None: not told yet.

    A line counts when it led to another prompt, or to the same one again.
    """

    def __init__(self, trace: Trace) -> None:
        self.technician = self.machine = ""
        self.plate: tuple[str, ...] = ()
        self.complaints: tuple[str, ...] = ()
        self.qualified: bool | None = None
        for said, asked, replies in _steps(trace):
            self._take(said, asked, replies)

    def _take(self, said: str, asked: PromptPut, replies: tuple[Record, ...]) -> None:
        reported = tuple(
            record.text.removeprefix(COMPLAINT).removesuffix(".")
            for record in replies
            if asked.question == "complaints" and isinstance(record, Told) and record.text.startswith(COMPLAINT)
        )
        self.complaints = tuple(dict.fromkeys((*self.complaints, *reported)))
        put_next = next((record.question for record in replies if isinstance(record, PromptPut)), "")
        if not put_next and not any(isinstance(record, Moved) for record in replies):
            return
        match asked.question:
            case "technician":
                self.technician = said.strip()
            case "machine":
                self.machine = _listed(said, asked.text)
            case "plate" if put_next == "plate":
                self.plate = (*self.plate, said.strip())
            case "qualified":
                self.qualified = said.strip().casefold() in YES


def intake_of(trace: Trace) -> TakenIn | IntakeFromLines:
    """What is known of the intake: its record, as corrected last, or what the lines say."""
    recorded = [record for record in trace.records if isinstance(record, TakenIn)]
    return recorded[-1] if recorded else IntakeFromLines(trace)


def _steps(trace: Trace) -> Iterator[tuple[str, PromptPut, tuple[Record, ...]]]:
    """Each line typed at a prompt of the intake, the prompt, and what the line led to."""
    asked: PromptPut | None = None
    said: str | None = None
    replies: list[Record] = []
    for record in (*trace.records, Said("")):
        if isinstance(record, Said):
            if said is not None and asked is not None and asked.prompt == "intake":
                yield said, asked, tuple(replies)
            asked = next((r for r in reversed(replies) if isinstance(r, PromptPut)), asked)
            said, replies = record.text, []
        else:
            replies.append(record)


def _listed(said: str, text: str) -> str:
    """The entry of a numbered list that a number means; the words themselves when they are no number of it."""
    entries = dict(re.findall(r"^\s+(\d+)  (.+)$", text, re.MULTILINE))
    return str(entries.get(said.strip(), said.strip()))
