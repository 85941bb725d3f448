"""The jobs of a folder: which are open, what each waits for, and in what state its machine was left."""

from __future__ import annotations

import os
import sys
import textwrap
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from expert.desk.intake_lines import intake_of
from expert.desk.opening import resume_command
from expert.desk.sentences import jobs as say
from expert.engine.bench import bench_state, in_time
from expert.language.model import Bench
from expert.trace.cleaning import clean
from expert.trace.errors import TraceDamaged, TraceError
from expert.trace.lines import time_in_words
from expert.trace.places import SUFFIX, jobs_in
from expert.trace.reading import Trace, read_trace
from expert.trace.records import Closed, HandedOver, Moved, Paused, PromptPut, Resumed, Worker
from expert.trace.skimming import ends_sealed
from expert.trace.verifying import refuse_damage

WIDTH = 79
OPEN, PAUSED, HANDED_OVER, CLOSED, DAMAGED = "open", "paused", "handed over", "closed", "damaged"
_TAIL = 1_500  # bytes; a seal is far shorter


@dataclass(frozen=True, slots=True)
class JobEntry:
    """One job of a folder. `waits_for`: the prompt it stands at, in words; '' when nothing is waited for.

    `left`: the state of the bench, by dimension; empty before the intake is done.
    """

    path: Path
    status: str
    opened: str
    last: str
    technician: str = ""
    waits_for: str = ""
    left: Mapping[str, str] | None = None
    outcome: str = ""

    @property
    def number(self) -> str:
        return self.path.name.removesuffix(SUFFIX)

    @property
    def is_live(self) -> bool:
        """Whether the machine was left plugged in, as far as is recorded."""
        return bool(self.left) and (self.left or {}).get("mains") == "on"


def open_jobs(folder: Path, most: int | None = None) -> tuple[tuple[JobEntry, ...], int]:
    """The jobs that are not closed, the one touched last first, at most so many; and how many more there are.

    A sealed trace is passed over by its last line, and of the others only those that are listed are read: a folder may
    hold thousands.
    """
    paths = [path for path in jobs_in(folder) if not is_sealed(path)]
    if most is not None:
        paths.sort(key=_touched, reverse=True)
    entries = sorted(map(entry_of, paths[:most]), key=lambda entry: entry.last, reverse=True)
    return tuple(entries), len(paths) - len(entries)


def closed_jobs(folder: Path, most: int) -> tuple[JobEntry, ...]:
    """The jobs closed last, at most so many."""
    paths = [path for path in jobs_in(folder) if is_sealed(path)]
    paths.sort(key=_touched, reverse=True)
    return tuple(sorted(map(entry_of, paths[:most]), key=lambda entry: entry.last, reverse=True))


def _touched(path: Path) -> int:
    """When the file was changed last; one that is gone or cannot be looked at comes first, to be told of."""
    try:
        return path.stat().st_mtime_ns
    except OSError:
        return sys.maxsize


def is_sealed(path: Path) -> bool:
    """Whether the last line is a seal, by its bytes alone. False for a file that cannot be read."""
    try:
        with path.open("rb") as file:
            file.seek(max(0, os.fstat(file.fileno()).st_size - _TAIL))
            return ends_sealed(file.read().rstrip(b"\n").rpartition(b"\n")[2])
    except OSError:
        return False


def entry_of(path: Path) -> JobEntry:
    """One job. One that cannot be read or was changed is listed as damaged: it is not hidden."""
    try:
        trace = read_trace(path)
        refuse_damage(trace)
    except TraceDamaged as problem:
        return JobEntry(path, DAMAGED, "", "", waits_for=problem.reason)
    except TraceError as problem:
        return JobEntry(path, DAMAGED, "", "", waits_for=str(problem))
    if not trace.lines:
        return JobEntry(path, DAMAGED, "", "", waits_for=say.NO_WHOLE_LINE)
    return _entry(trace)


def by_now(entries: Iterable[JobEntry], bench: Bench) -> tuple[JobEntry, ...]:
    """The same jobs with the state that each machine has come to since it was left: what was left on is hot by now.

    A job on another bench, whose states have other names, is listed as it was left.
    """
    return tuple(
        replace(entry, left=dict(in_time(bench, bench_state(bench, entry.left))))
        if entry.left is not None and set(entry.left) == set(bench.states)
        else entry
        for entry in entries
    )


def _entry(trace: Trace) -> JobEntry:
    status, technician, waits_for, outcome = OPEN, intake_of(trace).technician, "", ""
    left: Mapping[str, str] | None = None
    for record in trace.records:
        match record:
            case PromptPut():
                waits_for = record.text.partition("\n")[0]
            case Moved():
                left = record.state
            case Worker():
                technician = record.name
                status = OPEN if status == HANDED_OVER else status
            case Paused():
                status = PAUSED
            case HandedOver():
                status = HANDED_OVER
            case Resumed() if status == PAUSED:
                status = OPEN
            case Closed():
                status, outcome = CLOSED, record.outcome
    opened, last = (time_in_words(trace.lines[index].at) for index in (0, -1))
    is_closed = status == CLOSED
    waits_for = say.SOMEBODY_WHO_TAKES_IT_ON if status == HANDED_OVER else waits_for
    return JobEntry(trace.path, status, opened, last, technician, "" if is_closed else waits_for, left, outcome)


def in_words(entries: Iterable[JobEntry], rules: Path) -> Iterator[str]:
    """The list as lines of text; open jobs with the command that goes on with them, as it has to be typed."""
    for entry in entries:
        who = f"  {clean(entry.technician, 60)}" if entry.technician else ""
        ended = f": {entry.outcome.replace('_', ' ')}" if entry.outcome else ""
        yield f"{entry.number}  {entry.status}{ended}{who}  {_day(entry.last)}".rstrip()
        if entry.left:
            state = ", ".join(f"{dimension} {value.replace('_', ' ')}" for dimension, value in entry.left.items())
            first = f"{'! ' if entry.is_live else '  '}    left: "
            yield from textwrap.wrap(clean(state), WIDTH, initial_indent=first, subsequent_indent="        ")
        if entry.status == CLOSED:
            continue
        word = "damaged" if entry.status == DAMAGED else "waits for"
        if entry.waits_for:
            yield from textwrap.wrap(
                f"{word}: {clean(entry.waits_for)}", WIDTH, initial_indent="      ", subsequent_indent="        "
            )
        if entry.status != DAMAGED:
            # Never broken: it is to be copied as it stands.
            yield f"      go on: {resume_command(rules, entry.path)}"


def as_data(entries: Iterable[JobEntry]) -> list[dict[str, Any]]:
    """The list as JSON values."""
    return [
        {
            "job": entry.number,
            "trace": str(entry.path),
            "status": entry.status,
            "outcome": entry.outcome,
            "technician": entry.technician,
            "opened": entry.opened,
            "last": entry.last,
            "waits_for": entry.waits_for,
            "left": dict(entry.left or {}),
        }
        for entry in entries
    ]


def _day(at: str) -> str:
    return at.replace("T", " ").removesuffix("Z")[:16]
