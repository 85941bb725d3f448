"""The sums as text of 80 columns, as JSON values, and as CSV."""

from __future__ import annotations

import csv
import textwrap
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from expert.shop.sentences import sums as say
from expert.shop.sums.facts import INVENTED, PRACTICE, REAL
from expert.shop.sums.totals import Total
from expert.trace.cleaning import clean

WIDTH = 79
_MONEY = ("work", "parts", "together", "the middle job")
SHOWN = 10
HEADINGS = {
    REAL: "",
    INVENTED: say.INVENTED_JOBS,
    PRACTICE: say.PRACTICE_JOBS,
}
# Columns left out in the text where another one says the same in words.
_IDS = frozenset({("faults", "fault"), ("faulty_parts", "part"), ("questions", "question")})


@dataclass(frozen=True, slots=True)
class ShopSums:
    """All sums of a folder: which purpose counted, under which filters in words."""

    folder: Path
    purpose: str
    filters: str
    totals: tuple[Total, ...]


def in_words(sums: ShopSums, everything: bool = False) -> Iterator[str]:
    """The sums as lines; long lists are cut unless `everything` is wanted."""
    if HEADINGS.get(sums.purpose):
        yield HEADINGS[sums.purpose]
    yield f"Jobs in {sums.folder}" + (f": {sums.filters}" if sums.filters else "")
    for total in sums.totals:
        if total.of.key == "questions" and not everything:
            total = replace(total, rows=tuple(row for row in total.rows if row[-1]))
        if total.rows:
            yield ""
            yield total.of.title
            yield from textwrap.wrap(total.of.how, WIDTH, initial_indent="  ", subsequent_indent="  ")
            yield from _table(total, None if everything else SHOWN)


def as_data(sums: ShopSums) -> dict[str, Any]:
    """The same as JSON values: one list of objects for each sum."""
    return {
        "folder": str(sums.folder),
        "purpose": sums.purpose,
        "filters": sums.filters,
        "sums": {
            total.of.key: [dict(zip(total.of.columns, row, strict=True)) for row in total.rows] for total in sums.totals
        },
    }


def write_csv(sums: ShopSums, folder: Path) -> tuple[Path, ...]:
    """One CSV file (RFC 4180) for each sum; gives the files. Raises OSError."""
    folder.mkdir(parents=True, exist_ok=True)
    written = []
    for total in sums.totals:
        path = folder / f"{total.of.key}.csv"
        with path.open("w", encoding="utf-8", newline="") as file:
            writer = csv.writer(file)
            writer.writerow(total.of.columns)
            writer.writerows([_harmless(cell) for cell in row] for row in total.rows)
        written.append(path)
    return tuple(written)


def _harmless(cell: Any) -> Any:
    """A typed name that begins like a formula would be worked out by a spreadsheet: it stays text."""
    return f"'{clean(cell)}" if isinstance(cell, str) and cell[:1] in ("=", "+", "-", "@", "\t", "\r") else cell


def _table(total: Total, most: int | None) -> Iterator[str]:
    """The rows side by side; the widest columns of text are wrapped until all stand within the width."""
    kept = [n for n, column in enumerate(total.of.columns) if (total.of.key, column) not in _IDS]
    head = [total.of.columns[n] for n in kept]
    rows = [[shown(total.of.columns[n], row[n]) for n in kept] for row in total.rows[:most]]
    numeric = [all(not isinstance(row[n], str) for row in total.rows) for n in kept]
    widths = [max(len(cells[n]) for cells in (head, *rows)) for n in range(len(kept))]
    spare = WIDTH - 2 - 2 * (len(widths) - 1) - sum(widths)
    while spare < 0:
        widest = max(range(len(widths)), key=lambda n: (not numeric[n], widths[n]))
        cut = min(-spare, max(1, widths[widest] - 12))
        widths[widest] -= cut
        spare += cut
    for cells in (head, *rows):
        yield from _row(cells, widths, numeric)
    if len(total.rows) > len(rows):
        yield say.and_more(len(total.rows) - len(rows))


def _row(cells: Sequence[str], widths: Sequence[int], numeric: Sequence[bool]) -> Iterator[str]:
    wrapped = [textwrap.wrap(cell, width) or [""] for cell, width in zip(cells, widths, strict=True)]
    for number in range(max(map(len, wrapped))):
        pieces = [lines[number] if number < len(lines) else "" for lines in wrapped]
        aligned = [
            piece.rjust(width) if is_number else piece.ljust(width)
            for piece, width, is_number in zip(pieces, widths, numeric, strict=True)
        ]
        yield f"  {'  '.join(aligned)}".rstrip()


def shown(column: str, value: Any) -> str:
    """A cell in words: shares in per cent, numbers without needless digits.

    >>> shown("share", 0.254), shown("minutes", 109.0), shown("minutes", None)
    ('25 %', '109', '-')
    """
    if value is None:
        return "-"
    if isinstance(value, float) and column in _MONEY:
        return f"{value:,.2f}"
    if isinstance(value, float):
        is_share = column.endswith("share") or column in ("trouble", say.OF_THE_COMPLAINTS_JOBS)
        return f"{value:.0%}".replace("%", " %") if is_share else f"{value:.0f}"
    return clean(value).replace("_", " ") if column == "outcome" else clean(str(value)) or "(not recorded)"
