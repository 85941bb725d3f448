"""Taking times and summing them up."""

from __future__ import annotations

import statistics
from collections.abc import Callable, Iterable, Sequence
from time import perf_counter_ns
from typing import TypeVar

Item = TypeVar("Item")


def each(act: Callable[[Item], object], items: Iterable[Item]) -> list[float]:
    """How long the act takes for each item, in microseconds."""
    times = []
    for item in items:
        start = perf_counter_ns()
        act(item)
        times.append((perf_counter_ns() - start) / 1_000)
    return times


def median(times: Sequence[float]) -> float:
    return statistics.median(times)


def high(times: Sequence[float]) -> float:
    """The 99th percentile."""
    return sorted(times)[len(times) * 99 // 100]
