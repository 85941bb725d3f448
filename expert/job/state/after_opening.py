"""What is tested before a machine goes back: every safety device, what ends the dangers that stand, and what was open.

Where it was not, the job says so in plain words. Pure.
"""

from __future__ import annotations

from expert.engine.bench import satisfies
from expert.job.sentences import safety as say
from expert.job.state.bench import bench_map
from expert.job.state.hazards import due_tests, open_hazards, to_put
from expert.job.state.job import Job, Phase, Turn


def looks_before_return(turn: Turn) -> bool:
    """Put the looks at the safety devices, and the tests that end dangers, that are still due; False: none are."""
    job = turn.job
    due = _looks_due(job) if job.outcome != "stopped" and fine_in_prospect(job) else ()
    return _prove(turn, due, say.EVERY_SAFETY_DEVICE)


def due_on_the_way(job: Job) -> tuple[str, ...]:
    """The looks of every machine that are still due, and the tests of one that was or will be opened for them.

    They go with the proofs: a machine that is cold and dead, or open, is not heated first and opened again for a look.
    """
    if job.outcome == "stopped" or not fine_in_prospect(job):
        return ()
    looks = _looks(job)
    opened = job.base.bench.opened
    opens = bool(opened) and any(opened.items() <= job.base.questions[name].bench.items() for name in looks)
    tests = [
        name
        for name in job.base.bench.after_opening
        if (opens or (job.opened and not _tested_since_opened(job, name)))
        and _concerns(job, name)
        and not _known_unsound(job, name)
        and _can_be_put(job, name)
    ]
    return tuple(dict.fromkeys((*looks, *tests)))


def why_on_the_way(job: Job) -> str:
    """Why these come before the return; '' where none is due."""
    due = due_on_the_way(job)
    tests = job.opened and set(due) & set(job.base.bench.after_opening)
    return say.WAS_OPEN if tests else say.EVERY_SAFETY_DEVICE if due else ""


def tests_before_return(turn: Turn) -> bool:
    """Put the safety tests of an opened machine that are still due; False when there are none."""
    job = turn.job
    due = tuple(
        name
        for name in _wanted(job)
        if not _tested_since_opened(job, name) and not _known_unsound(job, name) and name not in _out_of_reach(job)
    )
    return _prove(turn, due if job.outcome != "stopped" else (), say.WAS_OPEN)


def _prove(turn: Turn, due: tuple[str, ...], why: str) -> bool:
    if not due:
        return False
    turn.tell(why)
    turn.job.to_prove = due
    turn.job.back_to_close = True
    turn.job.phase = Phase.PROVE
    return True


def tested_since_opened(job: Job) -> bool:
    """Whether every safety test of an opened machine was put after it was last open."""
    return all(_tested_since_opened(job, name) for name in _wanted(job))


def _tested_since_opened(job: Job, name: str) -> bool:
    last = [given.number for given in job.given.values() if given.holds and given.question == name]
    last += [one.number for one in job.unable.values() if one.holds and (one.kind, one.subject) == ("question", name)]
    return max(last, default=0) >= max(job.opened_at, 1)


def fine_in_prospect(job: Job) -> bool:
    """Whether the job may end with a machine that is handed out as fine, if the tests before that come out sound."""
    if job.repaired:
        return False not in job.repaired.values() and not job.declined
    return job.outcome == "normal" and not job.dangers_met


def may_go_back(job: Job) -> bool:
    """Whether no danger stands and the machine stands as it is handed out."""
    return not job.hazards.open and satisfies(job.bench, job.base.bench.hand_back)


def _looks_due(job: Job) -> tuple[str, ...]:
    """The looks that every machine gets and has not had yet, and the tests that end what stands, each once."""
    ends = [test for hazard in open_hazards(job) for test in due_tests(job, hazard)]
    return tuple(dict.fromkeys((*_looks(job), *(name for name in ends if _can_be_put(job, name)))))


def _looks(job: Job) -> tuple[str, ...]:
    """The looks that every machine gets and has not had yet."""
    tried = {question for question, _, _ in job.proofs} | set(job.cannot)
    return tuple(
        name
        for name in job.base.bench.before_return
        if not _sound(job, name) and not _known_unsound(job, name) and name not in tried and _can_be_put(job, name)
    )


def _can_be_put(job: Job, name: str) -> bool:
    return name not in _out_of_reach(job) and _can_be_made(job, name)


def _out_of_reach(job: Job) -> set[str]:
    """Proofs for which there was no way, no instrument or no machine: they are not put a second time."""
    return {question for question, answer, passed in job.proofs if passed is None and not answer}


def _can_be_made(job: Job, name: str) -> bool:
    test = to_put(job, job.base.questions[name])
    return test is not None and bench_map(job).route(job.bench, test.bench) is not None


def _sound(job: Job, name: str) -> bool:
    given = job.answer_to(name)
    return given is not None and set(given.outcomes) <= set(job.base.questions[name].sound)


def not_shown_safe(job: Job) -> tuple[str, ...]:
    """The safety tests (question ids) that the machine has not passed: those after opening, those of every machine."""
    results = {question: passed for question, _, passed in job.proofs}
    looks = [name for name in job.base.bench.before_return if _concerns(job, name) and not _sound(job, name)]
    if job.repaired and tested_since_opened(job):
        # The tests of the return to service were due after the repair, and hold more than those after opening.
        return tuple(looks)
    opened = [name for name in _wanted(job) if not results.get(name) or not tested_since_opened(job)]
    return tuple(dict.fromkeys((*opened, *(looks if fine_in_prospect(job) else ()))))


def not_shown_safe_in_words(job: Job, for_customer: bool = False) -> list[str]:
    """One line that names these tests, by the bench's questions or in the customer's words; none where all is well."""
    missing = [job.base.questions[name] for name in not_shown_safe(job)]
    if not missing:
        return []
    if for_customer:
        asked = "; ".join(question.slip or question.ask.rstrip("?") for question in missing) + "."
    else:
        asked = " ".join(question.ask for question in missing)
    why = say.OPENED_AND_NOT_SHOWN_SAFE if job.opened else say.NOT_SHOWN_SAFE
    return [say.to_be_tested_before_use(why, asked)]


def _wanted(job: Job) -> tuple[str, ...]:
    return tuple(name for name in job.base.bench.after_opening if job.opened and _concerns(job, name))


def _concerns(job: Job, name: str) -> bool:
    return job.concerns_machine(job.base.questions[name])


def _known_unsound(job: Job, name: str) -> bool:
    """Whether it failed already: then it needs no second test, it needs a repair."""
    given = job.answer_to(name)
    return given is not None and not set(given.outcomes) & set(job.base.questions[name].sound)
