"""Which declared hazards are open, worked out from the records alone and read for the worse.

A hazard opens with a cause: an answer that leaves a bad outcome possible, a complaint, a fault narrowed to present, a
suspicion; or it is open from the start. It closes when what releases it is on record, or when its cause was taken back.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field

from expert.language.model import Hazard, RuleBase
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
    Unfired,
)
from tests.safety.conditions import facts_in, suspects_of
from tests.safety.known import FROM_THE_START, INSIDE, Cause, Known, Open


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
            for fact in (*facts_in(hazard.holds), *hazard.suspected, *(INSIDE if hazard.after_repair else ())):
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
            case Repaired():
                return INSIDE
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
                since = Open(0, 0, now) if any_time else Open(self._from(now), self.known.place, now)
                if hazard.any_time and self.known.released_by(hazard, since) is not None:
                    self.settled[hazard.id] = now
                else:
                    self.open[hazard.id] = since

    def _goes_on(self, hazard: Hazard, now: set[Cause]) -> None:
        """It stood already. What has just happened again asks for tests made after it."""
        since = self.open[hazard.id]
        new = now - since.causes
        happened = any(cause[:2] == ("answer", self.base.bench.danger_met) for cause in new)
        if (happened or (hazard.after_repair and new)) and not hazard.any_time:
            since.number, since.place = self._from(now), self.known.place
        since.causes |= now

    def _from(self, causes: set[Cause]) -> int:
        """The number from which answers count: what was open is measured after that."""
        return self.known.number + any(cause[:2] == INSIDE for cause in causes)

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
        if any(kind == "complaint" for kind, _, _ in since.causes):
            return "it stood on a complaint, and only a test ends that"
        back = [question for question, number in answers if number in self.known.taken_back]
        if not back and not self.known.taken_back:
            return "nothing was taken back"
        unanswered = [question for question in back if question not in self.known.answers]
        return f"{unanswered[0]} was not answered again" if unanswered else ""
