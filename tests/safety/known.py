"""What the records of a job say that hazards may rest on, read for the worse: what makes them stand, what ends them."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass, field

from expert.language.model import ALWAYS, All, Any, Condition, Hazard, Is, Not, Release, RuleBase
from expert.trace.records import (
    Answered,
    ComplaintNow,
    Fired,
    Narrowed,
    NoLongerHolds,
    Record,
    Repaired,
    TakenBack,
    TakenIn,
    Unfired,
)
from tests.safety.account import stands
from tests.safety.conditions import suspects_of

Cause = tuple[str, str, int]
"""Its kind (answer, complaint, fault, suspected, start), what it is about, and the number of the answer or 0.

Of a complaint: how often the bench has raised it.
"""

FROM_THE_START: Cause = ("start", "", 0)
INSIDE = ("repair", "inside")


@dataclass(frozen=True, slots=True)
class Answer:
    """An answer that holds. `place`: the running number of its record."""

    number: int
    outcomes: frozenset[str]
    place: int


@dataclass(slots=True)
class Open:
    """A hazard that is open: since which answer and which record, and everything that has caused it since."""

    number: int
    place: int
    causes: set[Cause]


@dataclass(slots=True)
class Known:
    """What the records say that hazards may rest on."""

    base: RuleBase
    place: int = 0
    number: int = 0
    answers: dict[str, Answer] = field(default_factory=dict)
    reported: set[str] = field(default_factory=set)
    seen: set[str] = field(default_factory=set)
    gone: set[str] = field(default_factory=set)
    raised: Counter[str] = field(default_factory=Counter)
    narrowed: dict[str, frozenset[str]] = field(default_factory=dict)
    fired: set[str] = field(default_factory=set)
    repaired: dict[str, int] = field(default_factory=dict)
    inside: set[Cause] = field(default_factory=set)
    taken_back: dict[int, str] = field(default_factory=dict)
    features: Mapping[str, str] = field(default_factory=dict)

    def take(self, record: Record) -> None:
        """Note a record."""
        self.place += 1
        match record:
            case Answered(number=number, question=question, outcomes=outcomes):
                self.answers[question] = Answer(number, frozenset(outcomes), self.place)
                self.number = max(self.number, number)
            case TakenBack(number=number, question=question):
                self.taken_back[number] = question
                self._forget(question, number)
            case NoLongerHolds(number=number, question=question):
                self._forget(question, number)
            case Narrowed(fact=fact, after=after):
                self.narrowed[fact] = frozenset(after)
            case Fired(rule=rule):
                self.fired.add(rule)
            case Unfired(rule=rule):
                self.fired.discard(rule)
            case Repaired(fault=fault):
                self.repaired[fault] = self.place
                if stands(self.base.faults[fault].repair.bench, self.base.bench.opened):
                    self.inside.add((*INSIDE, self.place))
            case TakenIn(complaint_keys=complaints):
                self.reported = set(complaints)
            case ComplaintNow(complaint=complaint, standing="raised"):
                self.seen.add(complaint)
                self.gone.discard(complaint)
                self.raised[complaint] += 1
            case ComplaintNow(complaint=complaint, standing="withdrawn"):
                self.seen.discard(complaint)
            case ComplaintNow(complaint=complaint):
                self.gone.add(complaint)

    def _forget(self, question: str, number: int) -> None:
        if question in self.answers and self.answers[question].number == number:
            del self.answers[question]

    # ------------------------------------------------------------ conditions, read for the worse

    def causes(self, hazard: Hazard) -> set[Cause]:
        """What makes the hazard hold now; empty when nothing does."""
        if hazard.holds == ALWAYS and not hazard.suspected and not hazard.after_repair:
            return {FROM_THE_START}
        if hazard.after_repair:
            concerned = hazard.holds == ALWAYS or self._holding(hazard.holds, True) is not None
            return set(self.inside) if concerned else set()
        found = self._holding(hazard.holds, True) if hazard.holds != ALWAYS else None
        suspected = {("suspected", fault, 0) for fault in hazard.suspected if self._is_suspected(fault)}
        return (found or set()) | suspected

    def _holding(self, condition: Condition, wanted: bool) -> set[Cause] | None:
        """The causes that make the condition hold, or not hold; None when it is not so."""
        match condition:
            case Not(part=part):
                return self._holding(part, not wanted)
            case Is(fact=fact, outcomes=outcomes):
                return self._fact(fact, frozenset(outcomes), wanted)
            case All(parts=parts) | Any(parts=parts):
                each = [self._holding(part, wanted) for part in parts]
                all_wanted = isinstance(condition, All) == wanted
                if (None in each) if all_wanted else all(causes is None for causes in each):
                    return None
                return set().union(*(causes for causes in each if causes is not None))

    def _fact(self, fact: str, outcomes: frozenset[str], wanted: bool) -> set[Cause] | None:
        if fact.startswith("complaint."):
            complaint = fact.removeprefix("complaint.")
            reported = "yes" if complaint in (self.reported | self.seen) - self.gone else "no"
            # Raised anew it is another cause: what was shown before showed nothing of this one.
            return {("complaint", fact, self.raised[complaint])} if (reported in outcomes) == wanted else None
        if fact.startswith("machine."):
            value = self.features.get(fact.removeprefix("machine."), "")
            return set() if (value in outcomes) == wanted else None
        if fact in self.base.questions:
            answer = self.answers.get(fact)
            if answer is None or not (answer.outcomes & outcomes if wanted else answer.outcomes - outcomes):
                return None
            return {("answer", fact, answer.number)}
        left = self.narrowed.get(fact)
        certain = left is not None and bool(left) and (left <= outcomes if wanted else not left & outcomes)
        return {("fault", fact, 0)} if certain else None

    def _is_suspected(self, fault: str) -> bool:
        if self.narrowed.get(fault) == frozenset(("absent",)):
            return False
        return any(fault in suspects_of(self.base, rule) for rule in self.fired)

    # ------------------------------------------------------------ what releases

    def released_by(self, hazard: Hazard, since: Open) -> Release | None:
        """The entry that is fulfilled since the hazard opened, or None."""
        return next((release for release in hazard.released_by if self._fulfilled(release, since)), None)

    def _fulfilled(self, release: Release, since: Open) -> bool:
        after = 0
        if release.repairs:
            done = [place for fault in release.repairs if (place := self.repaired.get(fault, 0)) > since.place]
            if not done:
                return False
            after = min(done)
        tests = [question for question in release.tests if self.applies(question)]
        return bool(tests) and all(self._passed(release, question, since, after) for question in tests)

    def due(self, release: Release, since: Open) -> str | None:
        """The test of an entry that comes next: all above it have passed, and its repair is done; None when none is."""
        after = 0
        if release.repairs:
            done = [place for fault in release.repairs if (place := self.repaired.get(fault, 0)) > since.place]
            if not done:
                return None
            after = min(done)
        tests = (question for question in release.tests if self.applies(question))
        return next((test for test in tests if not self._passed(release, test, since, after)), None)

    def _passed(self, release: Release, question: str, since: Open, after: int) -> bool:
        answer = self.answers.get(question)
        if answer is None or answer.number < since.number or answer.place < after:
            return False
        return bool(answer.outcomes) and answer.outcomes <= set(release.tests[question])

    def applies(self, question: str) -> bool:
        record = self.base.questions[question]
        wanted = (record.applies, self.base.circuits[record.circuit].applies)
        return all(
            self.features.get(feature.removeprefix("machine."), "") in values
            for condition in wanted
            for feature, values in condition.items()
        )
