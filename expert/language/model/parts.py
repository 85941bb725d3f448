"""Records of what can be broken: circuits, parts, faults and their repair."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field

from expert.language.model.rules import NOWHERE, Condition, Position
from expert.trade.frozen import dataclass


@dataclass(frozen=True, slots=True)
class Repair:
    """What mends a fault: minutes, steps, parts and consumables, cautions, and the bench state it needs."""

    minutes: float
    steps: tuple[str, ...]
    parts: tuple[str, ...]
    consumables: tuple[str, ...]
    cautions: tuple[str, ...]
    bench: Mapping[str, str]


@dataclass(frozen=True, slots=True)
class Fault:
    """A way a part can fail. `id` is `part.fault`.

    `explains`: complaints it can account for. `shows`: outcomes of questions it accounts for. Both hold what follows
    from the feeds it `cuts` as well, once the rule base is read.
    `result`: a state that something else brought about (a tripped limit, a lock of the board): never the end of a job.
    `caused_by`: faults that may have brought it about and must be looked for before the new part is fitted.
    `prove`: questions that must come out sound after the repair.
    """

    id: str
    part: str
    name: str
    seen: str
    explains: tuple[str, ...]
    shows: Mapping[str, tuple[str, ...]]
    caused_by: tuple[str, ...]
    dangerous: bool
    repair: Repair
    prove: tuple[str, ...]
    cuts: tuple[str, ...] = ()
    masks: tuple[str, ...] = ()
    result: bool = False
    at: Position = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Feed:
    """Something that parts live on and that arrives through other feeds and parts: mains, drive, water, pressure, heat.

    `through`: the feeds and parts it comes through, in this order, the source first. `lacking`: the answers where it
    does not arrive. `arrives`: what proves that it does; never true when nothing proves it. `explains`: the complaints
    that its lack accounts for. `hides`: questions that tell nothing while it does not arrive.
    """

    id: str
    circuit: str
    name: str
    through: tuple[str, ...]
    lacking: Mapping[str, tuple[str, ...]]
    arrives: Condition
    explains: tuple[str, ...]
    hides: tuple[str, ...] = ()
    at: Position = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Part:
    """A part of the machine. `needs`: the feeds without which it is dead whatever its own state."""

    id: str
    circuit: str
    name: str
    where: str
    applies: Mapping[str, tuple[str, ...]]
    faults: tuple[Fault, ...]
    needs: tuple[str, ...] = ()
    at: Position = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Circuit:
    id: str
    title: str
    applies: Mapping[str, tuple[str, ...]]
    at: Position = field(default=NOWHERE, compare=False)
