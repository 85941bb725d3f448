"""Which jobs of the index count."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from typing import TYPE_CHECKING

from expert.shop.sums.facts import INVENTED, REAL

if TYPE_CHECKING:
    from duckdb import DuckDBPyConnection


@dataclass(frozen=True, slots=True)
class Filters:
    """`since`, `until`: day of opening, both included; `machine`, `technician`: a part of the name, any case.

    `purpose`: real, invented or practice; "" stands for real jobs, or for invented ones where there is nothing else.
    """

    since: date | None = None
    until: date | None = None
    machine: str = ""
    technician: str = ""
    purpose: str = ""

    @property
    def conditions(self) -> tuple[tuple[str, object], ...]:
        """Conditions in SQL, each with its value."""
        found: list[tuple[str, object]] = []
        if self.since:
            found.append(("opened >= ?", self.since))
        if self.until:
            found.append(("opened < ?", self.until + timedelta(days=1)))
        if self.machine:
            found.append(("contains(lower(machine), ?)", self.machine.casefold()))
        if self.technician:
            found.append(("contains(lower(technician), ?)", self.technician.casefold()))
        return tuple(found)

    def in_words(self) -> str:
        """The filters as one line, '' when there are none.

        >>> Filters(since=date(2026, 1, 31), technician="Ann").in_words()
        'opened from 2026-01-31, technician Ann'
        """
        said = [
            f"opened from {self.since}" if self.since else "",
            f"opened until {self.until}" if self.until else "",
            f"machine {self.machine}" if self.machine else "",
            f"technician {self.technician}" if self.technician else "",
        ]
        return ", ".join(filter(None, said))


def choose(index: DuckDBPyConnection, filters: Filters) -> str:
    """Make the tables `chosen` (all that the filters let through) and `counted` (of these, one purpose).

    Gives the purpose that counts.
    """
    conditions = filters.conditions
    where = " AND ".join(["TRUE", *(condition for condition, _ in conditions)])
    values = [value for _, value in conditions]
    index.execute(f"CREATE OR REPLACE TEMP TABLE chosen AS SELECT * FROM jobs WHERE {where}", values)
    purpose = filters.purpose or _what_there_is(index)
    index.execute("CREATE OR REPLACE TEMP TABLE counted AS SELECT * FROM chosen WHERE purpose = ?", [purpose])
    return purpose


def _what_there_is(index: DuckDBPyConnection) -> str:
    present = {purpose for (purpose,) in index.execute("SELECT DISTINCT purpose FROM chosen").fetchall()}
    return INVENTED if INVENTED in present and REAL not in present else REAL
