"""Work in several processes, with a bar on standard error. A process that dies is named, and nothing else is lost."""

from __future__ import annotations

import multiprocessing
import os
import signal
import sys
import time
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from multiprocessing.connection import Connection, wait
from multiprocessing.process import BaseProcess
from typing import Any, Generic, TypeVar

Part = TypeVar("Part")
Sum = TypeVar("Sum")
WIDTH = 40
# By the clock: a grandchild may hold a dead process's pipe open, so that its end is not seen there.
LOOK_AFTER = 2.0  # seconds


class ProcessDied(Exception):
    """A process ended in the middle of its work: by a signal, for want of memory, or because it left by itself."""

    def __init__(self, part: object, code: int | None) -> None:
        how = signal.Signals(-code).name if code is not None and code < 0 else f"exit code {code}"
        super().__init__(f"the process that worked at {part} ended with {how}")


def on_all_cores(
    work: Callable[[Part], Sum],
    parts: Sequence[Part],
    what: str = "",
    *,
    processes: int = 0,
    died: Callable[[ProcessDied], Sum] | None = None,
) -> Iterator[Sum]:
    """What the work gives for each part, in any order.

    processes: 0 for one on each core; more where the work waits for the disk. died: what a part comes to whose process
    ended before it was done; without it ProcessDied is raised. What the work raises is raised here.
    """
    hands = [_Hand.at_work(work) for _ in range(min(processes or os.cpu_count() or 1, len(parts)))]
    bar = _Bar(what, len(parts))
    ahead = iter(parts)
    try:
        for hand in hands:
            hand.give(next(ahead, None))
        while any(hand.is_busy for hand in hands):
            wait([hand.pipe for hand in hands if hand.is_busy], timeout=LOOK_AFTER)
            for place, hand in enumerate(hands):
                if not hand.is_busy or (not hand.pipe.poll() and hand.process.is_alive()):
                    continue
                try:
                    came = hand.result()
                except ProcessDied as problem:
                    if died is None:
                        raise
                    came = died(problem)
                    hands[place] = _Hand.at_work(work)
                hands[place].give(next(ahead, None))
                bar.one_more()
                yield came
    finally:
        bar.end()
        for hand in hands:
            hand.let_go()


@dataclass
class _Hand(Generic[Part, Sum]):
    """A process that works at one part at a time."""

    process: BaseProcess
    pipe: Connection
    part: Part | None = None

    @classmethod
    def at_work(cls, work: Callable[[Part], Sum]) -> _Hand[Part, Sum]:
        ours, theirs = multiprocessing.Pipe()
        process = multiprocessing.Process(target=_serve, args=(work, theirs), daemon=True)
        process.start()
        theirs.close()
        return cls(process, ours)

    @property
    def is_busy(self) -> bool:
        return self.part is not None

    def give(self, part: Part | None) -> None:
        self.part = part
        if part is not None:
            self.pipe.send(part)

    def result(self) -> Sum:
        part, self.part = self.part, None
        try:
            came, problem = self.pipe.recv() if self.pipe.poll() else (None, None)
        except (EOFError, OSError):
            came = problem = None
        if problem is not None:
            raise problem
        if came is None:
            self.process.join(LOOK_AFTER)
            raise ProcessDied(part, self.process.exitcode)
        return came  # type: ignore[no-any-return]

    def let_go(self) -> None:
        self.pipe.close()
        self.process.terminate()
        self.process.join(LOOK_AFTER)


def _serve(work: Callable[[Any], Any], pipe: Connection) -> None:
    """Work at what comes through the pipe. Ctrl-C is for whoever gives the work."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    for one in (signal.SIGTERM, signal.SIGHUP):
        signal.signal(one, signal.SIG_DFL)
    while True:
        try:
            part = pipe.recv()
        except (EOFError, OSError):
            return
        try:
            answer = (work(part), None)
        except Exception as problem:
            answer = (None, problem)
        pipe.send(answer)


@dataclass
class _Bar:
    what: str
    of: int
    done: int = 0
    begun: float = 0.0

    def __post_init__(self) -> None:
        self.begun = time.monotonic()

    def one_more(self) -> None:
        self.done += 1
        filled = WIDTH * self.done // self.of
        left = (time.monotonic() - self.begun) / self.done * (self.of - self.done)
        self._show(f"\r{self.what:15}[{'#' * filled}{'.' * (WIDTH - filled)}] {left:4.0f} s left")

    def end(self) -> None:
        self._show(f"  {time.monotonic() - self.begun:.0f} s\n")

    def _show(self, text: str) -> None:
        try:
            print(text, end="", file=sys.stderr, flush=True)
        except OSError:  # nobody looks any more, which is no reason to stop
            sys.stderr = open(os.devnull, "w", encoding="utf-8")  # noqa: SIM115


class Hangs(Exception):
    """A job went round in circles within one line."""


@contextmanager
def within(seconds: float) -> Iterator[None]:
    """Raise Hangs when the block works for longer, waiting not counted. Only in the main thread of a process."""

    def stop(*_: object) -> None:
        raise Hangs(f"no answer within {seconds:g} s")

    before = signal.signal(signal.SIGPROF, stop)
    signal.setitimer(signal.ITIMER_PROF, seconds)
    try:
        yield
    finally:
        signal.setitimer(signal.ITIMER_PROF, 0)
        signal.signal(signal.SIGPROF, before)
