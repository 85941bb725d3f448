"""On what a fault rests, down to the numbered answers, from the records alone.

`Ledger` follows the records of a job in their order and holds what is in force at that moment: answers, rules that have
fired, facts as last narrowed. Nothing is worked out anew; the rule files are not needed.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import Literal

from expert.shop.sentences import audit as say
from expert.trace.records import Answered, CannotMove, Fired, Narrowed, PromptPut, Record, Unfired

PRESENT, ABSENT = ("present",), ("absent",)


@dataclass(frozen=True, slots=True)
class Reason:
    """One node of a tree of reasons: what holds (`says`), and what it rests on.

    `kind`: a fault, a fault that was cleared, a rule, an answer, or another source (machine data, complaint, repair).
    `id`: the id of fault or rule, the number of the answer, the label of the source.
    """

    kind: Literal["fault", "cleared", "rule", "answer", "source"]
    id: str
    says: str
    because: tuple[Reason, ...] = ()


@dataclass
class Ledger:
    """What is in force after the records told so far."""

    questions: dict[str, str] = field(default_factory=dict)
    suspected: dict[str, None] = field(default_factory=dict)
    answers: dict[int, Answered] = field(default_factory=dict)
    fired: dict[str, Fired] = field(default_factory=dict)
    narrowed: dict[str, Narrowed] = field(default_factory=dict)

    def tell(self, record: Record) -> None:
        """Take the next record."""
        match record:
            case PromptPut(prompt="question" | "proof", question=question, text=text, why=why):
                self.questions[question] = text
                self.suspected |= dict.fromkeys(suspicion.fault for suspicion in why.suspects)
            case CannotMove(move=move, text=text):
                self.questions[move] = text
            case Answered(number=number):
                self.answers[number] = record
            case Fired(rule=rule):
                self.fired[rule] = record
            case Unfired(rule=rule):
                self.fired.pop(rule, None)
            case Narrowed(fact=fact):
                self.narrowed[fact] = record

    def tree(self, fault: str, standing: str) -> Reason:
        """Why a fault counts as found, or as left when all else was cleared."""
        known = self.narrowed.get(fault)
        if known is not None and known.after == PRESENT:
            return Reason("fault", fault, "present", self._rules(known.because))
        if standing == "found":
            return Reason("fault", fault, standing)
        return Reason("fault", fault, say.BY_ELIMINATION, self._cleared(fault))

    def rule(self, rule: str) -> Reason:
        """Why a rule holds: the answers and other sources behind it."""
        fired = self.fired.get(rule)
        if fired is None:
            return Reason("rule", rule, "")
        return Reason("rule", rule, fired.text, tuple(self._source(source) for source in fired.because))

    def _rules(self, rules: Iterable[str]) -> tuple[Reason, ...]:
        return tuple(self.rule(rule) for rule in rules)

    def _cleared(self, but: str) -> tuple[Reason, ...]:
        """Suspects that rules have cleared; when none was ever weighed, every fault that rules have cleared."""
        cleared = [n for n in self.narrowed.values() if n.after == ABSENT and n.because and n.fact != but]
        weighed = [n for n in cleared if n.fact in self.suspected]
        return tuple(Reason("cleared", n.fact, "cleared", self._rules(n.because)) for n in weighed or cleared)

    def _source(self, source: str) -> Reason:
        word, _, number = source.partition(" ")
        if word == "answer" and number.isdecimal() and int(number) in self.answers:
            answered = self.answers[int(number)]
            return Reason(
                "answer", number, f"{self.questions.get(answered.question, answered.question)} {given(answered)}"
            )
        return Reason("source", source, source)


def given(answered: Answered) -> str:
    """An answer as typed, with what it counts as where that is not the same.

    >>> given(Answered(3, "coil", "37.8 ohm", ("sound",), ("open", "sound")))
    '37.8 ohm (sound)'
    """
    counts_as = " or ".join(answered.outcomes)
    return answered.text if answered.text.casefold() == counts_as else f"{answered.text} ({counts_as})"
