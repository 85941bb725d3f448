"""Quantities of the bench: kinds, reading as typed, showing as written. The front of the unit modules.

`kinds.py` holds the table, `quantity.py` the value and its arithmetic, `unit_names.py` the spellings, `reading.py`
text to quantity, `showing.py` quantity to text. Everything else imports from here.
"""

from __future__ import annotations

from expert.trade.errors import KindsDiffer
from expert.trade.quantities.bench_kinds import KINDS, Kind
from expert.trade.quantities.quantity import Quantity, difference_of, with_article
from expert.trade.quantities.reading import (
    NotAQuantity,
    NotBelievable,
    believable,
    echo,
    number_and_unit,
    read_quantity,
)
from expert.trade.quantities.showing import show
from expert.trade.quantities.unit_names import unit_in, unit_like, units_named

__all__ = [
    "KINDS",
    "Kind",
    "KindsDiffer",
    "NotAQuantity",
    "NotBelievable",
    "Quantity",
    "believable",
    "difference_of",
    "echo",
    "number_and_unit",
    "read_quantity",
    "show",
    "unit_in",
    "unit_like",
    "units_named",
    "with_article",
]
