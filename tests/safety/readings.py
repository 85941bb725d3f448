"""What a technician might type for a question: for each outcome a few texts that the prompt takes for it."""

from __future__ import annotations

import random
from itertools import pairwise
from typing import Any

from expert.job.state.job import Job
from expert.job.state.values import bands_of
from expert.language.formulas.formula import CannotWorkOut, NotKnown
from expert.language.model import Question
from expert.trade.quantities.units import KINDS

CANNOT_TELL = "can't tell"


class Readings:
    """Texts for the outcomes of measured questions, by the limits that hold in the job; kept for all jobs with such."""

    def __init__(self) -> None:
        self._known: dict[tuple[str, Any], dict[str, list[str]]] = {}

    def text(self, chance: random.Random, job: Job, question: Question, wanted: tuple[str, ...] = ()) -> str:
        """A text for one of the wanted outcomes, or for any; can't tell where the limits are not known yet."""
        if question.measure is None:
            return chance.choice([o for o in question.outcomes if o in wanted] or question.outcomes)
        texts = self._texts(job, question)
        fitting = [text for outcome in wanted for text in texts.get(outcome, ())]
        every = [text for found in texts.values() for text in found]
        return chance.choice(fitting or every or [CANNOT_TELL])

    def _texts(self, job: Job, question: Question) -> dict[str, list[str]]:
        try:
            bands = bands_of(job, question)
        except (NotKnown, CannotWorkOut):
            return {}
        limits = question.id, bands
        if limits not in self._known:
            self._known[limits] = _texts_of(question, bands)
        return self._known[limits]


def _texts_of(question: Question, bands: tuple) -> dict[str, list[str]]:  # type: ignore[type-arg]
    assert question.measure is not None
    unit = KINDS[question.measure.kind].base
    limits = sorted({limit.value for _, low, high in bands for limit in (low, high) if limit is not None})
    between = [(low + high) / 2 for low, high in pairwise(limits)]
    values = [limits[0] / 2, limits[0] - 1, *limits, *between, limits[-1] * 1.5 + 1, limits[-1] * 20]
    if question.measure.believable is not None:
        least, most = (limit.value for limit in question.measure.believable)
        values = [value for value in (*values, least, most) if least <= value <= most]
    texts: dict[str, list[str]] = {}
    for value in values:
        for name, low, high in bands:
            if (low is None or value >= low.value) and (high is None or value <= high.value):
                texts.setdefault(name, []).append(f"{value:.6g} {unit}".strip())
                break
    if question.measure.kind == "resistance":
        texts.setdefault(question.outcomes[0], []).append("OL")
    return texts
