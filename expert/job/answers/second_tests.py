"""A reading too close to a limit: the test that would decide it instead, by name."""

from __future__ import annotations

from expert.engine.gain import effects_of
from expert.engine.planner import choose
from expert.engine.ways import way_to_ask
from expert.job.state.job import Given, Job
from expert.job.state.situation import picture_of, situation_of


def second_test(job: Job, given: Given) -> str:
    """The first of the question's own second tests that is open, else the next best that bears on the same, or ''.

    Only what can be put here and now counts: this machine, these instruments, this technician.
    """
    picture = picture_of(job)
    situation = situation_of(job, picture)
    for named in job.base.questions[given.question].second_tests:
        if way_to_ask(situation, job.base.questions[named]) is not None:
            return named
    effects = effects_of(job.knowledge, job.state, job.base.questions[given.question], picture).values()
    undecided = {s.fault for s in picture.suspects if any(effect.bears_on(s.fault) for effect in effects)}
    choice = choose(situation) if undecided else None
    if choice is None:
        return ""
    for candidate in (choice.best, *choice.others):
        if candidate.question != given.question and undecided.intersection(candidate.settles):
            return candidate.question
    return ""
