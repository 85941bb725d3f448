"""The trade calculations that a formula may call by name."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from expert.trade.figures import Figure


def trade_functions() -> Mapping[str, Figure]:
    """Every trade function by its name. Imported at the first formula that needs one."""
    from expert.trade.figures import FIGURES

    return FIGURES
