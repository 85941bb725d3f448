"""Many saved jobs, before and after an edit: on all cores of this computer, or on a cluster.

A job that looked at nothing that was edited comes out as it did, and is not played at all: its trace says what it
looked at.
"""

from __future__ import annotations

import gc
import multiprocessing
import signal
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path
from typing import Any

from expert.engine.knowledge import Knowledge, knowledge_of
from expert.language.load import read_rules
from expert.trace.errors import TraceError
from expert.trace.reading import Trace, opened_with, read_trace, trace_in
from expert.workbench.case_runs.cores import cores_here
from expert.workbench.case_runs.footprint import Footprint, RecordDigests, digest_under, footprint_of
from expert.workbench.impact.answers import NotPlayable, SavedJob, saved_job
from expert.workbench.impact.ends import Difference, End, differences, end_of
from expert.workbench.impact.rules_of import Library, Texts
from expert.workbench.saved import Told
from expert.workbench.sentences import impact as say

_AT_A_TIME = 8  # jobs handed to a process together
_UNDER_WAY = 64  # groups of jobs that a cluster has at a time


@dataclass(frozen=True, slots=True)
class Task:
    """A trace, and the rules (by digest) that its job is compared under. It is read where it is judged."""

    path: Path
    before: str
    after: str


@dataclass(frozen=True, slots=True)
class Outcome:
    """What the edit changes for one job. `trouble`: why it could not be played, or ''. `played`: whether it was."""

    job: SavedJob
    differences: tuple[Difference, ...]
    unanswered: tuple[str, ...] = ()
    trouble: str = ""
    played: bool = True

    @property
    def weight(self) -> int:
        return sum(difference.weight for difference in self.differences)


def outcomes(tasks: Sequence[Task], rules: Mapping[str, Texts], cores: int | None = None) -> Iterator[Outcome]:
    """The outcome for each task, in the order of the tasks. `rules`: by digest."""
    cores = cores or cores_here()
    if cores < 2 or len(tasks) < _AT_A_TIME or "fork" not in multiprocessing.get_all_start_methods():
        _begin(rules)
        yield from map(_judge_here, tasks)
        return
    fork = multiprocessing.get_context("fork")
    with ProcessPoolExecutor(cores, fork, _begin_quietly, (rules,)) as pool:
        try:
            yield from pool.map(_judge_here, tasks, chunksize=_AT_A_TIME)
        finally:
            pool.shutdown(cancel_futures=True)


def outcomes_on(address: str, tasks: Sequence[Task], rules: Mapping[str, Texts]) -> Iterator[Outcome]:
    """The same on a cluster of dask.distributed that is already there. Raises NoCluster."""
    connect, as_completed = _distributed()
    try:
        client = connect(address, timeout="20s")
    except (OSError, ValueError, TimeoutError) as problem:
        raise NoCluster(say.no_cluster_answers(address, problem)) from None
    with client:
        shared = client.scatter(dict(rules), broadcast=True)
        groups = (tasks[start : start + _AT_A_TIME] for start in range(0, len(tasks), _AT_A_TIME))
        futures = as_completed()
        for group in groups:
            # A worker elsewhere may not see our files: it gets what stands in them, a few at a time.
            futures.add(client.submit(judge_many, [_with_content(task) for task in group], shared, pure=False))
            if futures.count() >= _UNDER_WAY:
                yield from next(futures).result()
        for future in futures:
            yield from future.result()


class NoCluster(Exception):
    """There is no cluster to be had; the text says why."""


def _distributed() -> tuple[Callable[..., Any], Callable[..., Any]]:
    try:
        from distributed import Client, as_completed
    except ImportError:
        raise NoCluster(say.DASK_IS_NOT_INSTALLED) from None
    return Client, as_completed


# ---------------------------------------------------------------- in each process

_rules: Mapping[str, Texts] = {}


def _begin(rules: Mapping[str, Texts]) -> None:
    global _rules
    if rules is not _rules:
        _rules = rules
        _known.cache_clear()


def _begin_quietly(rules: Mapping[str, Texts]) -> None:
    """Ctrl-C is for the process that started this one."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    gc.freeze()  # what the process that started it holds is that one's to clean up
    _begin(rules)


def judge_many(tasks: Sequence[tuple[Task, bytes | None]], rules: Mapping[str, Texts]) -> list[Outcome]:
    """Several tasks on a worker of a cluster, which keeps the rules that it has read."""
    if rules.keys() != _rules.keys():
        _begin(rules)
    return [_judge_here(task, content) for task, content in tasks]


def _with_content(task: Task) -> tuple[Task, bytes | None]:
    """The task with what its trace holds; None where it cannot be read: then the worker finds the same."""
    try:
        return task, task.path.read_bytes()
    except OSError:
        return task, None


@lru_cache(maxsize=16)
def _known(digest: str) -> tuple[Knowledge, RecordDigests]:
    knowledge = knowledge_of(read_rules(_rules[digest]))
    return knowledge, RecordDigests(knowledge.base)


def _judge_here(task: Task, content: bytes | None = None) -> Outcome:
    """Read the trace and hold its job's two ends against each other."""
    before, after = _known(task.before), _known(task.after)
    try:
        trace = read_trace(task.path) if content is None else trace_in(content, task.path)
        job = saved_job(trace)
    except (TraceError, NotPlayable) as problem:
        return not_read(task.path, problem)
    footprint = _footprint(before[0], job, trace)
    if footprint is not None and _untouched(footprint, before, after):
        return Outcome(job, (), played=False)
    try:
        first = end_of(before[0], job)
    except NotPlayable as problem:
        return Outcome(job, (), trouble=say.with_rules_of_before(problem))
    try:
        second = end_of(after[0], job)
    except NotPlayable as problem:
        return Outcome(job, (), trouble=say.with_edited_rules(problem))
    return Outcome(job, differences(first, second), _new(first, second))


def not_read(path: Path, problem: Exception) -> Outcome:
    """The outcome for a trace that is not to be had."""
    return Outcome(SavedJob("", str(path), "", "", Told()), (), trouble=str(problem))


def _untouched(footprint: Footprint, *sides: tuple[Knowledge, RecordDigests]) -> bool:
    """Whether nothing that the job looked at reads otherwise."""
    first, second = (digest_under(knowledge, digests, footprint) for knowledge, digests in sides)
    return first == second


def _new(before: End, after: End) -> tuple[str, ...]:
    return tuple(name for name in after.unanswered if name not in before.unanswered)


# ---------------------------------------------------------------- from the files to the tasks


def tasks_for(traces: Iterable[Path], library: Library, after: str, before: str | None) -> Iterator[Task | Outcome]:
    """A task for each trace, or its outcome where there is nothing to play. `before` None: the rules of each job.

    Only the first line of each is read here: the traces themselves are read side by side, where they are judged.
    """
    for path in traces:
        try:
            yield Task(path, before or library.pinned_for(path, opened_with(path)), after)
        except (TraceError, NotPlayable) as problem:
            yield not_read(path, problem)


def _footprint(knowledge: Knowledge, job: SavedJob, trace: Trace) -> Footprint | None:
    """What the job looked at when it was done; None where other rules than these led through it."""
    if job.rules_digest != knowledge.base.digest or job.told.taken is None:
        return None
    return footprint_of(knowledge, job.told.taken.complaint_keys, trace.records)
