"""Python's garbage collector, kept out of the way while very many objects are made that all stay."""

from __future__ import annotations

import gc
from collections.abc import Iterator
from contextlib import contextmanager


@contextmanager
def collector_resting(*, for_good: bool = False) -> Iterator[None]:
    """Reading and building make many objects and no garbage: looking for some would take as long as the work itself.

    `for_good`: what has been made stays until the program ends, so the collector need never look at it either. For the
    one rule base that a program works with, not for one of many: garbage of before is then kept as well.
    """
    was_on = gc.isenabled()
    gc.disable()
    try:
        yield
        if for_good:
            gc.freeze()
    finally:
        if was_on:
            gc.enable()
