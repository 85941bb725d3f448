"""A question must be measured with an instrument that shows that kind of quantity."""

from __future__ import annotations

from collections.abc import Iterable

from expert.language.problems import Problem
from expert.language.reading.draft import Draft
from expert.language.sentences import checks as say
from expert.trade.quantities.units import with_article

CODES = {"wrong-instrument": say.WRONG_INSTRUMENT}


def check(draft: Draft) -> Iterable[Problem]:
    """One problem for every measurement with an unsuitable instrument."""
    for question in draft.questions.values():
        measure = question.measure
        instrument = draft.instruments.get(measure.instrument) if measure else None
        if measure is None or instrument is None or instrument.measures == measure.kind:
            continue
        fitting = [other.id for other in draft.instruments.values() if other.measures == measure.kind]
        would_do = say.would_do(" or ".join(fitting)) if fitting else ""
        shows, wanted = with_article(instrument.measures), with_article(measure.kind)
        message = say.shows_another_kind(instrument.id, shows, wanted, would_do)
        yield Problem(draft.place("question", question.id, "answer", "with"), message, "wrong-instrument")
