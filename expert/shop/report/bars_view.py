"""Sums as bars, one row each, so that they can be read on a telephone and on paper."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from expert.shop.report.pages import folded

WIDTH, LEFT, RIGHT, LINE, BAR = 340, 4, 220, 15, 10


@dataclass(frozen=True, slots=True)
class Bar:
    """A row: the lines of its name, its number in words, and its place and length on the paper."""

    name: tuple[str, ...]
    words: str
    y: int
    length: float
    running: float | None

    @property
    def told(self) -> str:
        return f"{' '.join(self.name)}: {self.words}"


@dataclass(frozen=True, slots=True)
class BarPicture:
    """Bars below each other; a dot on each shows the running share, where there is one (it ends at the right edge)."""

    title: str
    bars: tuple[Bar, ...]
    height: int
    width: int = WIDTH
    left: int = LEFT
    right: int = RIGHT
    bar: int = BAR


def bars(title: str, rows: Iterable[tuple[str, float, str, float | None]]) -> BarPicture:
    """A picture of rows: name, number, the number in words, running share or None."""
    listed = list(rows)
    most = max((number for _, number, _, _ in listed), default=0) or 1
    drawn: list[Bar] = []
    y = 4
    for name, number, words, running in listed:
        lines = tuple(folded(name, 46, 2))
        y += LINE * len(lines)
        length = (RIGHT - LEFT) * number / most
        drawn.append(Bar(lines, words, y, length, None if running is None else LEFT + (RIGHT - LEFT) * running))
        y += BAR + 14
    return BarPicture(title, tuple(drawn), y)
