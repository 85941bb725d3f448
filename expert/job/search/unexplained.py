"""What failed at the end of a job and no complaint of the rules fits: looked into by whoever would show it."""

from __future__ import annotations

from expert.engine.suspicion import Picture, Weighed
from expert.job.state.complaints_now import complaints_now
from expert.job.state.job import Job


def unexplained(job: Job, picture: Picture) -> tuple[str, ...]:
    """Failed tests of the proof (question ids) that nothing accounts for: no complaint that stands, no found fault."""
    last = {question: passed for question, _, passed in job.proofs}
    told = {question for complaint in complaints_now(job) for question in _showing(job, complaint)}
    return tuple(name for name in picture.observations_open if last.get(name) is False and name not in told)


def _showing(job: Job, complaint: str) -> tuple[str, ...]:
    """The questions whose answers show a complaint."""
    record = job.base.complaints[complaint]
    return (*record.seen, *job.knowledge.questions_of(record.raised_when))


def may_show(picture: Picture, question: str) -> tuple[Weighed, ...]:
    """The open suspects that would show what was seen, the heaviest first."""
    return tuple(suspect for suspect in picture.suspects if question in suspect.reasons)


def that_show(job: Job, question: str) -> tuple[str, ...]:
    """All faults that the rules know to show what was seen, cleared or not."""
    seen = set(job.state.possible(question))
    return tuple(fault.id for fault in job.base.faults.values() if seen & set(fault.shows.get(question, ())))
