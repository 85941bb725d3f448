"""Random jobs under the judge: `python -m tests.benchmarks.safety [--jobs N] [--from N] [--json]`.

Prints how many jobs and lines were played and every violation; for each declared hazard in how many jobs it stood, in
which phases, and in how many something was refused because of it. Leaves with 1 when there was a violation (a job that
goes round, hangs or does not end is one), or a hazard that was met too seldom.
"""

from __future__ import annotations

import argparse
import json
import sys
import traceback
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any

from expert.engine.knowledge import knowledge_of
from expert.language.load import load_rules
from expert.language.shipped import shipped
from tests.benchmarks.progress import on_all_cores, within
from tests.safety.hunting import Hunt

AT_A_TIME = 25
LONGEST = 300.0  # seconds for one job, beside whatever else the machine does; alone the longest takes some ten
MOST_SHOWN = 20
PHASES = ("intake", "looks", "search", "repair", "proof", "check-out", "close")
SELDOM = 0.005  # the share of jobs in which each hazard has to stand for the judge to have met it
SELDOM_IN_A_PHASE = 0.0005

_hunt: list[Hunt] = []


@dataclass(slots=True)
class Tally:
    """What a number of jobs came to."""

    jobs: int = 0
    lines: int = 0
    unended: int = 0
    violations: list[str] = field(default_factory=list)
    stood: Counter[str] = field(default_factory=Counter)
    phases: dict[str, Counter[str]] = field(default_factory=dict)
    refused: Counter[str] = field(default_factory=Counter)

    def add(self, other: Tally) -> None:
        self.jobs += other.jobs
        self.lines += other.lines
        self.unended += other.unended
        self.violations += other.violations
        self.stood += other.stood
        self.refused += other.refused
        for name, phases in other.phases.items():
            self.phases.setdefault(name, Counter()).update(phases)


def play_some(numbers: range) -> Tally:
    """The tally of these jobs, played in this process."""
    if not _hunt:
        _hunt.append(Hunt(knowledge_of(load_rules(shipped("rules")))))
    tally = Tally()
    for number in numbers:
        tally.jobs += 1
        try:
            with within(LONGEST):
                caught = _hunt[0].job(number)
        except Exception:  # also a job that goes round or hangs: a violation with its number, and the others are played
            tally.violations.append(f"job {number}: {traceback.format_exc(limit=-3)}")
            continue
        tally.lines += len(caught.played.lines)
        if not caught.played.ended:
            tally.unended += 1
            tally.violations.append(f"job {number}: has not ended after {len(caught.played.lines)} lines [unended]")
        tally.violations += [f"job {number}: {violation}" for violation in caught.judge.found]
        tally.refused.update(set(caught.judge.refused))
        for name, phases in caught.judge.met.items():
            tally.stood[name] += 1
            tally.phases.setdefault(name, Counter()).update(phases)
    return tally


def play_all(first: int, jobs: int) -> Tally:
    """All jobs on all cores, with a bar on standard error."""
    parts = [range(n, min(n + AT_A_TIME, first + jobs)) for n in range(first, first + jobs, AT_A_TIME)]
    tally = Tally()
    for part in on_all_cores(play_some, parts):
        tally.add(part)
    return tally


def as_data(tally: Tally, hazards: Iterable[str]) -> dict[str, Any]:
    return {
        "jobs": tally.jobs,
        "lines": tally.lines,
        "violations": len(tally.violations),
        "unended": tally.unended,
        "hazards": {
            name: {
                "open": tally.stood[name],
                "refused": tally.refused[name],
                "phases": {phase: tally.phases.get(name, Counter())[phase] for phase in PHASES},
            }
            for name in hazards
        },
        "found": sorted(tally.violations)[:MOST_SHOWN],
    }


def is_seldom_met(met: Mapping[str, Any], jobs: int) -> bool:
    """Whether a hazard stood too seldom, in all or in one of the phases, for the judge to have seen what it does."""
    return met["open"] < SELDOM * jobs or min(met["phases"].values()) < SELDOM_IN_A_PHASE * jobs


def in_words(data: dict[str, Any]) -> Iterator[str]:
    yield "   ".join(f"{name} {data[name]:,}" for name in ("jobs", "lines", "violations", "unended"))
    yield f"{'hazard':36}{'open':>7}{'refused':>9}   " + "".join(f"{phase:>10}" for phase in PHASES)
    for name, counts in data["hazards"].items():
        in_phases = "".join(f"{count:>10}" for count in counts["phases"].values())
        yield f"{name:36}{counts['open']:>7}{counts['refused']:>9}   {in_phases}"
    yield from data["found"]


def main() -> None:
    parser = argparse.ArgumentParser(prog="python -m tests.benchmarks.safety", description=__doc__)
    parser.add_argument("--jobs", type=int, default=1_000)
    parser.add_argument("--from", type=int, default=0, dest="first", help="the number of the first job")
    parser.add_argument("--json", action="store_true", help="print one JSON object")
    wanted = parser.parse_args()
    tally = play_all(wanted.first, wanted.jobs)
    data = as_data(tally, load_rules(shipped("rules")).hazards)
    print(json.dumps(data) if wanted.json else "\n".join(in_words(data)))
    seldom = [name for name, met in data["hazards"].items() if is_seldom_met(met, tally.jobs)]
    sys.exit(1 if tally.violations or tally.unended or seldom else 0)


if __name__ == "__main__":
    main()
