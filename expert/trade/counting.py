"""A number of things in words."""

from __future__ import annotations


def counted(number: int, one: str, several: str = "") -> str:
    """The number with the right form of the word; `several` is the word with an s unless given.

    >>> counted(1, "problem"), counted(0, "problem"), counted(2, "piece of advice", "pieces of advice")
    ('1 problem', '0 problems', '2 pieces of advice')
    """
    return f"{number} {one if number == 1 else several or one + 's'}"
