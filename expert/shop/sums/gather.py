"""From the records of a trace, read fast, to what it adds to the sums."""

from __future__ import annotations

import re
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from expert.shop.sums.facts import DAMAGED, REAL, JobFacts, QuestionFacts
from expert.trace.skimming import Skim, Skimmed, bytes_of, skim_bytes

# Each with what its line must hold to be looked at; of the prompts only those of the intake are.
KINDS: Mapping[str, bytes] = {
    "opened": b"",
    "put": b'"prompt":"intake"',
    "said": b"",
    "told": b"Complaint: ",
    "taken_in": b"",
    "worker": b"",
    "answered": b"",
    "cannot_tell": b"",
    "taken_back": b"",
    "conflict": b"",
    "fired": b"",
    "unfired": b"",
    "found": b"",
    "moved": b"",
    "stopped": b"",
    "repaired": b"",
    "proved": b"",
    "paused": b"",
    "resumed": b"",
    "handed_over": b"",
    "closed": b"",
}
KINDS_TAKEN_IN = {kind: needs for kind, needs in KINDS.items() if kind not in ("put", "said", "told")}
LIVE = {"mains": "on", "covers": "off"}
COMPLAINT = "Complaint: "
OWN_JUDGEMENT = "own_judgement"


def facts_of(path: Path) -> JobFacts:
    """What the trace at `path` adds. A damaged trace says only that it is. Raises TraceNotRead, TraceTooLarge."""
    content = bytes_of(path)
    # What the intake settled is one record by now; of its lines only older traces have to be told.
    return gather(
        skim_bytes(
            content,
            KINDS if b',"kind":"said",' in content and b',"kind":"taken_in",' not in content else KINDS_TAKEN_IN,
        )
    )


def gather(skimmed: Skim) -> JobFacts:
    """What these records add up to."""
    if skimmed.damage:
        return JobFacts(purpose=DAMAGED, opened=skimmed.opened, last=skimmed.last)
    gathering = _Gathering(JobFacts(opened=skimmed.opened, last=skimmed.last))
    for record in skimmed.records:
        gathering.take(record)
    return gathering.facts


class _Gathering:
    """The facts so far, and what is needed to understand the next record."""

    def __init__(self, facts: JobFacts) -> None:
        self.facts = facts
        self.numbered: dict[int, str] = {}
        self.is_live = False
        self.state: dict[str, str] = {}
        self.at_intake = True
        self.intake = ""
        self.listed: dict[str, str] = {}
        self.is_mended = False

    def take(self, record: Skimmed) -> None:
        taker = getattr(self, f"_{record.kind}", None)
        if taker is not None:
            taker(record.data)

    def _opened(self, data: dict[str, Any]) -> None:
        self.facts.job = data["job"]
        self.facts.purpose = data.get("purpose") or REAL

    # Older traces have the intake as lines typed at prompts.

    def _put(self, data: dict[str, Any]) -> None:
        self.intake = data["question"]
        if self.intake == "machine":
            self.listed = dict(re.findall(r"^\s+(\d+)  (.+)$", data["text"], re.MULTILINE))

    def _said(self, data: dict[str, Any]) -> None:
        if not self.at_intake:
            return
        text = data["text"].strip()
        if self.intake == "technician":
            self.facts.technician = text[:60]
        elif self.intake == "machine":
            self.facts.machine = self.listed.get(text, text)

    def _told(self, data: dict[str, Any]) -> None:
        if self.at_intake and data["text"].startswith(COMPLAINT):
            _once(self.facts.complaints, data["text"].removeprefix(COMPLAINT).removesuffix("."))

    def _taken_in(self, data: dict[str, Any]) -> None:
        self.at_intake = False
        self.facts.technician = data["technician"]
        self.facts.machine = data["machine"]
        self.facts.machine_key = data.get("serial_key", "")
        self.facts.complaints = list(data["complaints"])

    def _worker(self, data: dict[str, Any]) -> None:
        # Whoever takes on what was handed over; live answers count for whoever works then.
        self.facts.status = "open" if self.facts.status == "handed_over" else self.facts.status
        self.facts.technician = data["name"]

    # The search.

    def _question(self, name: str) -> QuestionFacts:
        return self.facts.questions.setdefault(name, QuestionFacts())

    def _answered(self, data: dict[str, Any]) -> None:
        self.is_mended = False
        self.numbered[data["number"]] = data["question"]
        self._question(data["question"]).answered += 1
        if self.is_live:
            self.facts.live[self.facts.technician] = self.facts.live.get(self.facts.technician, 0) + 1

    def _cannot_tell(self, data: dict[str, Any]) -> None:
        self._question(data["question"]).cannot += 1

    def _taken_back(self, data: dict[str, Any]) -> None:
        self.is_mended = False
        if data["number"] in self.numbered:
            self._question(data["question"]).taken_back += 1
        self.facts.faults = {k: v for k, v in self.facts.faults.items() if k in self.facts.repaired}

    def _conflict(self, data: dict[str, Any]) -> None:
        for number in data["answers"]:
            if number in self.numbered:
                self._question(self.numbered[number]).contradicted += 1

    def _fired(self, data: dict[str, Any]) -> None:
        _once(self.facts.rules, data["rule"])

    def _unfired(self, data: dict[str, Any]) -> None:
        # What a repair makes untrue had been true all the same: the rule led to it, and is judged by how it ended.
        if not self.is_mended and data["rule"] in self.facts.rules:
            self.facts.rules.remove(data["rule"])

    def _found(self, data: dict[str, Any]) -> None:
        self.facts.faults[data["fault"]] = data["standing"]

    def _moved(self, data: dict[str, Any]) -> None:
        self.at_intake = False
        state = data.get("state", {})
        # Of the state only what changed may be there.
        self.state |= {dimension: state[dimension] for dimension in LIVE if dimension in state}
        self.is_live = self.state == LIVE

    def _stopped(self, data: dict[str, Any]) -> None:
        _once(self.facts.stops, data["rule"])

    def _repaired(self, data: dict[str, Any]) -> None:
        self.is_mended = True
        self.facts.attempts += 1
        _once(self.facts.repaired, data["fault"])
        self.facts.faults.setdefault(data["fault"], OWN_JUDGEMENT)

    def _proved(self, data: dict[str, Any]) -> None:
        self.facts.failed_proofs += data["passed"] is False

    # How it stands.

    def _paused(self, data: dict[str, Any]) -> None:
        self.facts.status = "paused"

    def _resumed(self, data: dict[str, Any]) -> None:
        self.facts.status = "open" if self.facts.status == "paused" else self.facts.status

    def _handed_over(self, data: dict[str, Any]) -> None:
        self.facts.status = "handed_over"

    def _closed(self, data: dict[str, Any]) -> None:
        self.facts.status = "closed"
        self.facts.outcome = data["outcome"]
        self.facts.minutes = data["minutes"]
        self.facts.parts = list(data["parts"])
        if data.get("currency"):
            self.facts.currency = data["currency"]
            self.facts.work_cost, self.facts.parts_cost = data.get("work_cost", 0.0), data.get("parts_cost", 0.0)


def _once(listed: list[str], name: str) -> None:
    if name not in listed:
        listed.append(name)
