"""A fault of the program itself: told in a sentence with what is safe, and kept in a file that can be sent."""

from __future__ import annotations

import traceback
from datetime import UTC, datetime
from pathlib import Path

from expert.desk.sentences import jobs as say
from expert.trace.cleaning import clean_lines
from expert.trace.places import jobs_folder

LONGEST_REPORT = 200_000


class NotTaken(Exception):
    """A line on which the program failed: it is not taken, nothing has changed, and the job waits where it waited."""


def fault_in_words(fault: BaseException) -> str:
    """An unexpected exception told to whoever stands at the machine; its particulars are kept in a file."""
    return f"{say.NOT_YOURS} {say.IS_SAFE} {kept(fault)}"


def not_taken(fault: BaseException) -> NotTaken:
    """What is told when one line of a job could not be worked through."""
    return NotTaken(say.line_not_taken(say.NOT_YOURS, say.IS_SAFE, say.JOB_WAITS, kept(fault)))


def kept(fault: BaseException) -> str:
    """Keep the particulars of a fault in a file: a sentence, and its path on a line of its own, or why it has none."""
    file = faults_folder() / f"{datetime.now(UTC):%Y-%m-%d-%H%M%S-%f}.txt"
    try:
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_text(clean_lines("".join(traceback.format_exception(fault)), LONGEST_REPORT), encoding="utf-8")
    except OSError as problem:
        return say.particulars_not_kept(problem.strerror or problem, fault)
    return say.particulars_kept(file)


def faults_folder() -> Path:
    """Where the particulars of faults are kept, beside the folder of jobs."""
    return jobs_folder().parent / "faults"
