"""What the page of the shop shows: the sums, as pictures where a picture says more than a table."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from expert.shop.report.bars_view import BarPicture, bars
from expert.shop.sentences import reports as say
from expert.shop.sums.totals import Total
from expert.shop.sums.words import HEADINGS, ShopSums, shown

MOST_BARS, MOST_ROWS = 12, 60
Row = tuple[Any, ...]


@dataclass(frozen=True, slots=True)
class Section:
    """One sum: its title, how it is counted, its table, and a picture or None. `cut`: how many rows are left out."""

    key: str
    title: str
    how: str
    columns: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    numeric: tuple[bool, ...]
    picture: BarPicture | None
    cut: int


@dataclass(frozen=True, slots=True)
class ShopView:
    """`figures`: the numbers at the top, each with its words; `heading`: '' or the warning that nothing is real."""

    heading: str
    folder: str
    filters: str
    figures: tuple[tuple[str, str], ...]
    sections: tuple[Section, ...]


def shop_view(sums: ShopSums) -> ShopView:
    """The view of these sums."""
    totals = {total.of.key: total for total in sums.totals}
    sections = tuple(
        _section(total) for key, total in totals.items() if total.rows and key not in ("overview", "first_time_fix")
    )
    return ShopView(HEADINGS.get(sums.purpose, ""), str(sums.folder), sums.filters, tuple(_figures(totals)), sections)


def _figures(totals: dict[str, Total]) -> list[tuple[str, str]]:
    jobs, closed, still_open, minutes, late, asked, many = totals["overview"].rows[0]
    repairs, fixed, share = totals["first_time_fix"].rows[0]
    figures = [
        (f"{jobs:,}", say.jobs_closed_and_open(closed, still_open)),
        (shown("minutes", minutes), say.minutes_of_middle_job(shown("minutes", late))),
        (shown("questions", asked), say.questions_of_middle_job(shown("questions", many))),
    ]
    if repairs:
        figures.append((shown("share", share), say.mended_first_time(fixed, repairs)))
    return figures


def _named(row: Row) -> tuple[str, float, str, float | None]:
    return str(row[1]), row[2], f"{row[2]} ({shown('share', row[3])})", row[4] if len(row) > 4 else None


def _counted(row: Row) -> tuple[str, float, str, float | None]:
    return shown("outcome", row[0]), row[1], str(row[1]), None


def _troubled(row: Row) -> tuple[str, float, str, float | None]:
    troubles = zip(row[3:6], ("can't tell", "taken back", "contradicted"), strict=True)
    return str(row[1]), sum(row[3:6]), ", ".join(f"{n} {word}" for n, word in troubles if n), None


_PICTURES: dict[str, Callable[[Row], tuple[str, float, str, float | None]]] = {
    "outcomes": _counted,
    "months": _counted,
    "faults": _named,
    "faulty_parts": _named,
    "questions": _troubled,
    "verdicts": _counted,
    "stops": _counted,
    "parts_used": _counted,
}


def _section(total: Total) -> Section:
    rows = total.rows
    read = _PICTURES.get(total.of.key)
    picture = None
    if read is not None:
        drawn = [read(row) for row in rows[:MOST_BARS]]
        picture = bars(total.of.title, [bar for bar in drawn if bar[1]])
    return Section(
        total.of.key,
        total.of.title,
        total.of.how,
        total.of.columns,
        tuple(tuple(shown(c, cell) for c, cell in zip(total.of.columns, row, strict=True)) for row in rows[:MOST_ROWS]),
        tuple(not any(isinstance(row[n], str) for row in rows) for n in range(len(total.of.columns))),
        picture if picture and picture.bars else None,
        max(0, len(rows) - MOST_ROWS),
    )
