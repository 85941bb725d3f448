"""How many values were compared with which source: kept while the tests run, also where several processes run them."""

from __future__ import annotations

import math
from dataclasses import astuple, dataclass


@dataclass
class Tally:
    """How many values of one kind were compared with one source, and the worst of them."""

    values: int = 0
    share: float = 0.0
    deviation: float = 0.0
    allowed: float = 0.0
    unit: str = ""


TALLIES: dict[tuple[str, str], Tally] = {}


def note(kind: str, source: str, deviation: float, allowed: float, unit: str) -> None:
    """Add one comparison to the table. Exact agreement with nothing allowed counts as a share of zero."""
    tally = TALLIES.setdefault((kind, source), Tally())
    share = deviation / allowed if allowed else (math.inf if deviation else 0.0)
    tally.values += 1
    if share >= tally.share:
        tally.share, tally.deviation, tally.allowed, tally.unit = share, deviation, allowed, unit


def packed() -> list[list[object]]:
    """All tallies as plain values, to be sent from one process to another."""
    return [[*key, *astuple(tally)] for key, tally in TALLIES.items()]


def unpack(rows: list[list[object]]) -> None:
    """Add the tallies of another process."""
    for kind, source, values, share, deviation, allowed, unit in rows:
        tally = TALLIES.setdefault((str(kind), str(source)), Tally())
        tally.values += int(str(values))
        if float(str(share)) >= tally.share:
            worst = float(str(share)), float(str(deviation)), float(str(allowed)), str(unit)
            tally.share, tally.deviation, tally.allowed, tally.unit = worst
