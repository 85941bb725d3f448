"""Mixing waters, and what stays behind in a steam boiler."""

from __future__ import annotations

from expert.trade.errors import OutOfRange, above, in_order, within

_BLEND = "blending of two waters"
_BOILER = "the balance of dissolved solids in a steam boiler"


def blended_hardness(first: float, second: float, share: float) -> float:
    """Hardness of two waters mixed, in [mg/L] as CaCO3. Alkalinity and conductivity mix alike; pH does not.

    first, second [mg/L], 0 to 5000; share: of the first [%], 0 to 100; else OutOfRange.
    Source: balance of mass.
    >>> blended_hardness(300.0, 10.0, 25.0)
    82.5
    """
    within("first hardness", first, "mg/L", 0.0, 5000.0, _BLEND)
    within("second hardness", second, "mg/L", 0.0, 5000.0, _BLEND)
    within("share", share, "%", 0.0, 100.0, _BLEND)
    return second + (first - second) * share / 100


def blend_share(first: float, second: float, wanted: float) -> float:
    """Share of the first water that brings a blend to a wanted hardness, in [%].

    first, second [mg/L], 0 to 5000 and different; wanted [mg/L], between them; else OutOfRange.
    Source: balance of mass.
    >>> round(blend_share(300.0, 10.0, 82.5))
    25
    """
    within("first hardness", first, "mg/L", 0.0, 5000.0, _BLEND)
    within("second hardness", second, "mg/L", 0.0, 5000.0, _BLEND)
    if first == second:
        raise OutOfRange("second hardness", second, "mg/L", None, None, _BLEND)
    within("wanted hardness", wanted, "mg/L", min(first, second), max(first, second), _BLEND)
    return 100 * (wanted - second) / (first - second)


def boiler_solids(feed_solids: float, steam_made: float, boiler_volume: float) -> float:
    """Dissolved solids of boiler water after so much steam was made and fed again, in [mg/L].

    feed_solids [mg/L], 0 to 5000; steam_made: as water since the boiler was last drained [ml], 0 or more;
    boiler_volume: of water in it [ml], above 0; else OutOfRange. Lime falls out on the way, other salts stay.
    Source: balance of mass: steam takes nothing along.
    >>> boiler_solids(150.0, 20000.0, 2000.0)
    1650.0
    """
    within("feed solids", feed_solids, "mg/L", 0.0, 5000.0, _BOILER)
    within("steam made", steam_made, "ml", 0.0, 1e8, _BOILER)
    above("boiler volume", boiler_volume, "ml", 0.0, _BOILER)
    return feed_solids * (1 + steam_made / boiler_volume)


def drain_share(feed_solids: float, most_solids: float) -> float:
    """Share of the feed water that has to be drained for the boiler to stay below a limit, in [%].

    feed_solids [mg/L], 0 to 5000; most_solids: wanted in the boiler [mg/L], above feed_solids, at most 100000; else
    OutOfRange.
    Source: balance of mass in the long run: what comes in with the feed leaves with the drain.
    >>> drain_share(150.0, 1500.0)
    10.0
    """
    within("feed solids", feed_solids, "mg/L", 0.0, 5000.0, _BOILER)
    above("limit of solids", most_solids, "mg/L", 0.0, _BOILER)
    within("limit of solids", most_solids, "mg/L", 0.0, 1e5, _BOILER)
    in_order("feed solids", feed_solids, "limit of solids", most_solids, "mg/L")
    return 100 * feed_solids / most_solids
