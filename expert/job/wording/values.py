"""Values that the rules name in their sentences, put in for the machine at hand."""

from __future__ import annotations

from dataclasses import replace

from expert.job.state.job import Job, Turn
from expert.job.state.values import value_of
from expert.job.wording.limits import show_limit
from expert.language.formulas.formula import CannotWorkOut, NotKnown
from expert.language.values_in_texts import in_words, with_values
from expert.trace.records import Fired, Found, PromptPut, Record, Stopped, Told


def spelt_out_all(turn: Turn) -> tuple[Record, ...]:
    """All that has happened in this turn, as the technician reads it."""
    return tuple(spelt_out(turn.job, record) for record in turn.records)


def spelt_out(job: Job, record: Record) -> Record:
    """The record with its sentences as the technician reads them."""
    match record:
        case Told(text=text) | PromptPut(text=text) | Fired(text=text) | Stopped(text=text) if "{" in text:
            return replace(record, text=with_values(text, lambda name: _told(job, name)))
        case Found(because=because) if any("{" in sentence for sentence in because):
            told = tuple(with_values(sentence, lambda name: _told(job, name)) for sentence in because)
            return replace(record, because=told)
    return record


def _told(job: Job, name: str) -> str:
    """A value in words; what it is called where this job does not know it."""
    try:
        value = value_of(job, name)
    except (NotKnown, CannotWorkOut):
        return in_words(job.base, name)
    return value if isinstance(value, str) else show_limit(job, value)
