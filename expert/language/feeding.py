"""What feeds what: the consequences of a fault, worked out from the feeds it cuts. Pure.

A feed comes through other feeds and parts. A fault that cuts one takes away everything that comes through it: what is
answered then, and which complaints follow, is a consequence of the one fault, and no second one.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace
from types import MappingProxyType

from expert.language.model import Fault, Feed, Part

Feeds = Mapping[str, Feed]


def taken_away(feeds: Feeds, cut: Iterable[str]) -> tuple[str, ...]:
    """The feeds that do not arrive when these are cut: themselves, and all that come through them."""
    gone = dict.fromkeys(name for name in cut if name in feeds)
    grew = True
    while grew:
        more = [feed.id for feed in feeds.values() if feed.id not in gone and gone.keys() & set(feed.through)]
        gone |= dict.fromkeys(more)
        grew = bool(more)
    return tuple(gone)


def with_consequences(fault: Fault, feeds: Feeds) -> Fault:
    """The fault with the answers and complaints that follow from what it cuts, and what it hides.

    What its author says of a question stands: the element that is open shows its own resistance, whatever else is cold.
    """
    gone = taken_away(feeds, fault.cuts)
    if not gone:
        return fault
    follows: dict[str, tuple[str, ...]] = {}
    for feed in gone:
        for question, outcomes in feeds[feed].lacking.items():
            follows[question] = tuple(dict.fromkeys((*follows.get(question, ()), *outcomes)))
    shows = MappingProxyType({**follows, **fault.shows})
    explains = tuple(dict.fromkeys((*fault.explains, *(c for feed in gone for c in feeds[feed].explains))))
    masks = tuple(dict.fromkeys((*fault.masks, *(question for feed in gone for question in feeds[feed].hides))))
    return replace(fault, shows=shows, explains=explains, masks=masks)


def part_with_consequences(part: Part, faults: Mapping[str, Fault]) -> Part:
    """The part with its faults as they are in the whole rule base."""
    return replace(part, faults=tuple(faults[fault.id] for fault in part.faults))


def cutters(feeds: Feeds, faults: Mapping[str, Fault], feed: str) -> tuple[str, ...]:
    """The faults that keep a feed from arriving."""
    return tuple(fault.id for fault in faults.values() if feed in taken_away(feeds, fault.cuts))


def faults_meant(
    names: Iterable[str], parts: Mapping[str, Part], feeds: Feeds, faults: Mapping[str, Fault]
) -> tuple[str, ...]:
    """The faults that a list of faults, whole parts and feeds stands for, each once; a feed for whatever cuts it."""
    meant: dict[str, None] = {}
    for name in names:
        if name in parts:
            meant |= dict.fromkeys(fault.id for fault in parts[name].faults)
        elif name in feeds:
            meant |= dict.fromkeys(cutters(feeds, faults, name))
        else:
            meant[name] = None
    return tuple(meant)


def way_of(feeds: Feeds, feed: str, wiring: Mapping[str, tuple[str, ...]] = MappingProxyType({})) -> tuple[str, ...]:
    """The parts that a feed comes through, the source first; `wiring`: the order on one machine where it differs."""
    parts: dict[str, None] = {}
    for name in wiring.get(feed) or feeds[feed].through:
        parts |= dict.fromkeys(way_of(feeds, name, wiring) if name in feeds else (name,))
    return tuple(parts)
