"""Playing cases side by side, one process for each core."""

from __future__ import annotations

import gc
import multiprocessing
import os
import signal
from collections.abc import Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor

from expert.engine.knowledge import Knowledge
from expert.job.state.shop import Shop
from expert.language.worked.cases import Case
from expert.workbench.cases import Result, Verdict, run_case

FEW = 8  # cases that are played sooner than processes are started
AT_A_TIME = 4  # cases handed to a process together: enough to pay for the way, few enough to share evenly

_here: tuple[Knowledge, Shop, Sequence[Case]]


def verdicts(knowledge: Knowledge, shop: Shop, cases: Sequence[Case], cores: int | None = None) -> Iterator[Verdict]:
    """The verdict on each case, in the order of the cases. `cores`: as many as this process may use unless told."""
    cores = cores or cores_here()
    # A forked process has the rules already. Where there is no fork, each would have to read them anew.
    if cores < 2 or len(cases) < FEW or "fork" not in multiprocessing.get_all_start_methods():
        for case in cases:
            yield Verdict(case, run_case(knowledge, shop, case))
        return
    fork = multiprocessing.get_context("fork")
    with ProcessPoolExecutor(cores, fork, _begin, (knowledge, shop, cases)) as pool:
        try:
            for case, result in zip(cases, pool.map(_play, range(len(cases)), chunksize=AT_A_TIME), strict=True):
                yield Verdict(case, result)
        finally:
            pool.shutdown(cancel_futures=True)


def cores_here() -> int:
    """How many processes this one may keep busy."""
    return len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1


def _begin(knowledge: Knowledge, shop: Shop, cases: Sequence[Case]) -> None:
    """What each process works with. Ctrl-C is for the process that started it."""
    global _here
    _here = knowledge, shop, cases
    gc.freeze()  # what the process that started it holds is that one's to clean up
    signal.signal(signal.SIGINT, signal.SIG_IGN)


def _play(number: int) -> Result:
    knowledge, shop, cases = _here
    return run_case(knowledge, shop, cases[number])
