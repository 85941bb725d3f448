"""Making a test on the simulated machine: its gates and cautions first, then what is to be seen."""

from __future__ import annotations

from dataclasses import replace

from expert.engine.bench import after
from expert.job.answers.putting import put_question, show_cautions
from expert.job.answers.reading import NotAnAnswer, read_answer
from expert.job.answers.sound import CANNOT_TELL
from expert.job.answers.taking import cannot_tell, take_answer
from expert.job.bench.moves import PREPARE, SET_UP
from expert.job.prompts.danger import open_dangers
from expert.job.state.hazards import to_put, watch
from expert.job.state.job import NO_PROMPT, Turn
from expert.language.model import Choice, Measure, Question, YesNo
from expert.machine import HeatUp, Machine, do
from expert.practice import sentences as say
from expert.practice.choosing import listed, wanting
from expert.practice.finding import is_live_work, needs_of, stands_for
from expert.practice.practice import Offer, Practice, Seen, Stepped, now_forbidden
from expert.trace.records import CautionShown, Moved
from expert.trace.why import Why
from expert.witness.answering import answer
from expert.witness.playing import plate_lines

GO = "go"


def choose_test(practice: Practice, name: str) -> Stepped:
    """Show what comes before a test and wait for the word, or make it at once where no caution belongs to it."""
    job = practice.job
    question = job.base.questions[name]
    if is_live_work(job, question) and not job.qualified:
        what = say.live_without_being_qualified(question.ask)
        return refused(practice, what, say.LIVE_TEST)
    needs = needs_of(job, question)
    if not stands_for(job, needs):
        return practice, (say.bench_does_not_stand(wanting(job, needs)),)
    first = to_put(job, question)
    if first is None:
        return practice, (say.NOTHING_TO_BE_LEARNED,)
    if first.id != name:
        return listed(practice, say.KNOWN_FIRST, (Offer("test", first.id),))
    turn = Turn(job.copy())
    if question.prepare is not None and name not in job.prepared:
        show_cautions(turn, question.cautions)
        steps = (f"{number}. {step}" for number, step in enumerate(question.prepare.steps, 1))
        lines = (*_cautions(turn), say.SET_UP_FIRST, *steps, say.is_that_done(SET_UP))
        return replace(practice, job=turn.job, waiting=Offer("set up", name), offers=()), lines
    put_question(turn, question, "question", Why())
    turn.job.prompt = NO_PROMPT
    cautions = _cautions(turn)
    put = replace(practice, job=turn.job, offers=())
    how = (question.ask, f"How: {question.how}") if question.how else (question.ask,)
    if cautions:
        return replace(put, waiting=Offer("test", name)), (*cautions, *how, say.ready(GO))
    practice, lines = make_test(put, name)
    return practice, (*how, *lines)


def refused(practice: Practice, what: str, because: str) -> Stepped:
    """Refuse something that could hurt somebody, and count it."""
    again = replace(practice, unsafe=(*practice.unsafe, what), waiting=None)
    return again, (say.refused(what), because)


def set_up(practice: Practice, name: str) -> Stepped:
    """The test is set up: the machine is altered for it from now on."""
    turn = Turn(practice.job.copy())
    prepare = turn.job.base.questions[name].prepare
    turn.job.bench = after(turn.job.bench, prepare.leaves if prepare else {})
    turn.job.prepared.add(name)
    turn.add(Moved(f"{PREPARE}{name}", dict(turn.job.bench), 0.0))
    practice = replace(practice, job=turn.job, waiting=None)
    return practice, (say.SET_UP,)


def make_test(practice: Practice, name: str) -> Stepped:
    """Look at the machine, or measure it; and what follows from that about dangers."""
    turn = Turn(practice.job.copy())
    job = turn.job
    question = job.base.questions[name]
    machine, text, why = _observed(practice, question)
    told = open_dangers(job)
    shown = in_words(question, text)
    try:
        if text == CANNOT_TELL:
            raise NotAnAnswer(why)
        take_answer(turn, read_answer(job, question, text))
    except NotAnAnswer:
        # Nothing was seen, or its limits rest on what is not known yet: what the instrument shows stands all the same.
        cannot_tell(turn, name, "not seen")
        job.minutes += question.minutes
    if text == CANNOT_TELL:
        shown = say.nothing_to_see(why) if why else say.NOTHING_THERE
    watch(turn)
    dangers = [f"STOP! {said}" for rule, said in open_dangers(job).items() if rule not in told]
    job.prompt, job.choice = NO_PROMPT, None
    seen = (*practice.seen, Seen(name, text))
    lines = (f"= {shown}", *dangers, *now_forbidden(turn))
    return replace(practice, job=job, machine=machine, waiting=None, seen=seen), lines


def _observed(practice: Practice, question: Question) -> tuple[Machine, str, str]:
    """The machine after the test, what would be typed, and why where nothing can be told."""
    machine = practice.machine
    plate = plate_lines(practice.scenario.build)
    if question.id not in practice.world.table.lines:
        return machine, plate[question.id], ""
    if question.bench.get("boiler") == "hot" and machine.bench.plugged:
        machine = do(machine, HeatUp(minutes=15.0, settle=1.0))
    told = answer(machine, question, practice.world.table.lines[question.id])
    if told.text == CANNOT_TELL and question.id in plate:
        return told.machine, plate[question.id], ""
    inner = (say.NO_LINE, say.NOTHING_FITS)
    return told.machine, told.text, "" if told.why in inner else told.why.rstrip(".")


def in_words(question: Question, text: str) -> str:
    """What was seen, as the technician reads it: a label, yes or no, or the instrument's number."""
    match question.form:
        case YesNo():
            return text
        case Choice():
            return question.label(text)
        case Measure():
            return "over range (OL)" if text == "OL" else text


def _cautions(turn: Turn) -> tuple[str, ...]:
    return tuple(f"! {record.text}" for record in turn.records if isinstance(record, CautionShown))
