"""Records as the technician reads them: each gives lines of plain text, most of them none."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace
from typing import assert_never

from expert.job.sentences import records as say
from expert.job.sentences.safety import danger_ends_when
from expert.job.state.job import Job
from expert.job.state.values import unit_at_prompt
from expert.job.wording.drawing import drawn_on_screen
from expert.job.wording.explaining import answer_in_words, last_answer
from expert.job.wording.home_words import in_words_of
from expert.job.wording.how_on_screen import HINT_IS_KNOWN, how_on_screen, in_short, was_drawn_before
from expert.job.wording.slip_on_screen import slip_on_screen
from expert.language.model import Choice, Measure, Question, YesNo
from expert.trace.cleaning import clean
from expert.trace.records import (
    Answered,
    CannotMove,
    CannotTell,
    CautionShown,
    Closed,
    ComplaintNow,
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
    PromptPut,
    Proved,
    Record,
    Repaired,
    SearchEnded,
    Stopped,
    TakenBack,
    Told,
)

OUTCOMES = {
    "found": "Found.",
    "left_by_elimination": say.LEFT_BY_ELIMINATION,
    "narrowed": say.NARROWED,
    "own_judgement": say.OWN_JUDGEMENT,
    "normal": "Normal behaviour.",
    "stopped": "Stopped.",
    "handed_over": say.HANDED_OVER,
    "unresolved": "Not resolved.",
}
STANDINGS = {
    "found": "FOUND",
    "left_by_elimination": say.LEAD_BY_ELIMINATION,
    "own_judgement": say.LEAD_OWN_JUDGEMENT,
}
LEADS: Mapping[PromptKind, str] = {"proof": "Proof: "}  # what stands before a prompt wherever it is shown or told


def lines_of(job: Job, record: Record) -> tuple[tuple[str, str], ...]:
    """The lines a record gives, each with its manner: such as question, caution or drawing."""
    lines = tuple((manner, in_words_of(job.shop.country, clean(text))) for manner, text in _lines_of(job, record))
    if job.shop.system != "us":
        return lines
    from expert.job.wording.prose_units import in_us_units

    return tuple((manner, in_us_units(text)) for manner, text in lines)


def lines_of_reply(job: Job, records: Iterable[Record]) -> Iterable[tuple[str, str]]:
    """The lines of all that one line led to: what says the same is said once, and a reason where it decides."""
    records = tuple(records)
    reasons = {reason for record in records if isinstance(record, Found) for reason in record.because}
    said: set[str] = set()
    is_reading = any(isinstance(record, Answered) and record.reading is not None for record in records)
    results = [record.passed for record in records if isinstance(record, Proved)]
    # What a proof shows is told by its coming out sound; what is read again by what comes of the second reading.
    is_told_otherwise = (bool(results) and all(results)) or Told(say.DECIDING_READING) in records
    for record in records:
        match record:
            case Fired(text=text):
                if text in said or text in reasons or is_told_otherwise:
                    continue
                said.add(text)
            case HazardOpened(until=until):
                said.add(danger_ends_when(until))
            case PromptPut(prompt="danger", text=text):
                record = replace(record, text="\n".join(line for line in text.splitlines() if line not in said))
            case SearchEnded(outcome="found") if any(isinstance(other, Found) for other in records):
                continue
            case Proved(passed=True):
                if say.PROVED in said or is_reading:  # a reading is told as sound
                    continue
                said.add(say.PROVED)
        yield from lines_of(job, record)


def _lines_of(job: Job, record: Record) -> Iterable[tuple[str, str]]:
    match record:
        case Told(text=text):
            yield "plain", text
        case CautionShown(text=text):
            yield "caution", f"! {text}"
        case PromptPut():
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
            yield "danger", say.LOCAL_CODES
        case HazardOpened(name=name, forbids=forbids, until=until) if not job.base.hazards[record.hazard].in_every_job:
            yield "danger", say.danger(name)
            acts = [job.base.acts[act].say for act in forbids if not job.base.acts[act].left]
            if acts and _forbidden_before(job, record.hazard):
                yield "danger", say.still_forbidden(until)
            elif acts:
                yield "danger", say.do_not(" or ".join(acts), until)
        case HazardReleased(hazard=hazard) if not job.base.hazards[hazard].in_every_job:
            yield "found", say.danger_over(job.base.hazards[hazard].name)
        case TakenBack(number=number):
            yield "plain", say.taken_back(number)
        case CannotTell(number=number) if number:
            yield "small", say.left_open(number)
        case CannotMove():
            yield "plain", say.CANNOT_BE_DONE
        case MoveOffered(text=text):
            yield "plain", say.nothing_else_to_do(text)
            yield "plain", say.OFFERED_ONCE_MORE
        case Noted():
            yield "plain", "Noted."
        case Repaired(fault=fault):
            yield "plain", say.repair_noted(job.fault_name(fault))
        case Proved(passed=True):
            yield "found", say.PROVED
        case ComplaintNow(complaint=complaint, standing=standing):
            name = job.base.complaints[complaint].name
            yield "so", say.COMPLAINT_NOW[standing](name)
        case HandedOver(summary=summary):
            yield "plain", say.HANDED_OVER
            yield "command", f"  {job.how_to_resume}"
            yield "plain", say.WHERE_IT_STANDS
            for line in summary.splitlines():
                yield "plain", f"  {line}"
        case CustomerTold(lines=lines):
            yield "small", say.FOR_THE_CUSTOMER
            for line in slip_on_screen(lines):
                yield "plain", f"  {line}"
        case Paused():
            yield "plain", say.PAUSED
            yield "command", f"  {job.how_to_resume}"
        case Closed(outcome=outcome, minutes=minutes):
            yield "found", say.closed(job.number, outcome.replace("_", " "), minutes)


def _forbidden_before(job: Job, hazard: str) -> bool:
    """Whether a hazard that was told of earlier, and stands, forbids the same: what not to do has been read."""
    told = [name for name in job.hazards.open if not job.base.hazards[name].in_every_job]
    earlier = told[: told.index(hazard)] if hazard in told else []
    return any(job.base.hazards[name].forbids == job.base.hazards[hazard].forbids for name in earlier)


def _how_to_answer(job: Job, question: Question) -> Iterable[tuple[str, str]]:
    match question.form:
        case YesNo():
            yield "question", "  (yes / no)"
        case Choice():
            for number, outcome in enumerate(question.outcomes, 1):
                yield "question", f"  {number}  {question.label(outcome)}"
        case Measure() if question.id in job.again:
            return  # with what it is read is known from the first time
        case Measure(kind=kind) as measure:
            unit = unit_at_prompt(measure, job.shop.system)
            name = job.base.instruments[measure.instrument].name
            if len(job.given) < HINT_IS_KNOWN:
                yield "question", say.number_wanted(unit or "its unit", kind == "resistance", name)
            else:
                yield "question", say.number_wanted_in_short(unit or "its unit", kind == "resistance", in_short(name))
            last = last_answer(job, question.id)
            if last is not None and (last.holds or question.id not in job.to_prove):
                yield "small", say.last_reading(answer_in_words(job, last))
        case form:
            assert_never(form)


def _is_listed(job: Job, record: PromptPut) -> bool:
    """Whether the test stands on the screen as the first of a round, with how all of it is answered."""
    return bool(job.round_put) and (record.prompt, record.question) == job.prompt.at == ("proof", job.round_put[0])


def _put(job: Job, record: PromptPut) -> Iterable[tuple[str, str]]:
    if record.is_test:
        question = job.base.questions[record.question]
        if _is_listed(job, record):
            return
        if how := how_on_screen(job, question):
            yield "small", how
        if question.drawing is not None and not was_drawn_before(job, question):
            for line in drawn_on_screen(question.drawing):
                yield "drawing", f"  {line}"
        yield "question", f"{LEADS.get(record.prompt, '')}{record.text}"
        yield from _how_to_answer(job, question)
        return
    first, *rest = record.text.splitlines()
    yield "question", first
    for line in rest:
        yield "question", line
