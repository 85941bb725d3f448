"""Where a job meets the outside: its file, its shop, the command that goes on with it."""

from __future__ import annotations

import shlex
from pathlib import Path

from expert.engine.knowledge import Knowledge
from expert.job.state.shop import Shop
from expert.language.shipped import shipped
from expert.trace.places import SUFFIX, job_meant, jobs_folder


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


def trace_path(name: str, jobs: Path | None) -> Path:
    """The file meant by a job number, with or without its leading zeros, or a path. Raises NotAJobNumber."""
    if name.endswith(SUFFIX) or "/" in name:
        return Path(name)
    return job_meant(jobs or jobs_folder(), name)
