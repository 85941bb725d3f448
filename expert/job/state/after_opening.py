"""An opened machine goes back with its earth and insulation tested, or with the plain word that they were not. Pure."""

from __future__ import annotations

from expert.job.state.job import Job, Phase, Turn

OPENED = "The machine was open. Before it goes back, its safety is tested, whether anything was repaired or not."


def tests_before_return(turn: Turn) -> bool:
    """Put the safety tests of an opened machine that are still due; False when there are none."""
    job = turn.job
    due = tuple(name for name in _wanted(job) if not job.tested_since_opened and not _known_unsound(job, name))
    if not due or job.outcome == "stopped":
        return False
    turn.tell(OPENED)
    job.to_prove = due
    job.back_to_close = True
    job.phase = Phase.PROVE
    return True


def not_shown_safe(job: Job) -> tuple[str, ...]:
    """The safety tests (question ids) that an opened machine has not passed since; none for one that stayed closed."""
    if job.repaired and job.tested_since_opened:
        # The tests of the return to service were due after the repair, and hold more than these.
        return ()
    results = {question: passed for question, _, passed in job.proofs}
    return tuple(name for name in _wanted(job) if not results.get(name) or not job.tested_since_opened)


def not_shown_safe_in_words(job: Job) -> list[str]:
    """One line that names these tests; none when there is nothing to say."""
    missing = not_shown_safe(job)
    if not missing:
        return []
    asked = " ".join(job.base.questions[name].ask for name in missing)
    return [f"The machine was opened, and was not shown to be safe after that. To be tested before it is used: {asked}"]


def _wanted(job: Job) -> tuple[str, ...]:
    bench = job.base.bench
    return tuple(n for n in bench.after_opening if job.opened and job.concerns_machine(job.base.questions[n]))


def _known_unsound(job: Job, name: str) -> bool:
    """Whether it failed already: then it needs no second test, it needs a repair."""
    given = job.answer_to(name)
    return given is not None and not set(given.outcomes) & set(job.base.questions[name].sound)
