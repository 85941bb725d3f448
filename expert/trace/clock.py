"""The time a job took by the clock, from the times of its lines; what lies between leaving and resuming is left out."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import datetime

from expert.trace.record import Record
from expert.trace.records import Resumed
from expert.trade.frozen import dataclass


@dataclass(frozen=True, slots=True)
class AtWork:
    """How long somebody was at a job so far [min], up to its last line."""

    minutes: float = 0.0
    last: datetime | None = None

    def after(self, at: datetime, records: Iterable[Record]) -> AtWork:
        """The same after a further line. Nobody was at work before a line with which the job was taken up again.

        >>> from datetime import UTC, datetime
        >>> AtWork().after(datetime(2026, 1, 31, 9, tzinfo=UTC), ()).after(datetime(2026, 1, 31, 10, tzinfo=UTC), ())
        AtWork(minutes=60.0, last=datetime.datetime(2026, 1, 31, 10, 0, tzinfo=datetime.timezone.utc))
        """
        if self.last is None or any(isinstance(record, Resumed) for record in records):
            return AtWork(self.minutes, at)
        # A clock that was put back takes nothing away.
        return AtWork(self.minutes + max((at - self.last).total_seconds(), 0.0) / 60, at)
