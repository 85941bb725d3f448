"""From a folder of traces to its sums, with a progress bar where somebody is looking."""

from __future__ import annotations

import contextlib
import sys
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import click

from expert.language.model import RuleBase
from expert.language.shipped import shipped
from expert.shop.sums.filters import Filters, choose
from expert.shop.sums.index import Progress, index_of
from expert.shop.sums.names import refresh_names
from expert.shop.sums.totals import totals
from expert.shop.sums.words import ShopSums
from expert.trace.places import jobs_folder


def sums_of(
    folder: Path | None,
    rules: Path | None,
    filters: Filters,
    load: Callable[[Path | None], RuleBase],
    place: Path | None = None,
) -> ShopSums:
    """The sums of a folder [the folder where jobs are kept]; `rules` give the names. Raises OSError."""
    folder = folder or jobs_folder()
    with progress_shown() as progress, index_of(folder, progress, place) as index:
        refresh_names(index, rules or shipped("rules"), lambda: load(rules))
        purpose = choose(index, filters)
        return ShopSums(folder, purpose, filters.in_words(), totals(index))


@contextlib.contextmanager
def progress_shown(label: str = "Reading traces") -> Iterator[Progress]:
    """A bar on standard error that appears when there is something to read; none where nobody looks."""
    bars: list[Any] = []

    def progress(read: int, of: int) -> None:
        if not sys.stderr.isatty():
            return
        if not bars:
            bars.append(click.progressbar(length=of, label=label, file=sys.stderr, show_pos=True))
            bars[0].__enter__()
        bars[0].update(read)

    try:
        yield progress
    finally:
        for bar in bars:
            bar.__exit__(None, None, None)
