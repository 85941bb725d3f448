"""How often each fault is seen, proposed from the shop's own jobs as an edit of the rules for the senior to accept.

Counted are faults as reviewed, else as found. The most frequent that together make half of all are common, those that
make the next two fifths occasional, the rest rare (common practice, no source). With few jobs nothing is proposed: a
fault must have been seen often enough, or the jobs be so many that its absence says something.
"""

from __future__ import annotations

import difflib
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path

from expert.language.model import RuleBase

COMMON_SHARE, OCCASIONAL_SHARE = 0.5, 0.9
ENOUGH_TIMES = 5  # to call a fault more frequent than the rules do
ENOUGH_JOBS = 300  # to call one rarer


@dataclass(frozen=True, slots=True)
class Proposal:
    """One fault: what the rules say, what the jobs say, and how often it was seen."""

    fault: str
    now: str
    proposed: str
    times: int


def proposals(base: RuleBase, times: Mapping[str, int]) -> tuple[Proposal, ...]:
    """Where the jobs speak against the rules; `times`: by fault."""
    total = sum(times.values())
    grades = dict(_grades(times, total))
    found = []
    for fault in base.faults.values():
        seen = times.get(fault.id, 0)
        grade = grades.get(fault.id, "rare")
        more = _RANK[grade] < _RANK[fault.seen]
        if grade != fault.seen and (seen >= ENOUGH_TIMES if more else total >= ENOUGH_JOBS):
            found.append(Proposal(fault.id, fault.seen, grade, seen))
    return tuple(sorted(found, key=lambda one: (-one.times, one.fault)))


_RANK = {"common": 0, "occasional": 1, "rare": 2}


def _grades(times: Mapping[str, int], total: int) -> Iterator[tuple[str, str]]:
    running = 0
    for fault, seen in sorted(times.items(), key=lambda item: (-item[1], item[0])):
        share = running / total if total else 1.0
        yield fault, "common" if share < COMMON_SHARE else "occasional" if share < OCCASIONAL_SHARE else "rare"
        running += seen


def as_edit(base: RuleBase, rules: Path, proposed: tuple[Proposal, ...]) -> str:
    """The edit as a unified diff (`patch -p0`), '' when there is nothing to change. Raises OSError."""
    texts: dict[Path, list[str]] = {}
    for one in proposed:
        at = base.faults[one.fault].at
        path = Path(at.path)
        lines = texts.setdefault(path, path.read_text(encoding="utf-8").splitlines(keepends=True))
        for number in range(at.line - 1, len(lines)):
            changed, count = re.subn(rf"(\bseen: *){one.now}\b", rf"\g<1>{one.proposed}", lines[number], count=1)
            if count:
                lines[number] = changed
                break
    edits: list[str] = []
    for path, lines in sorted(texts.items()):
        before = path.read_text(encoding="utf-8").splitlines(keepends=True)
        edits += difflib.unified_diff(before, lines, str(path), str(path), n=1)
    return "".join(edits)
