"""A fault of the program itself: told in a sentence with what is safe, and kept in a file that can be sent."""

from __future__ import annotations

import traceback
from datetime import UTC, datetime
from pathlib import Path

from expert.trace.cleaning import clean_lines
from expert.trace.places import jobs_folder

NOT_YOURS = "The program failed here; that is a fault of the program, not yours."
IS_SAFE = "Nothing that was answered is lost. If a machine is on the bench: switch it off and pull the plug."
LONGEST_REPORT = 200_000


class NotTaken(Exception):
    """A line on which the program failed: it is not taken, nothing has changed, and the job waits where it waited."""


def fault_in_words(fault: BaseException) -> str:
    """An unexpected exception told to whoever stands at the machine; its particulars are kept in a file."""
    return f"{NOT_YOURS} {IS_SAFE} {kept(fault)}"


def not_taken(fault: BaseException) -> NotTaken:
    """What is told when one line of a job could not be worked through."""
    go_on = "The job waits where it waited: answer otherwise, type can't tell, or pause and go on later."
    return NotTaken(f"{NOT_YOURS} The line was not taken. {IS_SAFE} {go_on} {kept(fault)}")


def kept(fault: BaseException) -> str:
    """Keep the particulars of a fault in a file: a sentence, and its path on a line of its own, or why it has none."""
    file = faults_folder() / f"{datetime.now(UTC):%Y-%m-%d-%H%M%S-%f}.txt"
    try:
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_text(clean_lines("".join(traceback.format_exception(fault)), LONGEST_REPORT), encoding="utf-8")
    except OSError as problem:
        return f"The particulars could not be kept: {problem.strerror or problem}. It was: {fault!r}"
    return f"The particulars are kept, to be sent to whoever looks after the program:\n  {file}"


def faults_folder() -> Path:
    """Where the particulars of faults are kept, beside the folder of jobs."""
    return jobs_folder().parent / "faults"
