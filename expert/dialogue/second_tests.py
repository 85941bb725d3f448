"""A reading too close to a limit: the test that would decide it instead, by name."""

from __future__ import annotations

from expert.dialogue.job import Given, Job
from expert.dialogue.situation import picture_of, situation_of
from expert.engine.gain import effects_of
from expert.engine.planner import choose


def second_test(job: Job, given: Given) -> str:
    """The next best question that bears on a suspect on which the undecided reading bears, or ''.

    Only what can be put here and now counts: this machine, these instruments, this technician.
    """
    picture = picture_of(job)
    effects = effects_of(job.knowledge, job.state, job.base.questions[given.question], picture).values()
    undecided = {s.fault for s in picture.suspects if any(effect.bears_on(s.fault) for effect in effects)}
    choice = choose(situation_of(job, picture)) if undecided else None
    if choice is None:
        return ""
    for candidate in (choice.best, *choice.others):
        if candidate.question != given.question and undecided.intersection(candidate.settles):
            return candidate.question
    return ""
