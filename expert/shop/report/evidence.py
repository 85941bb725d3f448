"""What the records of a job say about each fault: its standing, whether it was cleared, and the answers behind it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from expert.shop.audit_reasons import ABSENT, PRESENT, Ledger, Reason, given
from expert.shop.sums.gather import OWN_JUDGEMENT
from expert.trace.reading import Trace
from expert.trace.records import Found, Repaired, SearchEnded


@dataclass(frozen=True, slots=True)
class Evidence:
    """`standings`: of faults found, left or listed; `cleared`: faults ruled out; `numbers`: of the answers behind each.

    `said`: by number, question and answer in one line.
    """

    standings: Mapping[str, str]
    cleared: frozenset[str]
    numbers: Mapping[str, tuple[int, ...]]
    said: Mapping[int, str]

    def of(self, fault: str) -> list[str]:
        """The answers that a fault rests on, each as a line."""
        return [f"{number}. {self.said[number]}" for number in self.numbers.get(fault, ()) if number in self.said]


def evidence_of(trace: Trace) -> Evidence:
    """The evidence in a trace, as it stood at the end."""
    ledger = Ledger()
    standings: dict[str, str] = {}
    for record in trace.records:
        ledger.tell(record)
        match record:
            case Found(fault=fault, standing=standing):
                standings[fault] = standing
            case Repaired(fault=fault):
                standings.setdefault(fault, OWN_JUDGEMENT)
            case SearchEnded(listed=listed):
                standings |= {fault: "narrowed" for fault in listed if fault not in standings}
    settled = {fact: known for fact, known in ledger.narrowed.items() if known.because}
    numbers = {
        fact: tuple(sorted({n for rule in known.because for n in _answers(ledger.rule(rule))}))
        for fact, known in settled.items()
        if known.after in (PRESENT, ABSENT)
    }
    # A fault that was mended is absent by now; the answers that showed it were noted when it was found.
    numbers |= _when_found(trace)
    cleared = frozenset(fact for fact, known in settled.items() if known.after == ABSENT and fact not in standings)
    said = {
        number: f"{given(answered)}: {ledger.questions.get(answered.question, answered.question)}"
        for number, answered in ledger.answers.items()
    }
    return Evidence(standings, cleared, numbers, said)


def _when_found(trace: Trace) -> dict[str, tuple[int, ...]]:
    ledger = Ledger()
    numbers: dict[str, tuple[int, ...]] = {}
    for record in trace.records:
        ledger.tell(record)
        if isinstance(record, Found):
            known = ledger.narrowed.get(record.fault)
            if known is not None and known.after == PRESENT:
                numbers[record.fault] = tuple(
                    sorted({n for rule in known.because for n in _answers(ledger.rule(rule))})
                )
    return numbers


def _answers(reason: Reason) -> set[int]:
    if reason.kind == "answer":
        return {int(reason.id)}
    return {number for part in reason.because for number in _answers(part)}
