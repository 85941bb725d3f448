"""Where jobs live, and which job numbers can be the name of a file."""

from __future__ import annotations

import os
import re
from pathlib import Path

from platformdirs import user_data_path

from expert.trace.errors import NotAJobNumber, TraceNotRead
from expert.trace.register import NAME, read_register
from expert.trace.sentences import keeping as say

SUFFIX = ".jsonl"
LONGEST_JOB_NUMBER = 40
# Names of devices, also before a dot: Microsoft, "Naming Files, Paths, and Namespaces" (from memory, to be confirmed).
RESERVED = frozenset(
    ["con", "prn", "aux", "nul", *(f"com{n}" for n in range(10)), *(f"lpt{n}" for n in range(10))],
)
_JOB_NUMBER = re.compile(r"[A-Za-z0-9][A-Za-z0-9._-]{0,39}")
_COUNTED = re.compile(r"[0-9]{1,15}")


def jobs_folder() -> Path:
    """The folder for this user's jobs. It need not exist yet."""
    return user_data_path("bench-expert", appauthor=False) / "jobs"


def check_job_number(number: str) -> str:
    """The number itself when it can name a file on every common system. Raises NotAJobNumber.

    >>> check_job_number("2026-0007.b")
    '2026-0007.b'
    >>> check_job_number("../7")
    Traceback (most recent call last):
    expert.trace.errors.NotAJobNumber: '../7' is not a job number: letters a to z, digits, '-', '.' and '_' will do,
    1 to 40 of them, the first a letter or a digit
    """
    if not _JOB_NUMBER.fullmatch(number):
        shown = number if len(number) <= LONGEST_JOB_NUMBER else number[:LONGEST_JOB_NUMBER] + "..."
        raise NotAJobNumber(say.is_no_job_number(shown, say.WHAT_A_NUMBER_MAY_HOLD))
    if number.partition(".")[0].lower() in RESERVED:
        raise NotAJobNumber(say.name_of_a_device(number))
    return number


def job_path(folder: Path, number: str) -> Path:
    """The trace of a job. Raises NotAJobNumber.

    >>> job_path(Path("jobs"), "0007").as_posix()
    'jobs/0007.jsonl'
    """
    return folder / (check_job_number(number) + SUFFIX)


def job_meant(folder: Path, number: str) -> Path:
    """The trace of the job that a number means: with or without its leading zeros. Raises NotAJobNumber.

    >>> job_meant(Path("no such folder"), "0007").as_posix()
    'no such folder/0007.jsonl'
    """
    exact = job_path(folder, number)
    if exact.is_file() or not _COUNTED.fullmatch(number):
        return exact
    widths = range(len(str(int(number))), 16)
    there = [path for width in widths if (path := folder / f"{int(number):0{width}d}{SUFFIX}").is_file()]
    return there[0] if len(there) == 1 else exact


def next_job_number(folder: Path) -> str:
    """One more than the highest counted job in the folder, with at least four digits: '0001', '0002' ...

    Two terminals may be given the same number; the one that opens its job second is told that it is taken.
    Raises TraceNotRead when the folder cannot be read.
    """
    if not os.path.isdir(folder):
        return "0001"
    try:
        entries = os.listdir(folder)
    except OSError as problem:
        raise TraceNotRead(say.cannot_be_read(folder, problem.strerror or problem)) from problem
    # A number that was given once is not given again, also when its trace is gone.
    register = read_register(folder / NAME)
    entries += () if register is None else register.jobs()
    names = (name.removesuffix(SUFFIX) for name in entries if name.endswith(SUFFIX))
    highest = max((int(name) for name in names if _COUNTED.fullmatch(name)), default=0)
    return f"{highest + 1:04d}"


def jobs_in(folder: Path) -> tuple[Path, ...]:
    """Every trace in the folder, sorted by name; hidden files are left out. A folder that is not there has no jobs."""
    return tuple(sorted(p for p in folder.glob("*" + SUFFIX) if p.is_file() and not p.name.startswith(".")))
