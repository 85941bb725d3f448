"""A sentence may name a rating or a worked-out value in braces; the name must be one."""

from __future__ import annotations

from collections.abc import Iterable

from expert.language.model import Fault, Move, Question, Rule
from expert.language.problems import Problem
from expert.language.reading.draft import Draft
from expert.language.sentences import checks as say
from expert.language.values_in_texts import named_in, sentences

CODES: dict[str, str] = {}  # shares `unknown-name` with the reader


def check(draft: Draft) -> Iterable[Problem]:
    """One problem for every value in a sentence that is none."""
    known = {*(f"plate.{name}" for name in draft.plate_values), *draft.work_outs}
    spaces = {"plate value", "worked-out value"}
    if spaces & draft.names.incomplete:
        return
    records: list[Question | Fault | Rule | Move] = [*draft.questions.values(), *draft.faults.values()]
    records += [*draft.rules.values(), *draft.bench.moves]
    for record in records:
        for text in sentences(record):
            for name in named_in(text):
                if name not in known:
                    instead = draft.names.instead(name, known)
                    message = say.names_no_value(name, instead)
                    yield Problem(record.at, message, "unknown-name")
