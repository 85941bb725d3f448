"""Where a job meets the outside: its file, its shop, the command that goes on with it."""

from __future__ import annotations

import shlex
import time
from collections.abc import Callable
from pathlib import Path
from typing import TypeVar

from expert.engine.knowledge import Knowledge
from expert.job.state.shop import Shop
from expert.language.shipped import shipped
from expert.trace.errors import JobInUse, TraceExists
from expert.trace.places import SUFFIX, job_meant, job_path, jobs_folder, next_job_number

Opened = TypeVar("Opened")
PATIENCE = 5.0  # seconds for a number that no other terminal takes first


def shop_of(knowledge: Knowledge, system: str = "metric") -> Shop:
    """The shop owns the instruments of the rules' instruments file that it has not marked as missing.

    system: metric or us, the units shown.
    """
    owned = (instrument.id for instrument in knowledge.base.instruments.values() if instrument.owned)
    return Shop(frozenset(owned), system)


def resume_command(rules: Path, path: Path) -> str:
    """The command that goes on with a job, from wherever it is typed: folders of one's own are named in it."""
    words = ["expert", "resume"]
    if rules.resolve() not in _shipped_rules():
        words += ["--rules", str(rules.resolve())]
    if path.parent.resolve() != jobs_folder().resolve():
        words += ["--jobs", str(path.parent.resolve())]
    return shlex.join([*words, path.name.removesuffix(SUFFIX)])


def _shipped_rules() -> tuple[Path, ...]:
    try:
        return (shipped("rules").resolve(),)
    except FileNotFoundError:
        return ()


def under_a_number(folder: Path, number: str | None, begin: Callable[[Path, str], Opened]) -> Opened:
    """Begin a job under this number; without one under the next that no other terminal takes first.

    `begin`: is given the trace and the number. Raises NotAJobNumber, and what `begin` raises.
    """
    if number:
        return begin(job_path(folder, number), number)
    last_try = time.monotonic() + PATIENCE
    while True:
        given = next_job_number(folder)
        try:
            return begin(job_path(folder, given), given)
        except (TraceExists, JobInUse):
            if time.monotonic() > last_try:
                raise
            time.sleep(0.02)  # the other terminal has the number, and its trace is there in a moment


def trace_path(name: str, jobs: Path | None) -> Path:
    """The file meant by a job number, with or without its leading zeros, or a path. Raises NotAJobNumber."""
    if name.endswith(SUFFIX) or "/" in name:
        return Path(name)
    return job_meant(jobs or jobs_folder(), name)
