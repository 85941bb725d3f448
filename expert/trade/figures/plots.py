"""A small picture of a curve with the job's own readings on it, as inline SVG.

Plain string building: no library, no script, no style sheet and nothing fetched, so the picture can stand in a saved
page. Colours come from the page (`currentColor`); readings are told from the curve by their shape, and named in words.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from html import escape

from expert.trade.errors import OutOfRange
from expert.trade.physics.steam import boiler_temperature
from expert.trade.sensors.platinum import pt_resistance
from expert.trade.sensors.thermistor import ntc_10k_resistance, ntc_50k_resistance, ntc_beta_resistance

WIDTH, HEIGHT = 420, 260
_LEFT, _RIGHT, _TOP, _BOTTOM = 56, 14, 46, 40
_STEPS = 60


@dataclass(frozen=True, slots=True)
class Curve:
    """What is drawn: a title, the names of both axes with units, the span along x, and y as a function of x."""

    title: str
    along: str
    up: str
    low: float
    high: float
    call: Callable[[float], float]


@dataclass(frozen=True, slots=True)
class Point:
    """One reading of the job: its place in the units of the curve's axes, and its words."""

    x: float
    y: float
    words: str


def steam_curve(altitude: float = 0.0) -> Curve:
    """Boiler temperature over gauge pressure at an altitude [m], 0 to 2.5 bar gauge.

    >>> round(steam_curve().call(1.0), 1)      # IF97: 120.42
    120.4
    """
    return Curve(
        "Saturated steam", "gauge pressure, bar", "boiler, °C", 0.0, 2.5, lambda p: boiler_temperature(p, altitude)
    )


def platinum_curve(ice_point_resistance: float = 100.0) -> Curve:
    """Resistance of a platinum sensor over temperature, 0 to 150 degC; ice_point_resistance 100 or 1000 ohm.

    >>> round(platinum_curve(1000.0).call(100.0), 1)      # IEC 60751: 1385.1
    1385.1
    """
    title = f"Pt{ice_point_resistance:g}"
    return Curve(title, "temperature, °C", "ohm", 0.0, 150.0, lambda t: pt_resistance(ice_point_resistance, t))


def thermistor_curve(resistance_25: float, beta: float) -> Curve:
    """Resistance of a thermistor by its beta value over temperature, 10 to 125 degC.

    >>> round(thermistor_curve(10000.0, 3977.0).call(85.0), 1)      # reference 1070.3
    1070.3
    """
    title = f"NTC {resistance_25 / 1000:g} k, beta {beta:g} K"
    return Curve(title, "temperature, °C", "ohm", 10.0, 125.0, lambda t: ntc_beta_resistance(resistance_25, beta, t))


NTC_10K = Curve("NTC 10 k (B25/85 = 3977 K)", "temperature, °C", "ohm", 10.0, 125.0, ntc_10k_resistance)
NTC_50K = Curve("NTC 50 k (B25/50 = 3950 K)", "temperature, °C", "ohm", 10.0, 125.0, ntc_50k_resistance)


def draw(curve: Curve, points: Sequence[Point] = ()) -> str:
    """The curve and the readings as one `<svg>` element, with the readings in words as its description.

    A reading outside the curve's span widens the picture as far as the curve itself holds; the curve is drawn only
    where its source covers it. Raises ValueError if a reading is not a finite number.

    >>> draw(steam_curve(), [Point(1.2, 123.4, "boiler gauge")]).startswith('<svg xmlns="http://www.w3.org/2000/svg"')
    True
    """
    for point in points:
        if not (abs(point.x) < 1e15 and abs(point.y) < 1e15):
            raise ValueError(f"reading {point.words[:40]!r} is not a finite number and cannot be drawn")
    low = min([curve.low, *(point.x for point in points)])
    high = max([curve.high, *(point.x for point in points)])
    line = _line(curve, low, high)
    heights = [y for _, y in line] + [point.y for point in points]
    floor, ceiling = min(heights), max(heights)
    frame = _Frame(low, high, floor, ceiling if ceiling > floor else floor + 1.0)
    told = "; ".join(f"{point.words}: {point.x:.4g}, {point.y:.4g}" for point in points) or "no readings"
    parts = [
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDTH} {HEIGHT}" width="{WIDTH}" height="{HEIGHT}"'
        ' role="img" font-family="sans-serif" font-size="11" fill="currentColor">',
        f"<title>{escape(curve.title)}</title><desc>{escape(told)}</desc>",
        *_axes(curve, frame),
        f'<polyline fill="none" stroke="currentColor" stroke-width="1.5" points="{frame.path(line)}"/>',
        *(_marker(frame, point) for point in points),
        "</svg>",
    ]
    return "\n".join(parts)


