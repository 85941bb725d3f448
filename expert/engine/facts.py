"""The facts of a network by number, with the outcomes of each."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import accumulate

from expert.engine.outcomes import Outcomes, UnknownName

# The fact with this number is within this mask.
Test = tuple[int, int]
# An answer or a rule keeps a fact within a mask: the fact, the mask, where the counts of the fact's outcomes begin,
# and the outcomes that this excludes (bit and place of each).
Support = tuple[int, int, int, tuple[tuple[int, int], ...]]


class Facts:
    """Facts numbered in the order given. `counts` is the number of outcomes of all of them together.

    >>> facts = Facts(["mains", "fuse"], {"mains": ("on", "isolated"), "fuse": ("sound", "blown", "missing")})
    >>> facts.read("fuse", ("blown", "missing"))
    (1, 6)
    >>> facts.named(1, 6)
    ('blown', 'missing')
    """

    __slots__ = ("counts", "first_count", "names", "numbers", "outcomes")

    def __init__(self, names: Sequence[str], outcomes: Mapping[str, tuple[str, ...]]) -> None:
        """Raises UnknownName for a name that has no outcomes listed, ValueError for outcomes that make no sense."""
        for name in names:
            if name not in outcomes:
                raise UnknownName(f"there is no fact '{name}'")
        shared = {some: Outcomes(some) for some in set(outcomes.values())}
        self.names = tuple(names)
        self.numbers = {name: number for number, name in enumerate(names)}
        self.outcomes = tuple(shared[outcomes[name]] for name in names)
        *self.first_count, self.counts = accumulate((len(these.names) for these in self.outcomes), initial=0)

    def number(self, name: str) -> int:
        """The number of the fact. Raises UnknownName."""
        try:
            return self.numbers[name]
        except KeyError:
            raise UnknownName(f"there is no fact '{name}'") from None

    def read(self, name: str, outcomes: tuple[str, ...]) -> Test:
        """The number of the fact and the mask of the outcomes. Raises UnknownName."""
        try:
            number = self.numbers[name]
            return number, self.outcomes[number].masks[outcomes]
        except KeyError:
            had = self.outcomes[self.number(name)].bits
            wrong = next(outcome for outcome in outcomes if outcome not in had)
            raise UnknownName(f"'{wrong}' is not an outcome of {name}; it has {', '.join(had)}") from None

    def named(self, fact: int, mask: int) -> tuple[str, ...]:
        """The outcomes in the mask by name."""
        return self.outcomes[fact].named[mask]

    def others(self, test: Test) -> Test:
        """The opposite test: the fact is one of the other outcomes."""
        fact, mask = test
        return fact, self.outcomes[fact].full & ~mask

    def support(self, fact: int, mask: int) -> Support:
        """What it takes to keep the fact within the mask."""
        outcomes = self.outcomes[fact]
        return fact, mask, self.first_count[fact], outcomes.marked[outcomes.full & ~mask]
