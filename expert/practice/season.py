"""A season of practice: each technician's machines, summed."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from expert.practice.score import Way, score


@dataclass(frozen=True, slots=True)
class Attempt:
    """One machine done by one technician. A machine is named by its level and seed; only the first attempt counts."""

    technician: str
    level: str
    seed: int
    way: Way
    expert_minutes: float

    @property
    def points(self) -> int:
        """Points of the attempt, 0 to 100."""
        return score(self.way, self.expert_minutes)


@dataclass(frozen=True, slots=True)
class Season:
    """A technician's sums: machines, mean points (0 to 100), all found, sound parts named, unsafe steps, hints."""

    technician: str
    machines: int
    points: float
    found_all: int
    wrong_parts: int
    unsafe: int
    hints: int


def seasons(attempts: Iterable[Attempt]) -> tuple[Season, ...]:
    """Sums by technician, best mean first, then by name. Doing a known machine again counts nothing.

    >>> good, poor = Way(5, 10.0, found=1, missed=0), Way(5, 10.0, found=0, missed=1)
    >>> tries = [Attempt("Ada", "common", 1, poor, 10.0), Attempt("Ada", "common", 1, good, 10.0)]
    >>> [(line.technician, line.machines, line.points) for line in seasons(tries)]
    [('Ada', 1, 0.0)]
    """
    first: dict[tuple[str, str, int], Attempt] = {}
    for attempt in attempts:
        first.setdefault((attempt.technician, attempt.level, attempt.seed), attempt)
    names = {attempt.technician for attempt in first.values()}
    lines = [_summed(name, [tried for tried in first.values() if tried.technician == name]) for name in names]
    return tuple(sorted(lines, key=lambda line: (-line.points, line.technician)))


def _summed(name: str, tries: list[Attempt]) -> Season:
    return Season(
        technician=name,
        machines=len(tries),
        points=sum(tried.points for tried in tries) / len(tries),
        found_all=sum(tried.way.missed == 0 and tried.way.found > 0 for tried in tries),
        wrong_parts=sum(tried.way.wrong_parts for tried in tries),
        unsafe=sum(tried.way.unsafe for tried in tries),
        hints=sum(tried.way.hints for tried in tries),
    )
