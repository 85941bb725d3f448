"""Keeping the rules of each job: a copy of the rule files beside the jobs, one for each digest that was used.

Rules are edited while jobs are on the bench. A job goes on with the rules it was opened with.
"""

from __future__ import annotations

import os
import re
from pathlib import Path

from expert.desk.sentences import jobs as say
from expert.trace.errors import TraceNotWritten

FOLDER = ".rules"
DIGITS = 24  # of the digest, in the name of a folder; far more than chance could repeat


def pinned_folder(jobs: Path, digest: str) -> Path:
    """Where the rules with this digest are kept, if they are."""
    # The digest may come from a trace that somebody made up: it must not lead out of the folder.
    return jobs / FOLDER / (re.sub(r"[^0-9a-f]", "_", digest[:DIGITS]) or "_")


def pin_rules(rules: Path, jobs: Path, digest: str) -> None:
    """Keep a copy of the rule files, unless there is one. Raises TraceNotWritten when the disk does not take it."""
    place = pinned_folder(jobs, digest)
    if os.path.isdir(place):
        return
    # Here and not above: most jobs find their rules kept already.
    import shutil
    import tempfile

    try:
        place.parent.mkdir(parents=True, exist_ok=True)
        # Made under another name first: a copy that is there is whole, also after a pulled plug.
        making = Path(tempfile.mkdtemp(prefix=".making-", dir=place.parent))
        try:
            for name, file in rule_files(rules).items():
                target = making / name
                target.parent.mkdir(parents=True, exist_ok=True)
                shutil.copyfile(file, target)
            os.replace(making, place)
        except OSError:
            # Another terminal was quicker, and its copy is as good; or the disk is full, and half a copy is none.
            shutil.rmtree(making, ignore_errors=True)
            if not place.is_dir():
                raise
    except OSError as problem:
        raise TraceNotWritten(say.job_not_opened(place, problem.strerror or problem)) from problem


def rule_files(rules: Path) -> dict[str, Path]:
    """The files of a rule base by their names within the folder; worked cases are no part of it."""
    files = {file.relative_to(rules).as_posix(): file for file in sorted(rules.rglob("*.y*ml")) if file.is_file()}
    return {name: file for name, file in files.items() if not name.startswith(("cases/", "."))}


def files_changed(before: Path, now: Path) -> tuple[str, ...]:
    """The names of rule files that differ between two folders, or stand in one only."""
    earlier, later = rule_files(before), rule_files(now)
    return tuple(
        name
        for name in sorted(earlier.keys() | later.keys())
        if name not in earlier or name not in later or earlier[name].read_bytes() != later[name].read_bytes()
    )
