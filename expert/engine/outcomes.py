"""The outcomes of a fact, and sets of them as whole numbers.

A set of outcomes is a *mask*: bit 0 stands for the first outcome, bit 1 for the second, and so on.
Facts with the same outcomes (all the yes/no questions, all the faults) share one `Outcomes`.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Generic, TypeVar

Member = TypeVar("Member")


class UnknownName(ValueError):
    """A fact, outcome, rule or source that this network or state does not have."""


class Subsets(dict[int, tuple[Member, ...]], Generic[Member]):
    """For each mask the members that it picks, in order; worked out the first time a mask is asked for.

    >>> Subsets(("open", "sound", "shorted"))[0b101]
    ('open', 'shorted')
    """

    def __init__(self, members: Sequence[Member]) -> None:
        super().__init__()
        self._members = tuple(members)

    def __missing__(self, mask: int) -> tuple[Member, ...]:
        picked = tuple(member for place, member in enumerate(self._members) if mask >> place & 1)
        self[mask] = picked
        return picked


class Masks(dict[tuple[str, ...], int]):
    """For each choice of outcomes their mask; worked out the first time it is asked for. KeyError: no such outcome."""

    def __init__(self, bits: Mapping[str, int]) -> None:
        super().__init__()
        self._bits = bits

    def __missing__(self, chosen: tuple[str, ...]) -> int:
        mask = 0
        for outcome in chosen:
            mask |= self._bits[outcome]
        self[chosen] = mask
        return mask


class Outcomes:
    """The outcomes that a fact can have. `full` is the mask of them all.

    `masks[names]` is the mask of the outcomes named, `named[mask]` are the outcomes in a mask, `marked[mask]` the same
    as pairs of bit and place.
    """

    __slots__ = ("bits", "full", "marked", "masks", "named", "names")

    def __init__(self, names: tuple[str, ...]) -> None:
        self.names = names
        self.bits = {name: 1 << place for place, name in enumerate(names)}
        self.full = (1 << len(names)) - 1
        self.masks = Masks(self.bits)
        self.named = Subsets(names)
        self.marked = Subsets([(1 << place, place) for place in range(len(names))])
        if not names or len(self.bits) != len(names):
            raise ValueError(f"a fact needs outcomes, each of them once; found ({', '.join(names)})")