@dataclass(frozen=True, slots=True)
class _Frame:
    """Where a value lies on the paper."""

    low: float
    high: float
    floor: float
    ceiling: float

    def across(self, x: float) -> float:
        return _LEFT + (x - self.low) / (self.high - self.low) * (WIDTH - _LEFT - _RIGHT)

    def down(self, y: float) -> float:
        return HEIGHT - _BOTTOM - (y - self.floor) / (self.ceiling - self.floor) * (HEIGHT - _TOP - _BOTTOM)

    def path(self, line: Sequence[tuple[float, float]]) -> str:
        return " ".join(f"{self.across(x):.1f},{self.down(y):.1f}" for x, y in line)


def _line(curve: Curve, low: float, high: float) -> list[tuple[float, float]]:
    line = []
    for step in range(_STEPS + 1):
        x = low + (high - low) * step / _STEPS
        try:
            line.append((x, curve.call(x)))
        except OutOfRange:
            # A reading may lie beyond the curve's source; the curve ends where its source ends.
            continue
    return line


def _axes(curve: Curve, frame: _Frame) -> list[str]:
    bottom, right = HEIGHT - _BOTTOM, WIDTH - _RIGHT
    parts = [
        f'<text x="{_LEFT}" y="14" font-weight="bold">{escape(curve.title)}</text>',
        f'<path d="M{_LEFT} {_TOP}V{bottom}H{right}" fill="none" stroke="currentColor"/>',
        f'<text x="{right}" y="{HEIGHT - 6}" text-anchor="end">{escape(curve.along)}</text>',
        f'<text x="4" y="{_TOP - 14}">{escape(curve.up)}</text>',
    ]
    for step in range(5):
        x = frame.low + (frame.high - frame.low) * step / 4
        y = frame.floor + (frame.ceiling - frame.floor) * step / 4
        parts.append(f'<text x="{frame.across(x):.1f}" y="{bottom + 14}" text-anchor="middle">{x:.3g}</text>')
        parts.append(f'<text x="{_LEFT - 4}" y="{frame.down(y) + 4:.1f}" text-anchor="end">{_short(y)}</text>')
    return parts


def _short(number: float) -> str:
    return f"{number / 1000:.3g}k" if abs(number) >= 1000 else f"{number:.3g}"


def _marker(frame: _Frame, point: Point) -> str:
    """A cross, so that it stays a reading in black and white, with its words on the side that has room."""
    x, y = frame.across(point.x), frame.down(point.y)
    left_half = x < (WIDTH + _LEFT) / 2
    anchor, shift = ("start", 8) if left_half else ("end", -8)
    cross = (
        f'<path d="M{x - 5:.1f} {y:.1f}h10M{x:.1f} {y - 5:.1f}v10" fill="none" stroke="currentColor" stroke-width="2"/>'
    )
    words = escape(point.words if len(point.words) <= 40 else point.words[:37] + "...")
    return f'{cross}<text x="{x + shift:.1f}" y="{y - 6:.1f}" text-anchor="{anchor}">{words}</text>'
