"""A whole job with the machine that a hardened gasket makes leak at the rim, and the job after each of its lines."""

from __future__ import annotations

from functools import cache

from expert.desk.opening import shop_of
from expert.desk.unattended import with_machine
from expert.job.beginning import begin
from expert.job.state.job import Job
from expert.job.steps import step
from expert.machine import PLATES, Build, brought_in
from expert.witness.playing import Played, fitted, play_on
from tests.benchmarks.witness import world


@cache
def gasket() -> Played:
    """A whole job: the gasket is hardened, nothing else is wrong, and the covers never come off for the search."""
    here = world()
    machine = brought_in(
        Build(PLATES["230/50"], "ntc 10k"), [here.known["group gasket: hardened, leaks at the rim"]], 1
    )
    return play_on(here.knowledge, here.table, machine, ("leaks_at_rim",))


@cache
def jobs() -> tuple[Job, ...]:
    here = world()
    built = fitted(here.knowledge.base.machines[here.table.machine], gasket().before.build)
    job, _ = begin(with_machine(here.knowledge, built), shop_of(here.knowledge), "witness")
    jobs = [job]
    for line in gasket().typed:
        job, _ = step(job, line)
        jobs.append(job)
    return tuple(jobs)
