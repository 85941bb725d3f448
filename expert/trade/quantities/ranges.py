"""Ranges as rating plates print them, such as 220-240 V or 1300-1500 W."""

from __future__ import annotations

import re

# A plain string: the re module compiles it at its first use, so that importing this module costs nothing.
_RANGE = r"([0-9]+(?:[.,][0-9]+)?)\s*[a-zA-Z]*\s*(?:-|–|—|−|to|\.\.+|/)\s*([0-9]+(?:[.,][0-9]+)?)\s*([a-zA-Z]*)"


def written_range(text: str) -> tuple[str, str, str] | None:
    """The two ends and the unit ('' if none) of a range as printed; None for anything else.

    text: as typed. The unit is that behind the second end. The ends are not put in order.
    Source: rating plates (common practice, no source).
    >>> written_range("220-240 V"), written_range("110 V / 120 V"), written_range("230 V")
    (('220', '240', 'V'), ('110', '120', 'V'), None)
    """
    matched = re.fullmatch(_RANGE, text.strip())
    return None if matched is None else (matched[1], matched[2], matched[3])
