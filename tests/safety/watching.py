"""Which declared hazards are open, worked out from the records alone and read for the worse.

A hazard opens with a cause: an answer that leaves a bad outcome possible, a complaint, a fault narrowed to present, a
suspicion; or it is open from the start. It closes when what releases it is on record, or when its cause was taken back.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field

from expert.language.model import (
    ALWAYS,
    All,
    Any,
    Condition,
    Hazard,
    Is,
    Not,
    Release,
    RuleBase,
)
from expert.trace.records import (
    Answered,
    ComplaintNow,
    Fired,
    HazardReleased,
    Narrowed,
    NoLongerHolds,
    Record,
    Repaired,
    TakenBack,
    TakenIn,
    Unfired,
)
from tests.safety.conditions import facts_in, suspects_of

Cause = tuple[str, str, int]
"""Its kind (answer, complaint, fault, suspected, start), what it is about, and the number of the answer or 0."""

FROM_THE_START: Cause = ("start", "", 0)


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
    complaints: set[str] = field(default_factory=set)
    narrowed: dict[str, frozenset[str]] = field(default_factory=dict)
    fired: set[str] = field(default_factory=set)
    repaired: dict[str, int] = field(default_factory=dict)
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
            case TakenIn(complaint_keys=complaints):
                self.complaints = set(complaints)
            case ComplaintNow(complaint=complaint, standing="raised"):
                self.complaints.add(complaint)
            case ComplaintNow(complaint=complaint):
                self.complaints.discard(complaint)

    def _forget(self, question: str, number: int) -> None:
        if question in self.answers and self.answers[question].number == number:
            del self.answers[question]

    # ------------------------------------------------------------ conditions, read for the worse

    def causes(self, hazard: Hazard) -> set[Cause]:
        """What makes the hazard hold now; empty when nothing does."""
        if hazard.holds == ALWAYS and not hazard.suspected:
            return {FROM_THE_START}
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
            reported = "yes" if fact.removeprefix("complaint.") in self.complaints else "no"
            return {("complaint", fact, 0)} if (reported in outcomes) == wanted else None
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


@dataclass(slots=True)
class Watch:
    """The hazards of one job."""

    base: RuleBase
    known: Known = field(init=False)
    resting_on: dict[str, list[str]] = field(init=False)
    changed: set[str] = field(default_factory=set)
    open: dict[str, Open] = field(default_factory=dict)
    settled: dict[str, set[Cause]] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.known = Known(self.base)
        self.resting_on = {}
        for hazard in self.base.hazards.values():
            for fact in (*facts_in(hazard.holds), *hazard.suspected):
                self.resting_on.setdefault(fact, []).append(hazard.id)

    def begin(self, features: Mapping[str, str]) -> None:
        """The intake is over: what is open from the start is open now."""
        self.known.features = features
        self.changed = set(self.base.hazards)
        self._look(from_the_start=True)

    def take(self, record: Record) -> Iterator[str]:
        """Note a record. Yields what a record of a release got wrong."""
        self.known.take(record)
        for fact in self._touched(record):
            self.changed.update(self.resting_on.get(fact, ()))
        if isinstance(record, HazardReleased):
            yield from self._released(record)

    def _touched(self, record: Record) -> Iterable[str]:
        """The facts that a record may have changed."""
        match record:
            case Answered(question=question) | TakenBack(question=question) | NoLongerHolds(question=question):
                return (question,)
            case Narrowed(fact=fact):
                return (fact,)
            case ComplaintNow(complaint=complaint):
                return (f"complaint.{complaint}",)
            case Fired(rule=rule) | Unfired(rule=rule):
                return suspects_of(self.base, rule)
        return ()

    def look(self) -> None:
        """Open what is due. Only between steps: within one, an answer that is given anew is gone for a moment."""
        self._look(from_the_start=False)

    def _look(self, from_the_start: bool) -> None:
        changed, self.changed = self.changed, set()
        for hazard in map(self.base.hazards.__getitem__, changed):
            now = self.known.causes(hazard)
            if FROM_THE_START in now and not from_the_start:
                continue
            fresh = now - self.settled.get(hazard.id, set())
            self.settled[hazard.id] = self.settled.get(hazard.id, set()) & now
            if hazard.id in self.open:
                self._goes_on(hazard, now)
            elif fresh:
                any_time = FROM_THE_START in now or hazard.any_time
                since = Open(0, 0, now) if any_time else Open(self.known.number, self.known.place, now)
                if hazard.any_time and self.known.released_by(hazard, since) is not None:
                    self.settled[hazard.id] = now
                else:
                    self.open[hazard.id] = since

    def _goes_on(self, hazard: Hazard, now: set[Cause]) -> None:
        """It stood already. What has just happened again asks for tests made after it."""
        since = self.open[hazard.id]
        happened = [c for c in now - since.causes if c[:2] == ("answer", self.base.bench.danger_met)]
        if happened and not hazard.any_time:
            since.number, since.place = self.known.number, self.known.place
        since.causes |= now

    def _released(self, record: HazardReleased) -> Iterator[str]:
        hazard, since = self.base.hazards[record.hazard], self.open.get(record.hazard)
        if since is None:
            return
        if record.how == "taken back":
            if still := self.known.causes(hazard):
                yield f"{hazard.id} is said to be taken back, but this still holds: {sorted(still)}"
                return
            if wrong := self._not_corrected(since):
                yield f"{hazard.id} is said to be taken back, but {wrong}"
                return
        elif self.known.released_by(hazard, since) is None:
            yield f"{hazard.id} is said to be released by {record.how}, but no entry of released_by is fulfilled"
            return
        self.settled[hazard.id] = self.known.causes(hazard)
        del self.open[hazard.id]

    def _not_corrected(self, since: Open) -> str:
        """What speaks against a hazard having been a mistake: '' when its answers were taken back and given anew."""
        answers = [(question, number) for kind, question, number in since.causes if kind == "answer"]
        back = [question for question, number in answers if number in self.known.taken_back]
        if not back and not self.known.taken_back:
            return "nothing was taken back"
        unanswered = [question for question in back if question not in self.known.answers]
        return f"{unanswered[0]} was not answered again" if unanswered else ""
