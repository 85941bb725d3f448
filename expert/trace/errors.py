"""What can go wrong with a trace. Every message says what was found and, where it helps, what would do."""

from __future__ import annotations

from pathlib import Path


class TraceError(Exception):
    """The base of all errors about traces."""


class TraceDamaged(TraceError):
    """A line of a trace cannot be understood. `line` is counted from 1; 0 means: not read from a file.

    >>> print(TraceDamaged("'opend' is not a kind of record", Path("jobs/7.jsonl"), 3))
    jobs/7.jsonl:3:1: 'opend' is not a kind of record [damaged-trace]
    """

    def __init__(self, reason: str, path: Path | None = None, line: int = 0) -> None:
        super().__init__(f"{path}:{line}:1: {reason} [damaged-trace]" if path else reason)
        self.reason = reason
        self.path = path
        self.line = line


class TraceTooLarge(TraceError):
    """A line or a file is over the size that a job can reasonably have."""


class TraceNotRead(TraceError):
    """The file cannot be opened or read."""


class TraceNotWritten(TraceError):
    """The disk did not take what was to be recorded. Nothing of that batch counts as recorded."""


class TraceExists(TraceError):
    """A new job was to be opened where a job already has its trace."""


class TraceSealed(TraceError):
    """A closed job was to be written on."""


class JobInUse(TraceError):
    """Another terminal is writing on this job."""


class NotAJobNumber(TraceError, ValueError):
    """A job number that cannot be the name of a file."""
