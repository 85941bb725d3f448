"""Python's garbage collector, kept out of the way while very many objects are made that all stay."""

from __future__ import annotations

import gc
from collections.abc import Iterator
from contextlib import contextmanager

# Objects made before the collector looks for garbage again. Python's own 700 means hundreds of looks in a start that
# makes no garbage; this many take some ten megabytes.
SELDOM = 50_000


@contextmanager
def garbage_collection_seldom() -> Iterator[None]:
    """For a whole run of the program: look for garbage, but not at every turn."""
    before = gc.get_threshold()
    gc.set_threshold(SELDOM, *before[1:])
    try:
        yield
    finally:
        gc.set_threshold(*before)


@contextmanager
def garbage_collection_off(*, for_good: bool = False) -> Iterator[None]:
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
