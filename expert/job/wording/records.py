"""Records as the technician reads them: each gives lines of plain text, most of them none."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import assert_never

from expert.engine.hazards import START
from expert.job.state.job import Job
from expert.job.state.values import unit_at_prompt
from expert.job.wording.explaining import answer_in_words, last_answer
from expert.job.wording.home_words import in_words_of
from expert.language.model import Choice, Measure, Question, YesNo
from expert.trace.cleaning import clean
from expert.trace.records import (
    CannotMove,
    CannotTell,
    CautionShown,
    Closed,
    CustomerTold,
    Fired,
    Found,
    HandedOver,
    HazardOpened,
    HazardReleased,
    MoveOffered,
    Noted,
    Paused,
    PromptKind,
    Proved,
    Put,
    Record,
    Repaired,
    SearchEnded,
    Stopped,
    TakenBack,
    Told,
)

OUTCOMES = {
    "found": "Found.",
    "left_by_elimination": "Left by elimination.",
    "narrowed": "Narrowed, not found.",
    "own_judgement": "Repaired on the technician's own judgement.",
    "normal": "Normal behaviour.",
    "stopped": "Stopped.",
    "handed_over": "To be handed over: what is left needs live work by a qualified person, or a danger ended first.",
    "unresolved": "Not resolved.",
}
STANDINGS = {
    "found": "FOUND",
    "left_by_elimination": "LEFT BY ELIMINATION",
    "own_judgement": "YOUR OWN JUDGEMENT, NOT FOUND BY THE RULES",
}
LEADS: Mapping[PromptKind, str] = {"proof": "Proof: "}  # what stands before a prompt wherever it is shown or told


def lines_of(job: Job, record: Record) -> tuple[tuple[str, str], ...]:
    """The lines a record gives, each with its manner: plain, question, caution, danger, so, found, small, command."""
    lines = tuple((manner, in_words_of(job.shop.country, clean(text))) for manner, text in _lines_of(job, record))
    if job.shop.system != "us":
        return lines
    from expert.job.wording.prose_units import in_us_units

    return tuple((manner, in_us_units(text)) for manner, text in lines)


def _lines_of(job: Job, record: Record) -> Iterable[tuple[str, str]]:
    match record:
        case Told(text=text):
            yield "plain", text
        case CautionShown(text=text):
            yield "caution", f"! {text}"
        case Put():
            yield from _put(job, record)
        case Fired(text=text, told=True):
            yield "so", f"So: {text}"
        case Found(fault=fault, standing=standing, because=because):
            yield "found", f"{STANDINGS[standing]}: {job.fault_name(fault)}."
            for reason in because:
                yield "so", f"  because: {reason}"
        case SearchEnded(outcome=outcome):
            yield "plain", OUTCOMES[outcome]
        case Stopped(text=text):
            yield "danger", f"STOP! {text}"
            yield "danger", "Local electrical and pressure codes and licensed practice come first."
        case HazardOpened(name=name, forbids=forbids, until=until, because=because) if because != (START,):
            yield "danger", f"! Danger: {name}."
            acts = [job.base.acts[act].say for act in forbids if not job.base.acts[act].left]
            if acts:
                yield "danger", f"  Do not {' or '.join(acts)}. It ends when: {until}"
        case HazardReleased(hazard=hazard) if not job.base.hazards[hazard].from_the_start:
            yield "found", f"Danger over: {job.base.hazards[hazard].name}."
        case TakenBack(number=number):
            yield "plain", f"Answer {number} is taken back."
        case CannotTell(number=number) if number:
            yield "small", f"Left open. To answer it later: take back {number}"
        case CannotMove():
            yield "plain", "Noted: that cannot be done now. Looking for another way."
        case MoveOffered(text=text):
            yield "plain", f"Nothing else is left to do. You said that this cannot be done: {text}"
            yield "plain", "It is offered once more. If it cannot be done: can't"
        case Noted():
            yield "plain", "Noted."
        case Repaired(fault=fault):
            yield "plain", f"Repair noted: {job.fault_name(fault)}. The proof follows."
        case Proved(passed=passed, question=question):
            if passed:
                yield "found", f"Proved: {job.base.questions[question].ask}"
        case HandedOver(summary=summary):
            yield "plain", "Handed over. Where the job stands:"
            for line in summary.splitlines():
                yield "plain", f"  {line}"
        case CustomerTold(lines=lines):
            yield "small", "For the customer:"
            for line in lines:
                yield "plain", f"  {line}"
        case Paused():
            yield "plain", "Paused. Nothing is lost. Go on with:"
            yield "command", f"  {job.how_to_resume}"
        case Closed(outcome=outcome, minutes=minutes):
            yield "found", f"Job {job.number} is closed: {outcome.replace('_', ' ')}, {minutes:g} min."


def _how_to_answer(job: Job, question: Question) -> Iterable[tuple[str, str]]:
    match question.form:
        case YesNo():
            yield "question", "  (yes / no)"
        case Choice():
            for number, outcome in enumerate(question.outcomes, 1):
                yield "question", f"  {number}  {question.label(outcome)}"
        case Measure(kind=kind) as measure:
            unit = unit_at_prompt(measure, job.shop.system)
            over = ", or OL" if kind == "resistance" else ""
            name = job.base.instruments[measure.instrument].name
            yield "question", f"  (a number in {unit or 'its unit'}{over}; {name})"
            if last := last_answer(job, question.id):
                yield "small", f"  Last reading: {answer_in_words(job, last)}"
        case form:
            assert_never(form)


def _put(job: Job, record: Put) -> Iterable[tuple[str, str]]:
    if record.is_test:
        question = job.base.questions[record.question]
        yield "small", f"How: {question.how}"
        yield "question", f"{LEADS.get(record.prompt, '')}{record.text}"
        yield from _how_to_answer(job, question)
        return
    first, *rest = record.text.splitlines()
    yield "question", first
    for line in rest:
        yield "question", line
