"""The closed sets of words that stand under keys, and the ids that nobody may give."""

from __future__ import annotations

YES_NO = ("yes", "no")
SEEN = ("common", "occasional", "rare")
STRENGTHS = {"slightly": 3, "fairly": 6, "strongly": 10}  # decibans
ENDS = ("found", "left_by_elimination", "narrowed", "normal", "stopped", "handed_over", "unresolved")
BY_COUNTRY = {"voltage": "ac_voltage", "winding": "resistance", "lead": "area"}  # each with its kind of quantity
WORK = ("qualified", "none")
RESERVED = frozenset(
    (
        *("any", "all", "not", "holds", "list", "machine", "plate", "complaint"),
        *("otherwise", "above", "below", "to", "least", "greatest"),
    )
)
