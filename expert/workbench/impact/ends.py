"""Playing a saved job with two rule bases, and what differs between the two ends."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from expert.desk.opening import shop_of
from expert.desk.result import result_of
from expert.desk.unattended import CannotPlay, play
from expert.engine.knowledge import Knowledge
from expert.job.answers.reading import NotAnAnswer
from expert.workbench.impact.answers import NotPlayable, SavedJob, answers_for

_MOST_SUSPECTS = 5


@dataclass(frozen=True, slots=True)
class End:
    """What came of a job that was played. `unanswered`: questions put that the saved job has no answer to."""

    outcome: str
    faults: tuple[str, ...]
    suspects: tuple[str, ...]
    asked: tuple[str, ...]
    cautions: tuple[str, ...]
    stops: tuple[str, ...]
    minutes: float
    unanswered: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Difference:
    """One thing that came out otherwise. `weight`: how much it matters; people first, then the verdict, then time."""

    what: str
    before: str
    after: str
    weight: int


STOP, CAUTION, FAULTS, OUTCOME, SUSPECTS, ASKED, MINUTES = 1000, 300, 200, 100, 10, 5, 1


def end_of(knowledge: Knowledge, saved: SavedJob) -> End:
    """Play the job with these rules. Raises NotPlayable."""
    answers = answers_for(saved, knowledge.base)
    try:
        job, records = play(knowledge, shop_of(knowledge, saved.system), answers, saved.number)
    except (CannotPlay, NotAnAnswer) as problem:
        raise NotPlayable(str(problem)) from None
    result: dict[str, Any] = result_of(job, records, "")
    given = {*saved.told.answers, *(name for after in saved.told.after.values() for name in after)}
    asked = tuple(entry["question"] for entry in result["asked"])
    return End(
        outcome=result["outcome"],
        faults=tuple(sorted({*(found["fault"] for found in result["findings"]), *result["short_list"]})),
        suspects=tuple(entry["fault"] for entry in result["suspects"][:_MOST_SUSPECTS]),
        asked=asked,
        cautions=tuple(result["cautions"]),
        stops=tuple(stop["rule"] for stop in result["stops"]),
        minutes=result["minutes"],
        unanswered=tuple(dict.fromkeys(name for name in asked if name not in given)),
    )


def differences(before: End, after: End) -> tuple[Difference, ...]:
    """What came out otherwise, what matters most first."""
    found: list[Difference] = []

    def note(what: str, old: object, new: object, weight: int) -> None:
        if old != new:
            found.append(Difference(what, _told(old), _told(new), weight))

    lost = set(before.cautions) - set(after.cautions)
    note("stops", before.stops, after.stops, STOP * (1 + len(set(before.stops) - set(after.stops))))
    note("cautions", set(before.cautions), set(after.cautions), CAUTION if lost else ASKED)
    note("faults", before.faults, after.faults, FAULTS)
    note("outcome", before.outcome, after.outcome, OUTCOME)
    note("suspects", before.suspects, after.suspects, SUSPECTS)
    note("questions", before.asked, after.asked, ASKED + len(set(before.asked) ^ set(after.asked)))
    note("minutes", before.minutes, after.minutes, MINUTES)
    return tuple(sorted(found, key=lambda difference: -difference.weight))


def _told(value: object) -> str:
    if isinstance(value, set | frozenset):
        return ", ".join(sorted(map(str, value))) or "none"
    if isinstance(value, tuple):
        return ", ".join(map(str, value)) or "none"
    return f"{value:g}" if isinstance(value, float) else str(value)
