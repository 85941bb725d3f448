"""A junior's way beside the expert's on the same machine, and what it is worth."""

from __future__ import annotations

from dataclasses import dataclass

from expert.practice import sentences as say

FULL = 100
_MISSED, _WRONG_PART, _UNSAFE, _HINT, _SLOW = 40, 15, 25, 8, 20


@dataclass(frozen=True, slots=True)
class Way:
    """One way through a machine: tests made, minutes with the bench moves, faults named rightly and missed, sound parts
    named, steps refused as unsafe, hints taken."""

    tests: int
    minutes: float
    found: int
    missed: int
    wrong_parts: int = 0
    unsafe: int = 0
    hints: int = 0


def score(way: Way, expert_minutes: float) -> int:
    """Points from 0 to 100 for a way, beside the expert's minutes on the same machine.

    40 off for all faults missed (a share for some of them), 15 for each sound part named, 25 for each unsafe step, 8
    for each hint, and up to 20 for taking longer than the expert: nothing up to twice his minutes, all at five times.
    Nobody gets points for a guess: without a fault found it is 0. ValueError for minutes below 0.

    >>> score(Way(tests=6, minutes=25.0, found=1, missed=0), expert_minutes=14.0)
    100
    >>> score(Way(tests=9, minutes=70.0, found=1, missed=0, wrong_parts=1, hints=1), expert_minutes=14.0)
    57
    """
    if way.minutes < 0.0 or expert_minutes < 0.0:
        raise ValueError(say.minutes_run_forwards(way.minutes, expert_minutes))
    if way.found == 0:
        return 0
    missed = _MISSED * way.missed / (way.found + way.missed)
    slowness = way.minutes / max(expert_minutes, 1.0)
    slow = _SLOW * min(max((slowness - 2.0) / 3.0, 0.0), 1.0)
    off = missed + _WRONG_PART * way.wrong_parts + _UNSAFE * way.unsafe + _HINT * way.hints + slow
    return max(round(FULL - off), 0)
