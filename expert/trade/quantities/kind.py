"""What is known of one kind of quantity."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import NamedTuple


class Kind(NamedTuple):
    """One kind of quantity. A number n in a unit is n * factor + offset in the base unit."""

    name: str
    words: str
    family: str
    base: str
    units: Mapping[str, tuple[float, float]]
    believable: tuple[float, float]
    spellings: Mapping[str, str] = MappingProxyType({})
    us: str = ""
    ladder: tuple[tuple[float, str], ...] = ()
    shown: Mapping[str, str] = MappingProxyType({})
    significant: int = 4
    most_decimals: int = 2
    trim: bool = True
    over_range: bool = False

    def preferred(self, system: str) -> str:
        """The unit that a bare number has, and that a message offers first."""
        return self.us if system == "us" and self.us else self.base
