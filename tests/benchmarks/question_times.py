"""How long the choice of the next question takes: processor time, while worked cases are played."""

from __future__ import annotations

import statistics
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from time import process_time

from expert.desk.opening import shop_of
from expert.desk.unattended import play
from expert.engine.knowledge import Knowledge
from expert.engine.planner import Choice
from expert.engine.ways import Situation
from expert.job.search import searching
from expert.language.worked.cases import Case

Choose = Callable[[Situation], Choice | None]


@contextmanager
def choosing_by(choose: Choose) -> Iterator[Choose]:
    """Jobs choose their next question in this way. Gives the way of before."""
    before: Choose = searching.choose  # type: ignore[attr-defined]
    searching.choose = choose  # type: ignore
    try:
        yield before
    finally:
        searching.choose = before  # type: ignore


def question_ms(knowledge: Knowledge, cases: Iterable[Case]) -> dict[str, float]:
    """Milliseconds of processor time for each choice of a question in these cases."""
    times: list[float] = []
    shop = shop_of(knowledge)

    def timed(situation: Situation) -> Choice | None:
        start = process_time()
        choice = shipped(situation)
        times.append((process_time() - start) * 1_000)
        return choice

    with choosing_by(timed) as shipped:
        for case in cases:
            play(knowledge, shop, case.job, "case")
    times.sort()
    return {
        "choices": len(times),
        "median": round(statistics.median(times), 2),
        "p90": round(times[len(times) * 9 // 10], 2),
        "max": round(times[-1], 2),
    }
