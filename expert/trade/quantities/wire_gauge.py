"""Copper sections by American Wire Gauge, for cords of North America."""

from __future__ import annotations

import math
import re

from expert.trade import sentences as say

_GAUGE = r"\s*(?:#?([0-9]{1,2})\s*(?:awg|ga(?:uge)?)|awg\s*#?([0-9]{1,2}))\s*\Z"
NEAR = 0.01  # a section this near to a gauge is that gauge


def awg_section(gauge: int) -> float:
    """Copper section of a solid wire of a gauge, in [mm2]; gauge 0 to 40, else ValueError.

    d = 0.127 mm x 92^((36 - n)/39). Source: ASTM B258 (from memory, to be confirmed).
    >>> round(awg_section(16), 2), round(awg_section(14), 2)      # 1.31 and 2.08 in every table
    (1.31, 2.08)
    """
    if not 0 <= gauge <= 40:
        raise ValueError(say.wire_gauge_not_known(gauge))
    return math.pi / 4 * math.pow(0.127 * math.pow(92, (36 - gauge) / 39), 2)


def read_awg(text: str) -> float | None:
    """The section meant by a gauge, in [mm2]; None when the text is no gauge.

    >>> round(read_awg("16 AWG") or 0, 3), read_awg("1.5 mm2")
    (1.309, None)
    """
    found = re.match(_GAUGE, text, re.IGNORECASE)
    if found is None:
        return None
    gauge = int(found[1] or found[2])
    return awg_section(gauge) if gauge <= 40 else None


def shown_as_awg(section: float) -> str:
    """A section as its gauge, or '' when it is none.

    >>> shown_as_awg(1.309), shown_as_awg(1.5)
    ('16 AWG', '')
    """
    for gauge in range(41):
        if abs(awg_section(gauge) - section) <= NEAR * section:
            return f"{gauge} AWG"
    return ""
