"""What an edit changes, in words and as data: the sum first, then the jobs, what matters most first."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import asdict
from typing import Any

from expert.trade.counting import counted
from expert.workbench.impact.running import Outcome
from expert.workbench.sentences import impact as say

_LONGEST = 100


def ranked(outcomes: Sequence[Outcome]) -> list[Outcome]:
    """The jobs that come out otherwise, what matters most first."""
    return sorted((o for o in outcomes if o.differences), key=lambda o: (-o.weight, o.job.path))


def in_words(outcomes: Sequence[Outcome], most: int) -> Iterator[str]:
    """The report; of the jobs that come out otherwise at most so many."""
    changed = ranked(outcomes)
    for outcome in changed[:most]:
        yield f"{outcome.job.path} (job {outcome.job.number})"
        for found in outcome.differences:
            yield say.was_and_is(found.what, *map(_shortened, _from_where_they_part(found.before, found.after)))
        if outcome.unanswered:
            yield say.asks_what_nobody_answered(", ".join(outcome.unanswered))
    if len(changed) > most:
        yield say.more_in_json(len(changed) - most)
    for outcome in outcomes:
        if outcome.trouble:
            yield say.not_compared(outcome.job.path, outcome.trouble)
    yield from _sum(outcomes, changed)


def _sum(outcomes: Sequence[Outcome], changed: Sequence[Outcome]) -> Iterator[str]:
    kinds = Counter(found.what for outcome in changed for found in outcome.differences)
    trouble = sum(bool(outcome.trouble) for outcome in outcomes)
    untouched = sum(not outcome.played for outcome in outcomes)
    same = len(outcomes) - len(changed) - trouble
    yield (say.compared(counted(len(outcomes), "job"), len(changed), same, untouched, trouble))
    if kinds:
        yield "what differs: " + ", ".join(f"{what} in {number}" for what, number in kinds.most_common())


def as_data(outcomes: Sequence[Outcome]) -> dict[str, Any]:
    """For other programs: `jobs`, `changed`, `not_compared`, `untouched`, and each job that comes out otherwise."""
    return {
        "jobs": len(outcomes),
        "untouched": sum(not outcome.played for outcome in outcomes),
        "not_compared": [
            {"trace": outcome.job.path, "why": outcome.trouble} for outcome in outcomes if outcome.trouble
        ],
        "changed": [
            {
                "trace": outcome.job.path,
                "job": outcome.job.number,
                "weight": outcome.weight,
                "differences": [asdict(found) for found in outcome.differences],
                "unanswered": list(outcome.unanswered),
            }
            for outcome in ranked(outcomes)
        ],
    }


def _from_where_they_part(before: str, after: str) -> tuple[str, str]:
    """Two lists in words; where one is too long to be shown, what both begin with is only counted."""
    one, other = before.split(", "), after.split(", ")
    alike = next((n for n, (a, b) in enumerate(zip(one, other, strict=False)) if a != b), min(len(one), len(other)))
    if alike < 2 or max(len(before), len(after)) <= _LONGEST:
        return before, after
    return say.after_the_same(alike, ", ".join(one[alike:])), say.after_the_same(alike, ", ".join(other[alike:]))


def _shortened(text: str) -> str:
    return text if len(text) <= _LONGEST else text[: _LONGEST - 3] + "..."
