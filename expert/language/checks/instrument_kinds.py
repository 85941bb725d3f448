"""A question must be measured with an instrument that shows that kind of quantity."""

from __future__ import annotations

from collections.abc import Iterable

from expert.language.problems import Problem
from expert.language.reading.draft import Draft
from expert.trade.quantities.units import with_article

CODES = {"wrong-instrument": "The instrument does not measure the kind of quantity that the question asks for."}


def check(draft: Draft) -> Iterable[Problem]:
    """One problem for every measurement with an unsuitable instrument."""
    for question in draft.questions.values():
        measure = question.measure
        instrument = draft.instruments.get(measure.instrument) if measure else None
        if measure is None or instrument is None or instrument.measures == measure.kind:
            continue
        fitting = [other.id for other in draft.instruments.values() if other.measures == measure.kind]
        would_do = f"; {' or '.join(fitting)} would do" if fitting else ""
        shows, wanted = with_article(instrument.measures), with_article(measure.kind)
        message = f"{instrument.id} shows {shows}; {wanted} is asked for{would_do}"
        yield Problem(draft.place("question", question.id, "answer", "with"), message, "wrong-instrument")
