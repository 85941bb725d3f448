"""Whatever is answered, in whatever order, by whomever: nothing dangerous, and every job comes to its end.

Each job is one number: `Hunt(shipped_knowledge()).job(NUMBER)` plays it again. The long run:
`python -m tests.benchmarks.safety --jobs 20000`.
"""

from __future__ import annotations

import gc
from concurrent.futures import ProcessPoolExecutor
from multiprocessing import get_context

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from expert.job.steps import GoesRound
from tests.benchmarks import safety as benchmark
from tests.benchmarks.progress import Hangs
from tests.benchmarks.safety import AT_A_TIME, Tally, play_some
from tests.dialogue.shipped_desk import shipped_knowledge
from tests.safety.hunting import WITH_PLANNER, Caught, Hunt
from tests.safety.judge import Judge
from tests.safety.playing import Played
from tests.safety.small_bench import small_bench

JOBS = 300
SMALL = Hunt(small_bench())
SHIPPED = Hunt(shipped_knowledge())


@pytest.fixture(scope="module")
def played() -> Tally:
    """The jobs of the ordinary run, on two cores."""
    tally = Tally()
    # A process that dies ends the run. What other tests left behind is not cleaned up in the forked ones.
    with ProcessPoolExecutor(2, get_context("fork"), gc.freeze) as pool:
        for part in pool.map(play_some, [range(n, n + AT_A_TIME) for n in range(0, JOBS, AT_A_TIME)]):
            tally.add(part)
    return tally


def test_nothing_dangerous(played: Tally) -> None:
    assert played.jobs == JOBS
    assert not played.violations, "\n".join(played.violations[:10])


def test_every_job_ends(played: Tally) -> None:
    assert not played.unended


def test_the_dangers_were_met(played: Tally) -> None:
    hazards = shipped_knowledge().base.hazards
    # The rarest stand in one job of two hundred: the long run meets each of them a hundred times.
    met = [hazard for hazard in hazards if played.stood[hazard]]
    assert len(met) > 0.85 * len(hazards), "a judge that never meets a danger proves nothing"
    assert all(played.refused[hazard] for hazard in ("lead_not_looked_at", "customer_not_asked"))


class Stuck:
    """Plays no job to its end: it goes round, it hangs, or it takes lines for ever."""

    def job(self, number: int) -> Caught:
        if number == 7:
            raise GoesRound("FIND")
        if number == 8:
            raise Hangs("no answer within 300 s")
        return Caught(number, Played((), ("yes", "yes"), ended=False), Judge(SMALL.knowledge.base))


def test_a_job_that_does_not_end_is_a_violation_with_its_number(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(benchmark, "_hunt", [Stuck()])
    tally = benchmark.play_some(range(7, 10))
    round_, hangs, unended = tally.violations
    assert round_.startswith("job 7: ") and "GoesRound: FIND" in round_
    assert hangs.startswith("job 8: ") and "Hangs: no answer within 300 s" in hangs
    assert unended == "job 9: has not ended after 2 lines [unended]"


# Jobs that a long run met: a hazard that went with the complaint that an answer had raised, a search for ever for a
# second reading that the bench could not be brought to, an earth test after a repair that ended with a take-back, a
# complaint that the bench raised anew after it had been withdrawn unrecorded.
@pytest.mark.parametrize("number", [5305, 7100, 100340, 304436])
def test_a_job_that_went_wrong_once(number: int) -> None:
    caught = SHIPPED.job(number, habits=False)
    assert not caught.judge.found and caught.played.ended, caught.judge.found


@settings(deadline=None, max_examples=25, derandomize=True, suppress_health_check=[HealthCheck.too_slow])
@given(st.integers(0, 10**9))
def test_any_job_of_all(number: int) -> None:
    caught = SHIPPED.job(number * WITH_PLANNER + 1)
    assert not caught.judge.found and caught.played.ended, (caught.number, caught.judge.found)


@settings(deadline=None, max_examples=150, derandomize=True)
@given(st.integers(0, 10**9))
def test_any_job_on_a_small_bench(number: int) -> None:
    caught = SMALL.job(number)
    assert not caught.judge.found and caught.played.ended, (caught.number, caught.judge.found)
