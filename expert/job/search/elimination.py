"""May the last suspect be named because all others are cleared? Only where an answer speaks for it and none against.

All that the rules know is never all that can be wrong: whoever names a part for want of another condemns a sound one
as soon as the cause has no rule.
"""

from __future__ import annotations

from expert.engine.suspicion import Picture
from expert.job.state.job import Job


def may_be_named(job: Job, picture: Picture, complaint: str, last: str) -> bool:
    """Whether the one suspect that is left for a complaint may be said to be left by elimination."""
    return (
        last not in picture.held
        and seen_here(job, complaint)
        and bool(speaking_for(job, last))
        and not speaking_against(job, last)
        and not held_by_a_result(job, complaint)
    )


def held_by_a_result(job: Job, complaint: str) -> bool:
    """Whether a result was reset that accounts for the complaint, and its cause was not found: it comes again."""
    faults = job.base.faults
    return any(
        faults[fault].result
        and complaint in faults[fault].explains
        and not any(cause in job.mended() for cause in faults[fault].caused_by)
        for fault in job.repaired
    )


def seen_here(job: Job, complaint: str) -> bool:
    """Whether the bench has shown what the customer said: until then it is a reason to look, and no observation."""
    seen = job.base.complaints[complaint].seen
    return any(_came_out(job, question, outcomes) for question, outcomes in seen.items())


def speaking_for(job: Job, fault: str) -> tuple[str, ...]:
    """The rules that speak for a fault and rest on an answer, not on the complaint alone."""
    return tuple(
        rule
        for rule in job.base.rules
        if rule in job.state.fired
        and any(named == fault and decibans > 0 for named, decibans in job.knowledge.evidence[rule])
        and job.knowledge.rule_questions[rule] & set(job.answered())
    )


def speaking_against(job: Job, fault: str) -> tuple[str, ...]:
    """The answers that speak against a fault: a rule says so, or the fault would have shown something else.

    A fault that moves a reading one way is not what moved it the other way.
    """
    shows = job.base.faults[fault].shows
    other = [
        question
        for question in job.answered()
        if question in shows and not set(job.state.possible(question)) & set(shows[question])
    ]
    rules = [
        rule
        for rule in job.base.rules
        if rule in job.state.fired
        and any(named == fault and decibans < 0 for named, decibans in job.knowledge.evidence[rule])
    ]
    return (*other, *rules)


def _came_out(job: Job, question: str, outcomes: tuple[str, ...]) -> bool:
    """Whether a question has an answer that certainly is one of these outcomes."""
    left = job.state.possible(question)
    return question in job.answered() and bool(left) and set(left) <= set(outcomes)
