"""Putting a question: its cautions first, then the question itself."""

from __future__ import annotations

from typing import assert_never

from expert.engine.bench import after, satisfies
from expert.job.state.inference import show_caution
from expert.job.state.job import Prompt, Turn
from expert.language.model import Choice, Measure, Question, YesNo
from expert.trace.records import Moved, PromptKind, PromptPut
from expert.trace.why import Why


def show_cautions(turn: Turn, cautions: tuple[str, ...]) -> None:
    """Cautions before the step they belong to, each once in a state of the bench."""
    for name in cautions:
        show_caution(turn, name, turn.job.base.cautions[name].text)


def put_question(turn: Turn, question: Question, kind: PromptKind, why: Why) -> None:
    """Cautions, then the question; the job waits for its answer.

    A test that takes something off has altered the machine from now on, whatever comes of it.
    """
    job = turn.job
    if question.alters and not satisfies(job.bench, question.alters):
        job.bench = after(job.bench, question.alters)
        turn.add(Moved(f"test {question.id}", dict(job.bench), 0.0))
    for other in tuple(job.prepared):
        preparation = job.base.questions[other].prepare
        # What was set up for a live test holds no longer when another test takes something off as well.
        if question.alters and preparation is not None and question.alters.keys() & preparation.leaves.keys():
            job.prepared.discard(other)
    show_cautions(turn, question.cautions)
    turn.add(PromptPut(kind, question.id, question.ask, why))
    job.round_put = ()
    job.prompt = Prompt(kind, question.id, typed_answers(question))


def typed_answers(question: Question) -> tuple[str, ...]:
    """What may be typed for a question that is not measured."""
    match question.form:
        case YesNo() | Choice():
            return question.outcomes
        case Measure():
            return ()
        case form:
            assert_never(form)
