"""The short list: who is left, the likeliest first, and what would settle each."""

from __future__ import annotations

from expert.engine.candidates import Candidate
from expert.engine.gain import beliefs
from expert.engine.planner import worth_asking
from expert.engine.suspicion import Picture, Weighed, accounted_by_results
from expert.job.sentences import search as say
from expert.job.state.bench import bench_map
from expert.job.state.job import Job
from expert.job.state.situation import situation_of

LONGEST = 8


def ranked(job: Job, picture: Picture, complaint: str) -> tuple[Weighed, ...]:
    """The open suspects that explain a complaint, the heaviest first: where a result accounts for it, its causes."""
    results = accounted_by_results(job.knowledge, picture.confirmed)
    explainers = results.get(complaint, job.knowledge.explainers[complaint])
    return tuple(suspect for suspect in picture.suspects if suspect.fault in explainers)


def in_rows(job: Job, picture: Picture, suspects: tuple[Weighed, ...]) -> list[str]:
    """The likeliest by name, with their share of belief and the test that would settle each."""
    belief = beliefs(job.knowledge, picture)
    tests = _tests(job, picture)
    rows = [
        say.on_the_list(number, job.fault_name(suspect.fault), belief[suspect.fault], _settled_by(job, suspect, tests))
        for number, suspect in enumerate(suspects[:LONGEST], 1)
    ]
    more = len(suspects) - LONGEST
    return [*rows, say.more_on_the_list(more)] if more > 0 else rows


def _tests(job: Job, picture: Picture) -> list[Candidate]:
    """The tests that would tell, if everything could be done here: the best first."""
    free = dict[str, bool](qualified=True, any_instrument=True, any_move=True, ask_anew=True)
    found = worth_asking(situation_of(job, picture, **free))
    return sorted(found, key=lambda candidate: -candidate.worth)


def _settled_by(job: Job, suspect: Weighed, tests: list[Candidate]) -> str:
    test = next((test for test in tests if suspect.fault in test.decides), None)
    if test is None:
        return say.NO_TEST_SETTLES
    barred = "; ".join(_what_bars(job, test))
    return say.to_settle_it(job.base.questions[test.question].ask, f" ({barred})" if barred else "")


def _what_bars(job: Job, test: Candidate) -> list[str]:
    """Why the test was not made here, as far as it is known."""
    question = job.base.questions[test.question]
    barred = [
        say.not_told(noted.number)
        for noted in job.unable.values()
        if noted.holds and noted.kind == "question" and noted.subject in (test.question, test.asks)
    ]
    if not question.possible_with(job.instruments):
        barred.append(say.needs_instrument(job.base.instruments[question.instrument].name))
    needed = {move.id: move for move in test.route.moves}
    barred += [
        say.needs_what_was_not_done(needed[noted.subject].say.rstrip("."), noted.number)
        for noted in job.unable.values()
        if noted.holds and noted.kind == "move" and noted.subject in needed
    ]
    here = bench_map(job)
    if not job.qualified and not here.may_stay(here.reached_by(job.bench, test.route)):
        barred.append(say.FOR_SOMEBODY_QUALIFIED)
    return barred
