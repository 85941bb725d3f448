"""How the machine stands on the bench, and what hands have altered for a test."""

from __future__ import annotations

from dataclasses import dataclass

BASKETS = ("none", "blind", "coffee")
HOSES = ("return hose", "suction hose")
LINES = (
    "pump outlet",
    "solenoid inlet",
    "solenoid outlet",
    "fill valve outlet",
    "brew valve inlet",
    "brew valve outlet",
)
CAPS = ("steam tip", "water tip", "exhaust outlet")
BYPASSES = ("tank", "suction filter")
DIRECT_FEEDS = ("pump", "fill solenoid", "element")


@dataclass(frozen=True, slots=True)
class Bench:
    """State of the bench. What is altered stays so until it is put back.

    lifted: joints pulled off, by the point they end at. links: (point, point, ohm) laid across by hand (wire, resistor,
    test lamp). battery: (plus, minus, volts). fed: parts fed from the mains by a test lead, their own wires off.
    loosened: lines opened to the air. pinched: hoses. bypassed: "tank" is a hose in a jug. capped: outlets held shut.
    tips_off: wands without their tip. removed: parts in the hand, their place left open.
    """

    plugged: bool = False
    switch_on: bool = False
    covers_off: bool = False
    lever_up: bool = False
    basket: str = "none"
    steam_tap: float = 0.0
    water_tap: float = 0.0
    lifted: frozenset[str] = frozenset()
    links: tuple[tuple[str, str, float], ...] = ()
    battery: tuple[str, str, float] | None = None
    fed: frozenset[str] = frozenset()
    loosened: frozenset[str] = frozenset()
    pinched: frozenset[str] = frozenset()
    bypassed: frozenset[str] = frozenset()
    capped: frozenset[str] = frozenset()
    tips_off: frozenset[str] = frozenset()
    removed: frozenset[str] = frozenset()
