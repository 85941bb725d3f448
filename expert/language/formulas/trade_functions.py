"""The trade calculations that a formula may call by name."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from expert.trade.figures.register import Figure
    from expert.trade.quantities.units import Quantity


def trade_functions() -> Mapping[str, Figure]:
    """Every trade function by its name. Imported at the first formula that needs one."""
    from expert.trade.figures.register import FIGURES

    return FIGURES


def call_by_name(name: str, arguments: Sequence[Quantity | str]) -> Quantity:
    """What a trade function gives for these arguments. Raises OutOfRange and the like."""
    from expert.trade.figures.register import FIGURES, work_out

    return work_out(FIGURES[name], arguments)
