"""The customer's slip alone: as plain text, or as a page to print."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator, Sequence

from expert.trace.cleaning import clean

WIDTH = 72


def slip_in_words(head: Sequence[str], lines: Sequence[str]) -> Iterator[str]:
    """Lines of text no wider than a receipt on a page; `head`: name, phone and date."""
    for line in head:
        yield clean(line)
    if head:
        yield ""
    for line in lines:
        text = clean(line)
        indent = " " * (len(text) - len(text.lstrip()))
        yield from textwrap.wrap(text.strip(), WIDTH, initial_indent=indent, subsequent_indent=f"{indent}  ") or [""]


def slip_head(name: str, phone: str, at: str) -> tuple[str, ...]:
    """Name and phone of the shop, where they are known, and the day.

    >>> slip_head("Corner Workshop", "", "2026-01-31T16:30:00Z")
    ('Corner Workshop', '2026-01-31')
    """
    return tuple(filter(None, (name, f"Telephone {phone}" if phone else "", at[:10])))
