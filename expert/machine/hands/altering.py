"""What hands alter for a test, and how it is put back: entries in the bench's sets of names."""

from __future__ import annotations

from dataclasses import replace

from expert.machine.bench.bench import BYPASSES, CAPS, DIRECT_FEEDS, HOSES, LINES, Bench
from expert.machine.mains.wiring import JOINTS, POINTS

REMOVABLE = (
    "sensor",
    "mains fuse",
    "board fuse",
    "vacuum valve",
    "safety valve",
    "group jet",
    "shower screen",
    "suction filter",
)
# kind of alteration: the bench's field, the names it knows.
KINDS: dict[str, tuple[str, tuple[str, ...]]] = {
    "lift": ("lifted", JOINTS),
    "loosen": ("loosened", LINES),
    "pinch": ("pinched", HOSES),
    "bypass": ("bypassed", BYPASSES),
    "cap": ("capped", CAPS),
    "take tip off": ("tips_off", ("steam", "water")),
    "remove": ("removed", REMOVABLE),
    "feed": ("fed", DIRECT_FEEDS),
}


def altered(bench: Bench, kind: str, what: str) -> Bench:
    """The bench with one thing altered. ValueError for a kind or name that is not known, with what would do."""
    field, names = _known(kind, what, KINDS)
    del names
    return replace(bench, **{field: getattr(bench, field) | {what}})


def put_back(bench: Bench, kind: str, what: str) -> Bench:
    """The bench with that thing as it was; nothing happens if it was not altered."""
    field, _ = _known(kind, what, KINDS)
    return replace(bench, **{field: getattr(bench, field) - {what}})


def all_put_back(bench: Bench) -> Bench:
    """The bench with nothing altered for a test."""
    fields = {field: frozenset[str]() for field, _ in KINDS.values()}
    return replace(bench, links=(), battery=None, **fields)  # type: ignore[arg-type]


def check_point(point: str) -> None:
    """ValueError unless it is a point of the wiring."""
    if point not in POINTS:
        raise ValueError(f"{point!r} is not a point of this machine's wiring")


def _known(kind: str, what: str, kinds: dict[str, tuple[str, tuple[str, ...]]]) -> tuple[str, tuple[str, ...]]:
    if kind not in kinds:
        raise ValueError(f"{kind!r} is not a kind of alteration; {', '.join(kinds)} would do")
    field, names = kinds[kind]
    if what not in names:
        raise ValueError(f"{what!r} cannot be altered so ({kind}); {', '.join(names)} would do")
    return field, names
