"""The index over a folder of traces: brought up to date by reading only what is new or was changed.

It lies in the account's folder for caches and may be deleted at any time. A file counts as unchanged while its size
and its time of change are the same.
"""

from __future__ import annotations

import contextlib
import os
import tempfile
from collections.abc import Callable, Iterable, Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor
from hashlib import sha256
from multiprocessing import get_context
from pathlib import Path
from typing import TYPE_CHECKING

from filelock import FileLock
from platformdirs import user_cache_path

from expert.shop.review.book import read_reviews
from expert.shop.review.places import REVIEWS, reviews_path
from expert.shop.sums.facts import DAMAGED, JobFacts
from expert.shop.sums.gather import facts_of
from expert.shop.sums.tables import create, forget, has_our_shape, load, row_of, write_rows
from expert.trace.errors import TraceError
from expert.trace.lines import digest_in
from expert.trace.places import SUFFIX
from expert.trace.signing import CannotSign

if TYPE_CHECKING:
    from duckdb import DuckDBPyConnection

BATCH = 40
SAVED_EACH = 5_000
FEW = 200  # up to so many traces, other processes would take longer to start than to read them
MEMORY = "400MB"
# Called with how many traces were read since the last call, and how many there are to read in all.
Progress = Callable[[int, int], object]


@contextlib.contextmanager
def index_of(folder: Path, progress: Progress, place: Path | None = None) -> Iterator[DuckDBPyConnection]:
    """The index of a folder, up to date. An index that cannot be used is made anew.

    `place`: its file, instead of one in the folder for caches. Raises OSError when the folder cannot be read.
    """
    import duckdb

    listed = signatures(folder)
    place = place or index_path(folder)
    place.parent.mkdir(parents=True, exist_ok=True)
    with FileLock(place.with_suffix(".lock")):
        try:
            index = _opened(place)
        except duckdb.Error:
            place.unlink()
            index = _opened(place)
        try:
            refresh(index, folder, listed, progress)
            yield index
        finally:
            index.close()


def index_path(folder: Path) -> Path:
    """Where the index of a folder lies."""
    name = sha256(str(folder.resolve()).encode("utf-8", "surrogateescape")).hexdigest()[:24]
    return user_cache_path("bench-expert", appauthor=False) / "sums" / f"{name}.duckdb"


def signatures(folder: Path) -> dict[str, str]:
    """Every trace in the folder by name, with what changes when it or its reviews change. Raises OSError."""
    traces: dict[str, str] = {}
    reviews: dict[str, str] = {}
    with os.scandir(folder) as entries:
        for entry in entries:
            is_trace = entry.name.endswith(SUFFIX)
            if entry.name.startswith(".") or not (is_trace or entry.name.endswith(REVIEWS)):
                continue
            status = entry.stat()
            (traces if is_trace else reviews)[entry.name] = f"{status.st_size} {status.st_mtime_ns}"
    for name, signature in reviews.items():
        trace = name.removesuffix(REVIEWS) + SUFFIX
        if trace in traces:
            traces[trace] += f" {signature}"
    return traces


def refresh(index: DuckDBPyConnection, folder: Path, listed: dict[str, str], progress: Progress) -> None:
    """Bring the index up to date with these traces of the folder."""
    known = {name: (file, signature) for file, name, signature in index.execute("FROM files").fetchall()}
    gone = [file for name, (file, signature) in known.items() if listed.get(name) != signature]
    due = sorted(name for name, signature in listed.items() if known.get(name, (0, ""))[1] != signature)
    if gone:
        forget(index, gone)
    next_file = max((file for file, _ in known.values()), default=0) + 1
    batches = [due[start : start + BATCH] for start in range(0, len(due), BATCH)]
    rows = _rows(folder, batches, listed)
    saved_at_once = SAVED_EACH // BATCH
    for start in range(0, len(batches), saved_at_once):
        # Saved now and then, so that a first reading that was interrupted goes on where it was.
        with tempfile.NamedTemporaryFile("w", suffix=".jsonl", encoding="utf-8") as fresh:
            for _ in batches[start : start + saved_at_once]:
                batch = next(rows)
                next_file = write_rows(fresh, next_file, batch)
                progress(len(batch), len(due))
            fresh.flush()
            load(index, Path(fresh.name))


def _rows(folder: Path, batches: Sequence[list[str]], listed: dict[str, str]) -> Iterator[list[str]]:
    """The rows of each batch, in order; many batches are read by several processes."""
    tasks = ((str(folder), [(name, listed[name]) for name in batch]) for batch in batches)
    if sum(map(len, batches)) <= FEW:
        yield from map(_read, tasks)
        return
    # Started afresh, not forked: the index has threads of its own by now.
    with ProcessPoolExecutor(os.cpu_count(), get_context("spawn")) as pool:
        yield from _a_few_ahead(pool, tasks)


def _a_few_ahead(pool: ProcessPoolExecutor, tasks: Iterable[tuple[str, list[tuple[str, str]]]]) -> Iterator[list[str]]:
    """Results in order, with only a few batches under way, so that memory does not grow with the number of traces."""
    under_way = []
    for task in tasks:
        under_way.append(pool.submit(_read, task))
        if len(under_way) > 8:
            yield under_way.pop(0).result()
    for waiting in under_way:
        yield waiting.result()


def _read(task: tuple[str, list[tuple[str, str]]]) -> list[str]:
    folder, names = task
    return [row_of(name, signature, _facts(Path(folder) / name)) for name, signature in names]


def _facts(path: Path) -> JobFacts:
    """The facts of a trace; one that cannot be read or understood counts as damaged and is told, not passed over."""
    try:
        facts = facts_of(path)
        return _as_reviewed(facts, path) if reviews_path(path).exists() else facts
    except (TraceError, KeyError, TypeError, ValueError, AttributeError):
        return JobFacts(job=path.name.removesuffix(SUFFIX), purpose=DAMAGED)


def _as_reviewed(facts: JobFacts, path: Path) -> JobFacts:
    """The facts with the last verdict that can be relied on; no other is counted."""
    seal = path.read_bytes().rstrip(b"\n").rpartition(b"\n")[2]
    try:
        reviews = read_reviews(path, digest_in(seal))
    except (TraceError, CannotSign):
        return facts
    for one in reviews:
        if not one.trouble:
            facts.verdict, facts.true_fault = one.review.verdict, one.review.true_fault
    return facts


def _opened(place: Path) -> DuckDBPyConnection:
    import duckdb

    index = duckdb.connect(str(place), config={"memory_limit": MEMORY, "threads": os.cpu_count() or 1})
    if not has_our_shape(index):
        index.close()
        place.unlink()
        index = duckdb.connect(str(place), config={"memory_limit": MEMORY, "threads": os.cpu_count() or 1})
        create(index)
    return index
