"""Where an expected number comes from, and whether agreeing with it proves anything.

Only INDEPENDENT proves that a calculation is right. TRANSCRIPTION proves that figures were copied without a slip, where
the code and the test took them from two different printings. ROUND_TRIP proves that a calculation and its inverse fit
each other. RESTATED is the same equation with the same figures on both sides: it guards against a later slip and is
counted nowhere.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum


class Basis(Enum):
    """What a comparison rests on, the best first."""

    INDEPENDENT = "independent"
    TRANSCRIPTION = "transcription"
    ROUND_TRIP = "round trip"
    RESTATED = "restated"


@dataclass(frozen=True, slots=True, order=True)
class Source:
    """A source in words, and what a comparison with it rests on (the value of a `Basis`)."""

    words: str
    on: str

    @property
    def basis(self) -> Basis:
        return Basis(self.on)


def independent(words: str) -> Source:
    """A library that our code does not call, or a publication whose figures our code does not use."""
    return Source(words, Basis.INDEPENDENT.value)


def transcription(words: str, ours: str) -> Source:
    """Published figures that the code holds as well. `ours`: the printing that the code's figures were taken from.

    The same printing on both sides counts for nothing; an empty `ours` says just that.

    >>> transcription("maker's table", ours="the standard's table").basis.value
    'transcription'
    >>> transcription("maker's table", ours="maker's table").basis.value
    'restated'
    """
    if ours in ("", words):
        return Source(f"{words}; one printing", Basis.RESTATED.value)
    return Source(f"{words}; ours from {ours}", Basis.TRANSCRIPTION.value)


def round_trip(words: str) -> Source:
    """There and back: a calculation against its own inverse, or a numerical inverse of the same equation."""
    return Source(words, Basis.ROUND_TRIP.value)


def restated(words: str) -> Source:
    """The same equation with the same figures, worked out again by hand or in the test."""
    return Source(words, Basis.RESTATED.value)
