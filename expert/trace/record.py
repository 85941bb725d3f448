"""What every record is."""

from __future__ import annotations


class Record:
    """Something that happened in a job."""

    __slots__ = ()
