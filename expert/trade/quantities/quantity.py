"""A number with its kind, and the arithmetic that keeps kinds apart."""

from __future__ import annotations

from expert.trade import sentences as say
from expert.trade.errors import KindsDiffer
from expert.trade.frozen import dataclass
from expert.trade.quantities.bench_kinds import KINDS

_DIFFERENCES = {
    "temperature": "temperature_difference",
    "gauge_pressure": "pressure_difference",
    "absolute_pressure": "pressure_difference",
}


def difference_of(kind: str) -> str:
    """The kind of the difference between two quantities of this kind.

    >>> difference_of("gauge_pressure"), difference_of("resistance")
    ('pressure_difference', 'resistance')
    """
    return _DIFFERENCES.get(kind, kind)


@dataclass(frozen=True, slots=True)
class Quantity:
    """A value in the base unit of its kind, for instance bar, degC, ohm. Infinity stands for "over range" (OL).

    Ordered within a kind. A difference may be added to or taken from its own kind; two quantities of one kind
    subtract to a difference. Everything else raises KindsDiffer, so gauge and absolute pressure never mix.

    >>> Quantity(93.0, "temperature") - Quantity(20.0, "temperature")
    Quantity(value=73.0, kind='temperature_difference')
    >>> Quantity(9.0, "gauge_pressure") + Quantity(1.0, "absolute_pressure")
    Traceback (most recent call last):
    expert.trade.errors.KindsDiffer: an absolute pressure cannot be added to a gauge pressure
    """

    value: float
    kind: str

    def __post_init__(self) -> None:
        if self.kind not in KINDS:
            raise ValueError(say.no_kind_of_quantity(self.kind[:40]))
        if self.value != self.value:
            raise ValueError(say.QUANTITY_WITHOUT_VALUE)

    def __lt__(self, other: Quantity) -> bool:
        return self.value < self._alike(other).value

    def __le__(self, other: Quantity) -> bool:
        return self.value <= self._alike(other).value

    def __gt__(self, other: Quantity) -> bool:
        return self.value > self._alike(other).value

    def __ge__(self, other: Quantity) -> bool:
        return self.value >= self._alike(other).value

    def __add__(self, other: Quantity) -> Quantity:
        if other.kind == difference_of(self.kind):
            return Quantity(self.value + other.value, self.kind)
        if self.kind == difference_of(other.kind):
            return Quantity(self.value + other.value, other.kind)
        raise KindsDiffer(say.cannot_be_added(with_article(other.kind), with_article(self.kind)))

    def __sub__(self, other: Quantity) -> Quantity:
        if other.kind == self.kind:
            return Quantity(self.value - other.value, difference_of(self.kind))
        if other.kind == difference_of(self.kind):
            return Quantity(self.value - other.value, self.kind)
        raise KindsDiffer(say.cannot_be_taken_from(with_article(other.kind), with_article(self.kind)))

    def _alike(self, other: Quantity) -> Quantity:
        if other.kind != self.kind:
            raise KindsDiffer(say.cannot_be_compared(with_article(self.kind), with_article(other.kind)))
        return other


def with_article(kind: str) -> str:
    """The kind in words with its article, as a sentence needs it.

    >>> with_article("ac_voltage"), with_article("resistance")
    ('an AC voltage', 'a resistance')
    """
    return article(KINDS[kind].words)


def article(words: str) -> str:
    """The words with 'a' or 'an' in front."""
    return f"an {words}" if words[0].lower() in "aeio" else f"a {words}"
