"""A saved job as answers that can be played again, with other rules."""

from __future__ import annotations

from dataclasses import dataclass
from types import MappingProxyType

from expert.language.model import Machine, RuleBase
from expert.language.model.job_answers import JobAnswers
from expert.language.problems import RulesRefused
from expert.language.worked.job_answers import read_machine_text
from expert.trace.reading import Trace
from expert.workbench.saved import Told, told_by
from expert.workbench.sentences import impact as say


@dataclass(frozen=True, slots=True)
class SavedJob:
    """A job that can be played again; picklable, so that it can go to another process or computer.

    `rules_digest`: of the rules that it was opened with. `told`: what its trace tells.
    """

    number: str
    path: str
    rules_digest: str
    system: str
    told: Told


class NotPlayable(Exception):
    """The job cannot be played with these rules; the text says why."""


def saved_job(trace: Trace) -> SavedJob:
    """The job in a trace. Raises NotPlayable when it never got through its intake."""
    told = told_by(trace)
    if told.taken is None:
        raise NotPlayable(say.NEVER_THROUGH_INTAKE)
    return SavedJob(told.number, str(trace.path), told.rules_digest, told.system, told)


def answers_for(job: SavedJob, base: RuleBase) -> JobAnswers:
    """The answers of the job under these rules; what they no longer know is left out. Raises NotPlayable."""
    told, taken = job.told, job.told.taken
    assert taken is not None
    known = {question: text for question, text in told.answers.items() if question in base.questions}
    after = {
        fault: {question: text for question, text in answers.items() if question in base.questions}
        for fault, answers in told.after.items()
    }
    complaints = tuple(name for name in taken.complaint_keys if name in base.complaints)
    if not complaints:
        raise NotPlayable(say.NO_COMPLAINT_KNOWN)
    return JobAnswers(
        machine=taken.machine_key,
        machine_type=_machine(job, base),
        complaints=complaints,
        answers=MappingProxyType(known),
        plate=MappingProxyType(dict(entry.partition(" ")[::2] for entry in taken.plate)),
        qualified_for_live_work=taken.qualified,
        arrives=told.arrives if told.arrives in base.bench.arrives else "",
        rest="",
        after_repair=None,
        after=MappingProxyType(after),
    )


def _machine(job: SavedJob, base: RuleBase) -> Machine:
    taken = job.told.taken
    assert taken is not None
    if job.told.machine_file:
        try:
            return read_machine_text("the job's machine", job.told.machine_file, base)
        except RulesRefused as refused:
            raise NotPlayable(say.own_machine_does_not_fit(refused.problems[0])) from None
    if taken.machine_key not in base.machines:
        raise NotPlayable(say.no_such_machine_type(taken.machine_key))
    return base.machines[taken.machine_key]
