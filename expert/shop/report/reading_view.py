"""A reading on its scale: the named bands between their limits, and the reading with its uncertainty."""

from __future__ import annotations

import math
from dataclasses import dataclass

from expert.job.state.job import Given, Job
from expert.job.state.values import bands_of
from expert.job.wording.limits import show_limit
from expert.job.wording.readings import understood
from expert.language.formulas.formula import CannotWorkOut, NotKnown
from expert.language.model import Question
from expert.trade.quantities.units import Quantity, show

WIDTH, LEFT, RIGHT, ROW = 340, 10, 330, 13
LETTER = 6.6  # as wide as a letter of the picture's size is at most, on average
WIDE = 30.0  # limits further apart than this factor stand on a logarithmic scale


@dataclass(frozen=True, slots=True)
class Zone:
    """A band between two places on the scale. `is_sound`: what a sound machine shows."""

    name: str
    low: float
    high: float
    is_sound: bool


@dataclass(frozen=True, slots=True)
class Mark:
    """A limit: its place on the scale, and its words with their own place and row below it."""

    x: float
    words: str
    at: float
    row: int


@dataclass(frozen=True, slots=True)
class ReadingPicture:
    """One reading. `at` None: over range, beyond the right end. `low`, `high`: the ends of its uncertainty."""

    number: int
    ask: str
    shown: str
    verdict: str
    told: tuple[str, ...]
    zones: tuple[Zone, ...]
    marks: tuple[Mark, ...]
    at: float | None
    low: float
    high: float
    is_logarithmic: bool
    width: int = WIDTH

    @property
    def height(self) -> int:
        return 64 + ROW * max(mark.row for mark in self.marks)


def readings_of(job: Job) -> tuple[ReadingPicture, ...]:
    """Every reading of the job whose limits can be worked out, in the order they were taken."""
    pictures = (_picture(job, given) for given in job.given.values() if given.quantity is not None)
    return tuple(picture for picture in pictures if picture is not None)


def _picture(job: Job, given: Given) -> ReadingPicture | None:
    question = job.base.questions[given.question]
    assert given.quantity is not None
    try:
        bands = bands_of(job, question)
        told = understood(job, question, given)
    except (NotKnown, CannotWorkOut):
        return None
    limits = sorted({limit.value for _, low, high in bands for limit in (low, high) if limit is not None})
    if not limits:
        return None
    doubt = given.uncertainty.value if given.uncertainty else 0.0
    scale = _Scale.over(limits, given.quantity.value, doubt)
    kind = given.quantity.kind
    return ReadingPicture(
        given.number,
        question.ask,
        show(given.quantity, system=job.shop.system),
        " or ".join(given.outcomes),
        told,
        _zones(question, bands, scale),
        _marks([(scale.place(limit), show_limit(job, Quantity(limit, kind))) for limit in limits]),
        None if math.isinf(given.quantity.value) else scale.place(given.quantity.value),
        scale.place(given.quantity.value - doubt),
        scale.place(given.quantity.value + doubt),
        scale.is_logarithmic,
    )


def _marks(limits: list[tuple[float, str]]) -> tuple[Mark, ...]:
    """Each limit's words in the first row where they do not run into their neighbour."""
    taken: list[float] = []  # by row: where its last words end
    marks = []
    for x, words in limits:
        half = len(words) * LETTER / 2
        at = min(max(x, LEFT + half), RIGHT - half)
        row = next((n for n, end in enumerate(taken) if end + LETTER <= at - half), len(taken))
        taken[row:] = [at + half, *taken[row + 1 :]]
        marks.append(Mark(x, words, at, row))
    return tuple(marks)


def _zones(
    question: Question, bands: tuple[tuple[str, Quantity | None, Quantity | None], ...], scale: _Scale
) -> tuple[Zone, ...]:
    """The bands, what takes the rest first, so that the others lie upon it."""
    in_order = sorted(bands, key=lambda band: (band[1] is not None) + (band[2] is not None) > 0)
    return tuple(
        Zone(
            name,
            LEFT if low is None else scale.place(low.value),
            RIGHT if high is None else scale.place(high.value),
            name in question.sound,
        )
        for name, low, high in in_order
    )


@dataclass(frozen=True, slots=True)
class _Scale:
    """From a value to a place across the picture."""

    low: float
    high: float
    is_logarithmic: bool

    @classmethod
    def over(cls, limits: list[float], reading: float, doubt: float) -> _Scale:
        values = [*limits, *([] if math.isinf(reading) else [reading - doubt, reading, reading + doubt])]
        least, most = min(values), max(values)
        positive = [value for value in values if value > 0]
        if least >= 0 and positive and most / min(positive) > WIDE:
            least = min(positive)
            return cls(math.log10(least) - 0.3, math.log10(most) + 0.3, True)
        room = 0.25 * ((most - least) or abs(most) or 1.0)
        return cls(least - room, most + room, False)

    def place(self, value: float) -> float:
        if self.is_logarithmic:
            value = math.log10(value) if value > 0 else self.low
        share = (min(max(value, self.low), self.high) - self.low) / (self.high - self.low)
        return LEFT + share * (RIGHT - LEFT)
