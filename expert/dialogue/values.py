"""Numbers for the formulas: this machine's plate, this job's readings, and what is worked out from them."""

from __future__ import annotations

from expert.dialogue.job import Job
from expert.language.formula import CannotWorkOut, Formula, NotKnown, evaluate
from expert.language.model import Measure, Question, WorkOut
from expert.trade.instruments import Band
from expert.trade.units import KINDS, Quantity, show


def unit_at_prompt(measure: Measure, system: str) -> str:
    """The unit of a number typed without one: the question's, or in a US shop the one that is usual there."""
    return KINDS[measure.kind].us if system == "us" and KINDS[measure.kind].us else measure.unit


def value_of(job: Job, name: str, assume: dict[str, Quantity] | None = None) -> Quantity | str:
    """A value by the name formulas use. Raises NotKnown.

    `plate.x` and `machine.x` come from the machine, a question id gives the number read (or what is assumed while it
    was not read), anything else is worked out.
    """
    machine = job.machine
    if name.startswith("plate."):
        if machine is None or name.removeprefix("plate.") not in machine.plate:
            raise NotKnown(name)
        return machine.plate[name.removeprefix("plate.")]
    if name.startswith("machine."):
        if machine is None or name.removeprefix("machine.") not in machine.features:
            raise NotKnown(name)
        return machine.features[name.removeprefix("machine.")]
    if name in job.base.work_outs:
        return work_out(job, job.base.work_outs[name])
    given = job.answer_to(name)
    if given is not None and given.quantity is not None:
        return given.quantity
    if assume and name in assume:
        return assume[name]
    raise NotKnown(name)


def work_out(job: Job, record: WorkOut) -> Quantity:
    """The worked-out value for this job. Raises NotKnown or CannotWorkOut."""
    assume = dict(record.assume)
    return evaluate(record.formula, lambda name: value_of(job, name, assume))


def bands_of(job: Job, question: Question) -> tuple[Band, ...]:
    """The limits of a measured question for this job. Raises NotKnown or CannotWorkOut."""
    assert question.measure is not None, "only measured questions have limits"

    def limit(formula: Formula | None) -> Quantity | None:
        return None if formula is None else evaluate(formula, lambda name: value_of(job, name))

    return tuple((reading.name, limit(reading.low), limit(reading.high)) for reading in question.measure.readings)


def missing_first(job: Job, question_id: str) -> tuple[str, ...]:
    """Questions whose number the limits of this question still lack, in the order of the formulas."""
    question = job.base.questions[question_id]
    if question.measure is None:
        return ()
    try:
        bands_of(job, question)
    except NotKnown as unknown:
        return (unknown.name,)
    except CannotWorkOut:
        return ()
    return ()


def limits_in_words(job: Job, question: Question, outcome: str) -> str:
    """The band of one reading in words, such as "from 713 ohm to 1.19 kohm", or '' for the rest."""
    for name, low, high in bands_of(job, question):
        if name == outcome:
            return _band_in_words(job, low, high)
    return ""


def _band_in_words(job: Job, low: Quantity | None, high: Quantity | None) -> str:
    if low is not None and high is not None:
        return f"from {show(low, system=job.shop.system)} to {show(high, system=job.shop.system)}"
    if low is not None:
        return f"above {show(low, system=job.shop.system)}"
    if high is not None:
        return f"below {show(high, system=job.shop.system)}"
    return ""


def where_limits_come_from(job: Job, question: Question) -> tuple[str, ...]:
    """One sentence for each worked-out value that the limits rest on: its value, formula, assumptions and source."""
    if question.measure is None:
        return ()
    names: dict[str, None] = {}
    for reading in question.measure.readings:
        for formula in (reading.low, reading.high):
            if formula is not None:
                names |= dict.fromkeys(formula.names)
    return tuple(_origin(job, name) for name in names if name in job.base.work_outs or name.startswith("plate."))


def _origin(job: Job, name: str) -> str:
    value = value_of(job, name)
    shown = value if isinstance(value, str) else show(value, system=job.shop.system)
    if name.startswith("plate."):
        return f"{job.base.plate_values[name.removeprefix('plate.')].name}: {shown} (plate)"
    record = job.base.work_outs[name]
    assumed = [
        f"{job.base.questions[question].id} taken as {show(quantity, system=job.shop.system)}"
        for question, quantity in record.assume.items()
        if job.answer_to(question) is None and question in record.formula.names
    ]
    tail = f"; {', '.join(assumed)}" if assumed else ""
    return f"{record.name}: {shown} = {record.formula.text}{tail} ({record.source})"
