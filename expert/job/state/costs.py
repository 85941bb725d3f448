"""What a job costs by the shop's own rates: work by the hour, parts by their prices. Amounts to the hundredth.

Nothing is guessed: a part without a price in the shop's list is named as such, and no sum pretends to hold it.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from expert.trade.frozen import dataclass

_COUNTED = re.compile(r"([1-9][0-9]{0,2}) *x? +(.+)")
# Currencies that are not written in hundredths (ISO 4217, from memory, to be confirmed), by code or sign.
_WHOLE = frozenset({"JPY", "YEN", "KRW", "ISK", "HUF", "CLP", "VND"})


@dataclass(frozen=True, slots=True)
class Rates:
    """What the shop's profile says of costs. `hourly_rate`: of an hour of work, 0 or above; `prices`: by part.

    `on_slip`: whether the customer's slip tells them.
    """

    currency: str
    hourly_rate: float = 0.0
    prices: tuple[tuple[str, float], ...] = ()
    on_slip: bool = False


@dataclass(frozen=True, slots=True)
class Costs:
    """What one job costs. `parts`: each as it was stated, with what it costs, or None where the list has no price."""

    currency: str
    work: float
    parts: tuple[tuple[str, float | None], ...] = ()

    @property
    def for_parts(self) -> float:
        return round(sum(price for _, price in self.parts if price is not None), 2)

    @property
    def together(self) -> float:
        return round(self.work + self.for_parts, 2)

    @property
    def without_price(self) -> tuple[str, ...]:
        return tuple(part for part, price in self.parts if price is None)


def costs_of(rates: Rates, minutes: float, parts: Sequence[str]) -> Costs:
    """The costs of so many minutes and these parts, each as it was typed: with a count before it or without.

    >>> costs = costs_of(Rates("EUR", 80.0, (("Seal", 2.5),)), 45.0, ("4 seal", "washer"))
    >>> costs.work, costs.parts, costs.together
    (60.0, (('4 seal', 10.0), ('washer', None)), 70.0)
    """
    prices = {part.casefold(): price for part, price in rates.prices}
    return Costs(
        rates.currency,
        round(minutes / 60 * rates.hourly_rate, 2),
        tuple((part, _price(part, prices)) for part in parts),
    )


def _price(part: str, prices: dict[str, float]) -> float | None:
    word = " ".join(part.split()).casefold()
    if word in prices:
        return prices[word]
    counted = _COUNTED.fullmatch(word)
    if counted is None or counted[2] not in prices:
        return None
    return round(int(counted[1]) * prices[counted[2]], 2)


def money(amount: float, currency: str) -> str:
    """An amount as it is written on a bill.

    >>> money(1234.5, "EUR"), money(1234.0, "JPY")
    ('1,234.50 EUR', '1,234 JPY')
    """
    return f"{amount:,.{0 if currency.upper() in _WHOLE else 2}f} {currency}"
