"""Tests in a live machine that are put for nothing: without a set-up, where nothing runs, or before a dead one."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

from expert.language.model import ALWAYS, Measure, Question
from expert.language.problems import Problem
from expert.language.reading.draft import Draft
from expert.language.sentences import checks as say

CODES = {
    "live-without-set-up": say.LIVE_WITHOUT_SET_UP,
    "tells-nothing": say.TELLS_NOTHING,
    "live-before-dead": say.LIVE_BEFORE_DEAD,
}
_RUNS = re.compile(r"^while\b[^:,]*", re.IGNORECASE)
_TRIAL = re.compile(r"\b(?:known to be good|for a trial)\b", re.IGNORECASE)


def check(draft: Draft) -> Iterable[Problem]:
    """One problem for each such test. Words are judged for what runs, not meanings."""
    for question in draft.questions.values():
        if isinstance(question.form, Measure) and _is_live(draft, question) and not _set_up_dead(draft, question):
            message = say.set_up_with_plug_out(question.id)
            yield Problem(draft.place("question", question.id, "bench"), message, "live-without-set-up")
        yield from _tells_nothing(draft, question)
        yield from _order(draft, question)


def _is_live(draft: Draft, question: Question) -> bool:
    return any(
        state.items() <= question.bench.items()
        for caution in draft.cautions.values()
        if caution.work == "qualified"
        for state in caution.needed_in
    )


def _set_up_dead(draft: Draft, question: Question) -> bool:
    return question.prepare is not None and draft.bench.safe.items() <= question.prepare.bench.items()


def _tells_nothing(draft: Draft, question: Question) -> Iterator[Problem]:
    said = _RUNS.search(question.ask) or _TRIAL.search(question.ask)
    if said is not None and question.only_if == ALWAYS:
        message = say.say_what_shows_it(said.group())
        yield Problem(draft.place("question", question.id, "ask"), message, "tells-nothing")


def _order(draft: Draft, question: Question) -> Iterator[Problem]:
    """Second tests are put in their order."""
    seconds = [draft.questions[name] for name in question.second_tests if name in draft.questions]
    for place, second in enumerate(seconds):
        dead = next((later for later in seconds[place + 1 :] if not _is_live(draft, later)), None)
        if _is_live(draft, second) and dead is not None:
            message = say.live_before_dead_test(second.id, dead.id)
            yield Problem(draft.place("question", question.id, "second_test"), message, "live-before-dead")
