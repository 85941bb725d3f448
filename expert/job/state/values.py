"""Numbers for the formulas: this machine's plate, this job's readings, and what is worked out from them."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from expert.job.state.job import Job
from expert.language.formulas.formula import CannotWorkOut, Formula, NotKnown, evaluate
from expert.language.model import Measure, Question, WorkOut
from expert.trade.errors import OutOfRange, WrongArguments
from expert.trade.quantities.units import KINDS, Quantity
from expert.trade.sensors.instruments import Band


def unit_at_prompt(measure: Measure, system: str) -> str:
    """The unit of a number typed without one: the question's, or in a US shop the one that is usual there."""
    return KINDS[measure.kind].us if system == "us" and KINDS[measure.kind].us else measure.unit


def value_of(job: Job, name: str, assume: Mapping[str, Quantity | str] | None = None) -> Quantity | str:
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
        assumed = assume[name]
        return value_of(job, assumed) if isinstance(assumed, str) else assumed
    raise NotKnown(name)


def work_out(job: Job, record: WorkOut) -> Quantity:
    """The worked-out value for this job. Raises NotKnown or CannotWorkOut."""
    return _evaluated(record.formula, lambda name: value_of(job, name, record.assume))


def _evaluated(formula: Formula, look_up: Callable[[str], Quantity | str]) -> Quantity:
    """The formula's value; what a trade function refuses is told as the formula's own trouble."""
    try:
        return evaluate(formula, look_up)
    except (OutOfRange, WrongArguments) as problem:
        raise CannotWorkOut(str(problem)) from None


def bands_of(job: Job, question: Question) -> tuple[Band, ...]:
    """The limits of a measured question for this job. Raises NotKnown or CannotWorkOut."""

    def limit(formula: Formula | None) -> Quantity | None:
        return None if formula is None else _evaluated(formula, lambda name: value_of(job, name))

    return tuple((reading.name, limit(reading.low), limit(reading.high)) for reading in question.readings)


def missing_first(job: Job, question_id: str) -> tuple[str, ...]:
    """Questions whose number the limits of this question still lack, in the order of the formulas."""
    question = job.base.questions[question_id]
    try:
        bands_of(job, question)
    except NotKnown as unknown:
        return (unknown.name,) if unknown.name in job.base.questions else ()
    except CannotWorkOut:
        return ()
    return ()
