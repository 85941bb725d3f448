"""Curves on doubly logarithmic paper, as SVG text."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from html import escape

WIDTH, HEIGHT = 460, 380
LEFT, RIGHT, TOP, BOTTOM = 60, 130, 46, 48
DASHES = ("none", "7 3", "2 3", "9 3 2 3")
LABEL_GAP = 13.0


@dataclass(frozen=True)
class Curve:
    """Values against the number of rules. Ours are drawn bold and in colour, the others grey."""

    name: str
    points: Mapping[int, float]
    ours: bool


@dataclass(frozen=True)
class Panel:
    title: str
    unit: str
    curves: Sequence[Curve]


class Scale:
    """From a value to its place between two ends, by whole decades."""

    def __init__(self, values: Sequence[float], start: float, end: float) -> None:
        self.low = math.floor(math.log10(min(values)))
        self.high = max(self.low + 1, math.ceil(math.log10(max(values))))
        self._start, self._end = start, end

    def __call__(self, value: float) -> float:
        part = (math.log10(value) - self.low) / (self.high - self.low)
        return self._start + part * (self._end - self._start)

    def decades(self) -> list[float]:
        return [10.0**power for power in range(self.low, self.high + 1)]


def draw(panels: Sequence[Panel]) -> str:
    """The panels side by side. Every curve carries its name at its end, so no legend and no colour is needed."""
    width = WIDTH * len(panels)
    parts = [
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {width} {HEIGHT}" width="{width}" height="{HEIGHT}" '
        'font-family="sans-serif" font-size="12">',
        f'<rect width="{width}" height="{HEIGHT}" fill="white"/>',
    ]
    for number, panel in enumerate(panels):
        parts += [f'<g transform="translate({number * WIDTH} 0)">', *_panel(panel), "</g>"]
    return "\n".join([*parts, "</svg>", ""])


def _panel(panel: Panel) -> list[str]:
    x = Scale([size for curve in panel.curves for size in curve.points], LEFT, WIDTH - RIGHT)
    y = Scale([value for curve in panel.curves for value in curve.points.values()], HEIGHT - BOTTOM, TOP)
    parts = [_text(LEFT, 20, panel.title, 'font-weight="bold"'), _text(LEFT, 36, panel.unit)]
    parts.append(_text((LEFT + WIDTH - RIGHT) / 2, HEIGHT - 10, "rules", 'text-anchor="middle"'))
    for value in x.decades():
        parts.append(_line(x(value), TOP, x(value), HEIGHT - BOTTOM))
        parts.append(_text(x(value), HEIGHT - BOTTOM + 16, f"{value:,.0f}", 'text-anchor="middle"'))
    for value in y.decades():
        parts.append(_line(LEFT, y(value), WIDTH - RIGHT, y(value)))
        parts.append(_text(LEFT - 6, y(value) + 4, f"{value:,g}", 'text-anchor="end"'))
    ends = []
    for number, curve in enumerate(panel.curves):
        colour, thick = ("#0b5394", 2.2) if curve.ours else ("#777777", 1.3)
        places = [(x(size), y(value)) for size, value in sorted(curve.points.items())]
        path = " ".join(f"{across:.1f},{down:.1f}" for across, down in places)
        style = f'stroke="{colour}" stroke-width="{thick}" stroke-dasharray="{DASHES[number % len(DASHES)]}"'
        parts.append(f'<polyline points="{path}" fill="none" {style}/>')
        ends.append((places[-1][1], places[-1][0], curve.name, colour))
    return parts + _names(ends)


def _names(ends: list[tuple[float, float, str, str]]) -> list[str]:
    """The names at the ends of the curves, moved apart where they would overlap."""
    parts = []
    lowest = 0.0
    for down, across, name, colour in sorted(ends):
        at = max(down, lowest + LABEL_GAP)
        lowest = at
        parts.append(_text(across + 6, at + 4, name, f'fill="{colour}"'))
    return parts


def _line(x1: float, y1: float, x2: float, y2: float) -> str:
    return f'<line x1="{x1:.1f}" y1="{y1:.1f}" x2="{x2:.1f}" y2="{y2:.1f}" stroke="#dddddd"/>'


def _text(x: float, y: float, words: str, style: str = "") -> str:
    return f'<text x="{x:.1f}" y="{y:.1f}" {style}>{escape(words)}</text>'
