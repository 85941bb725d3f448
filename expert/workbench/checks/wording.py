"""Texts that a technician with gloves on cannot take in, or would misread."""

from __future__ import annotations

import re
from collections.abc import Iterator

from expert.language.model import Measure, Question, YesNo
from expert.language.problems import Problem
from expert.workbench.index import Index
from expert.workbench.sentences import rules as say

CODES = {
    "long-question": say.LONG_QUESTION,
    "two-questions": say.TWO_QUESTIONS,
    "negated-question": say.NEGATED_QUESTION,
    "label-of-another": say.LABEL_OF_ANOTHER,
    "limits-without-source": say.LIMITS_WITHOUT_SOURCE,
}
LONGEST = 120
_TOLD = 4  # questions that are named in one message
_NEGATED = re.compile(r"\b(?:not|no longer|never|isn't|doesn't|don't|hasn't|won't)\b", re.IGNORECASE)
_TWO = re.compile(r"\?.*\?")


def check(index: Index) -> Iterator[Problem]:
    """Question by question."""
    for question in index.base.questions.values():
        yield from _asked(question)
        yield from _labels(question)
    yield from _sources(index)


def _asked(question: Question) -> Iterator[Problem]:
    if len(question.ask) > LONGEST:
        message = say.asked_at_length(question.id, len(question.ask), LONGEST)
        yield Problem(question.at, message, "long-question")
    if _TWO.search(question.ask):
        yield Problem(question.at, say.asks_two_things(question.id), "two-questions")
    if isinstance(question.form, YesNo) and (found := _NEGATED.search(_main_clause(question.ask))):
        message = say.asks_for_a_negative(question.id, found[0])
        yield Problem(question.at, message, "negated-question")


def _main_clause(ask: str) -> str:
    """The clause with the question mark: what stands before a colon or a full stop only sets the scene."""
    return re.split(r"[:.;]\s", ask)[-1]


def _labels(question: Question) -> Iterator[Problem]:
    """A label that has another outcome's words and none of its own."""
    words = {outcome: set(outcome.split("_")) for outcome in question.labels}
    for outcome, label in question.labels.items():
        said = set(re.findall(r"[a-z]+", label.lower()))
        if words[outcome] & said:
            continue
        for other, theirs in words.items():
            swapped = words[outcome] & set(re.findall(r"[a-z]+", question.labels[other].lower()))
            if other != outcome and theirs & said and swapped:
                message = say.label_reads_like_another(question.id, outcome, other, label)
                yield Problem(question.at, message, "label-of-another")
                break


def _sources(index: Index) -> Iterator[Problem]:
    """The questions of a circuit whose limits have no source, in one piece of advice."""
    by_circuit: dict[str, list[Question]] = {}
    for question in index.base.questions.values():
        readings = question.form.readings if isinstance(question.form, Measure) else ()
        limited = [reading for reading in readings if reading.low is not None or reading.high is not None]
        if any(not reading.source for reading in limited) and not question.source:
            by_circuit.setdefault(question.circuit, []).append(question)
    for circuit, questions in by_circuit.items():
        names = ", ".join(question.id for question in questions[:_TOLD])
        more = f" and {len(questions) - _TOLD} more" if len(questions) > _TOLD else ""
        message = say.nothing_says_where_limits_come_from(names, more, circuit)
        yield Problem(questions[0].at, message, "limits-without-source")
