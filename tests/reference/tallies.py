"""How many values were compared with which source: kept while the tests run, also where several processes run them."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from tests.reference.sources import Basis, Source

LEAST_VALUES = 2000
LEAST_KINDS = 15


@dataclass
class Tally:
    """The values of one kind that were compared with one source, and the worst of them."""

    values: set[str] = field(default_factory=set)
    share: float = -1.0
    deviation: float = 0.0
    allowed: float = 0.0
    unit: str = ""


Tallies = dict[tuple[str, Source], Tally]
TALLIES: Tallies = {}


def note(kind: str, source: Source, value: str, deviation: float, allowed: float, unit: str) -> None:
    """Add one comparison to the table. Exact agreement with nothing allowed counts as a share of zero.

    `value`: what was compared, in words that are the same whenever it is compared again.
    """
    tally = TALLIES.setdefault((kind, source), Tally())
    tally.values.add(value)
    _keep_worst(tally, deviation / allowed if allowed else (math.inf if deviation else 0.0), deviation, allowed, unit)


def _keep_worst(tally: Tally, share: float, deviation: float, allowed: float, unit: str) -> None:
    if share > tally.share:
        tally.share, tally.deviation, tally.allowed, tally.unit = share, deviation, allowed, unit


def packed() -> list[list[object]]:
    """All tallies as plain values, to be sent from one process to another."""
    return [
        [kind, source.words, source.on, sorted(tally.values), tally.share, tally.deviation, tally.allowed, tally.unit]
        for (kind, source), tally in TALLIES.items()
    ]


def unpack(rows: Iterable[list[object]]) -> None:
    """Add the tallies of another process."""
    for kind, words, on, values, share, deviation, allowed, unit in rows:
        tally = TALLIES.setdefault((str(kind), Source(str(words), str(on))), Tally())
        assert isinstance(values, list)
        tally.values.update(values)
        _keep_worst(tally, float(str(share)), float(str(deviation)), float(str(allowed)), str(unit))


def counted(tallies: Mapping[tuple[str, Source], Tally]) -> dict[str, dict[Basis, int]]:
    """For each kind, how many values rest on what. A value counts once, under the best that it was compared with."""
    counts: dict[str, dict[Basis, int]] = {}
    for kind in sorted({kind for kind, _ in tallies}):
        seen: set[str] = set()
        counts[kind] = {}
        for basis in Basis:
            of_basis = [tally.values for (at, source), tally in tallies.items() if at == kind and source.basis is basis]
            found = set().union(*of_basis) - seen
            counts[kind][basis] = len(found)
            seen |= found
    return counts


def headline(counts: Mapping[str, Mapping[Basis, int]]) -> str:
    """The sentence that stands over the table."""
    independent = {kind: of[Basis.INDEPENDENT] for kind, of in counts.items() if of[Basis.INDEPENDENT]}
    return (
        f"{sum(independent.values())} values of {len(independent)} kinds agree with a library or a publication"
        " that the code does not use"
    )


def shortfall(counts: Mapping[str, Mapping[Basis, int]]) -> str:
    """What is missing of the values that a whole run must compare with something independent; empty when enough."""
    independent = [of[Basis.INDEPENDENT] for of in counts.values() if of[Basis.INDEPENDENT]]
    if sum(independent) >= LEAST_VALUES and len(independent) >= LEAST_KINDS:
        return ""
    return f"{headline(counts)}; at least {LEAST_VALUES} of {LEAST_KINDS} kinds are promised"


def table(tallies: Mapping[tuple[str, Source], Tally]) -> list[str]:
    """The printed table: the headline, how many values of each kind rest on what, then each source with its worst."""
    counts = counted(tallies)
    lines = [headline(counts), "", f"{'kind':13}" + "".join(f"{basis.value:>14}" for basis in Basis)]
    lines += [f"{kind:13}" + "".join(f"{of[basis]:>14}" for basis in Basis) for kind, of in counts.items()]
    totals = [sum(of[basis] for of in counts.values()) for basis in Basis]
    lines += [f"{'all':13}" + "".join(f"{total:>14}" for total in totals), ""]
    for basis in Basis:
        rows = sorted((key, tally) for key, tally in tallies.items() if key[1].basis is basis)
        if rows:
            lines.append(f"{basis.value + ': ' + _MEANING[basis]}")
        for (kind, source), tally in rows:
            worst = f"{tally.deviation:.2g} ({tally.allowed:.2g}) {tally.unit}".rstrip()
            lines.append(f"  {kind:13}{len(tally.values):>5}  {worst:28} {source.words}")
    return lines


_MEANING = {
    Basis.INDEPENDENT: "a library or publication that the code does not use; worst deviation (allowed)",
    Basis.TRANSCRIPTION: "the code holds the same figures, from another printing",
    Basis.ROUND_TRIP: "a calculation and its inverse",
    Basis.RESTATED: "the same figures and the same equation on both sides; counts for nothing",
}
