"""Which unit a typed name means: exact names first, then other spellings, then any mixture of capitals.

The case of a letter is kept where it changes the meaning: `mohm` and `Mohm` differ by a factor of a thousand million,
so `mΩ` is milli and `MΩ` is mega, and `MV` is never read as `mV`.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable
from difflib import get_close_matches
from functools import cache

from expert.trade.quantities.bench_kinds import KINDS, Kind

_CASE_MATTERS = frozenset({"MV", "MA", "MS", "MS/cm", "mPa", "M", "m"})


def unit_in(kind: Kind, name: str) -> str | None:
    """The kind's own name of the unit that was typed, or None if this kind has no such unit.

    >>> unit_in(KINDS["resistance"], "MΩ"), unit_in(KINDS["temperature"], "° F"), unit_in(KINDS["power"], "bar")
    ('Mohm', 'degF', None)
    """
    # One code point for each sign: micro and ohm have two, and mm² is mm2.
    name = " ".join(unicodedata.normalize("NFKC", name.replace("º", "°")).split())
    for typed in (name, name.replace(" ", "")):
        if typed in kind.units:
            return typed
        if typed in kind.spellings:
            return kind.spellings[typed]
        if typed in _CASE_MATTERS:
            continue
        found = _folded(kind.name).get(typed.lower())
        if found is not None:
            return found
        first_letter_kept = typed[:1] + typed[1:].lower()
        if first_letter_kept in kind.units:
            return first_letter_kept
    return None


def units_named(unit: str) -> tuple[str, ...]:
    """The kinds that a unit name may belong to, in the order of the table.

    >>> units_named("F")
    ('temperature', 'temperature_difference', 'capacitance')
    >>> units_named("furlong")
    ()
    """
    if len(unit) > 40 or not unit.strip():
        return ()
    return tuple(name for name, kind in KINDS.items() if unit_in(kind, unit) is not None)


def unit_like(typed: str, names: Iterable[str]) -> str:
    """The unit most like a mistyped one, or ''. Units of a single letter are like too much.

    >>> unit_like("bra", KINDS["gauge_pressure"].units), unit_like("furlong", KINDS["gauge_pressure"].units)
    ('bar', '')
    """
    near = get_close_matches(typed[:20], [name for name in names if 1 < len(name) < len(typed) + 2 < len(name) + 4], 1)
    return near[0] if near else ""


@cache
def _folded(kind_name: str) -> dict[str, str]:
    """Small-letter names of one kind's units; a name that two units share when folded is left out."""
    kind = KINDS[kind_name]
    folded: dict[str, str] = {}
    twice: set[str] = set()
    for name, unit in [*((unit, unit) for unit in kind.units), *kind.spellings.items()]:
        if folded.setdefault(name.lower(), unit) != unit:
            twice.add(name.lower())
    return {name: unit for name, unit in folded.items() if name not in twice}
