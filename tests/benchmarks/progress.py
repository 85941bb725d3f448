"""Work on all cores, with a bar on standard error."""

from __future__ import annotations

import os
import signal
import sys
import time
from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import contextmanager
from multiprocessing import Pool
from typing import TypeVar

Part = TypeVar("Part")
Sum = TypeVar("Sum")
WIDTH = 40


def on_all_cores(work: Callable[[Part], Sum], parts: Sequence[Part], what: str = "") -> Iterator[Sum]:
    """What the work gives for each part, in any order."""
    with Pool(os.cpu_count()) as pool:
        yield from _with_bar(pool.imap_unordered(work, parts), len(parts), what)


def _with_bar(sums: Iterable[Sum], of: int, what: str) -> Iterator[Sum]:
    begun = time.monotonic()
    for done, one in enumerate(sums, 1):
        yield one
        filled = WIDTH * done // of
        left = (time.monotonic() - begun) / done * (of - done)
        bar = f"\r{what:15}[{'#' * filled}{'.' * (WIDTH - filled)}] {left:4.0f} s left"
        print(bar, end="", file=sys.stderr, flush=True)
    print(file=sys.stderr)


class Hangs(Exception):
    """A job went round in circles within one line."""


@contextmanager
def within(seconds: float) -> Iterator[None]:
    """Raise Hangs when the block takes longer. Only in the main thread of a process."""

    def stop(*_: object) -> None:
        raise Hangs(f"no answer within {seconds:g} s")

    before = signal.signal(signal.SIGALRM, stop)
    signal.setitimer(signal.ITIMER_REAL, seconds)
    try:
        yield
    finally:
        signal.setitimer(signal.ITIMER_REAL, 0)
        signal.signal(signal.SIGALRM, before)
