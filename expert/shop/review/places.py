"""Where the reviews of a job stand: in a file beside its trace, which itself is sealed."""

from __future__ import annotations

from pathlib import Path

REVIEWS = ".reviews"


def reviews_path(trace: Path) -> Path:
    """The file of reviews beside a trace.

    >>> reviews_path(Path("jobs/0007.jsonl")).as_posix()
    'jobs/0007.reviews'
    """
    return trace.with_suffix(REVIEWS)
