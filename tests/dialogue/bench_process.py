"""A bench in a process of its own, talked to through pipes line by line, that can be killed at any byte."""

from __future__ import annotations

import gc
import io
import os
import signal
import sys
from collections.abc import Callable, Collection, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import UTC, datetime
from itertools import count
from pathlib import Path

from expert.desk.opening import shop_of
from expert.engine.knowledge import Knowledge
from expert.job.beginning import begin
from expert.job.prompts.as_left import take_up_again
from expert.job.state.job import Job, Phase, Prompt
from expert.job.steps import step
from expert.terminal.plain_lines import show
from expert.terminal.resuming import resume_job
from expert.terminal.talking import open_job
from expert.trace.record import Record
from expert.trace.records import PromptPut
from expert.trace.storage import TraceFile

SECONDS_TO_WAIT = 200  # a child that hangs must not hold up the tests for ever, nor die of a busy machine


def steady_clock() -> datetime:
    return datetime(2026, 1, 31, 9, 30, tzinfo=UTC)


def never_load(rules: Path) -> Knowledge:
    raise AssertionError(f"the rules in {rules} were to be read")


# What whoever takes a job up types, by what is asked.
HERE = {"technician": "Ann", "qualified": "no", "still": "yes"}


@dataclass(frozen=True)
class Uninterrupted:
    """What a job says when nothing happens to it but that it is taken up again after so many lines.

    `shown[n]`: the text after n lines; `again[n]`: what is said when it is taken up there, each text with the line that
    is typed after it ('' after the last), which ends with the prompt at which it waits.
    """

    lines: tuple[str, ...]
    shown: tuple[str, ...]
    again: Mapping[int, tuple[tuple[str, str], ...]]
    records: tuple[Record, ...]

    @classmethod
    def play(
        cls,
        knowledge: Knowledge,
        number: str,
        choose: Callable[[Job], str],
        most: int,
        taken_up: Collection[int] = (),
        command: str = "",
    ) -> Uninterrupted:
        """Type what `choose` gives for the job as it stands, until it is closed or `most` lines are typed.

        `command`: what goes on with the job, as whoever hands it over is told.
        """
        job, records = begin(knowledge, shop_of(knowledge), number)
        job = replace(job, resume_with=command)
        everything = list(records)
        lines: list[str] = []
        shown = [rendered(job, records)]
        again: dict[int, tuple[tuple[str, str], ...]] = {}
        prompt = shown[0]
        while job.phase is not Phase.DONE:
            if len(lines) in taken_up:
                job, again[len(lines)] = _taken_up(job, prompt)
                prompt = again[len(lines)][-1][0]
            if len(lines) == most:
                break
            line = choose(job)
            waited_for: Prompt = job.prompt
            job, records = step(job, line)
            everything += records
            lines.append(line)
            shown.append(f"> {line}\n" + rendered(job, records))
            is_new = job.prompt != waited_for or any(isinstance(record, PromptPut) for record in records)
            prompt = rendered(job, records) if is_new else prompt
        return cls(tuple(lines), tuple(shown), again, tuple(everything))


def _taken_up(job: Job, prompt: str) -> tuple[Job, tuple[tuple[str, str], ...]]:
    """The job once somebody has said who is there, and that the machine stands as it stood."""
    job, records = take_up_again(job)
    if not records:
        return job, ((prompt, ""),)
    texts, typed = [rendered(job, records)], list[str]()
    while job.left_at is not None:
        typed.append(HERE[job.prompt.subject])
        job, records = step(job, typed[-1])
        texts.append(f"> {typed[-1]}\n" + rendered(job, records))
    return job, tuple(zip(texts, [*typed, ""], strict=True))


def rendered(job: Job, records: Sequence[Record]) -> str:
    out = io.StringIO()
    show(job, records, out)
    return out.getvalue()


class Bench:
    """A forked child that runs `work` with its standard input and output on pipes."""

    def __init__(self, work: Callable[[], object]) -> None:
        to_read, self._to_child = os.pipe()
        self._from_child, to_write = os.pipe()
        self.process = os.fork()
        if not self.process:
            os.close(self._to_child)
            os.close(self._from_child)
            _run(work, to_read, to_write)
        os.close(to_read)
        os.close(to_write)

    def send(self, line: str) -> bool:
        """False when nobody reads any more."""
        try:
            os.write(self._to_child, f"{line}\n".encode())
        except BrokenPipeError:
            return False
        return True

    def hear(self, expected: str) -> str:
        """As much as is expected, or less when the child is gone."""
        wanted = expected.encode()
        heard = b""
        while len(heard) < len(wanted):
            piece = os.read(self._from_child, len(wanted) - len(heard))
            if not piece:
                break
            heard += piece
        return heard.decode("utf-8", "replace")

    def kill(self) -> None:
        os.kill(self.process, signal.SIGKILL)

    def end(self) -> str:
        """Close the input and wait; what was still said."""
        os.close(self._to_child)
        rest = b""
        while piece := os.read(self._from_child, 65536):
            rest += piece
        os.close(self._from_child)
        os.waitpid(self.process, 0)
        return rest.decode("utf-8", "replace")


def _run(work: Callable[[], object], reading: int, writing: int) -> None:
    code = 1
    # What other tests left behind is not cleaned up here: its threads did not come along, and would be waited for.
    gc.freeze()
    try:
        signal.signal(signal.SIGALRM, signal.SIG_DFL)
        signal.alarm(SECONDS_TO_WAIT)
        sys.stdin = os.fdopen(reading, encoding="utf-8")
        sys.stdout = os.fdopen(writing, "w", encoding="utf-8")
        work()
        sys.stdout.flush()
        code = 0
    except BaseException as problem:
        sys.stdout.write(f"{type(problem).__name__}: {problem}\n")
        sys.stdout.flush()
    finally:
        os._exit(code)


def opened(knowledge: Knowledge, rules: Path, jobs: Path, number: str) -> None:
    """What `expert bench --plain --jobs JOBS --job NUMBER` does once the rules are loaded."""
    open_job(knowledge, rules, jobs, number, steady_clock, plain=True)


def resumed(knowledge: Knowledge, rules: Path, jobs: Path, number: str) -> None:
    """What `expert resume --plain --jobs JOBS NUMBER` does."""
    resume_job(lambda _: knowledge, rules, jobs / f"{number}.jsonl", steady_clock, plain=True)


def killed_at(byte: int, work: Callable[[], object]) -> Callable[[], object]:
    """The same work in a process that dies when the trace has grown by so many bytes; 0: before the first write.

    Only in a forked child: it changes how the program writes.
    """

    def doomed() -> object:
        left = count(byte, -1)

        def write_and_die(self: TraceFile, content: bytes) -> None:
            for start in range(0, len(content)):
                if next(left) <= 0:
                    self._file.write(content[:start])
                    os.kill(os.getpid(), signal.SIGKILL)
            self._file.write(content)

        TraceFile._write_all = write_and_die  # type: ignore[method-assign]
        return work()

    return doomed


def killed_around_the_disk(call: int, before: bool, work: Callable[[], object]) -> Callable[[], object]:
    """The same work in a process that dies at the `call`-th wait for the disk, before or after the waiting."""

    def doomed() -> object:
        calls = count(1)
        wait = os.fsync

        def wait_and_die(handle: int) -> None:
            now = next(calls) == call
            if now and before:
                os.kill(os.getpid(), signal.SIGKILL)
            wait(handle)
            if now:
                os.kill(os.getpid(), signal.SIGKILL)

        os.fsync = wait_and_die  # type: ignore[assignment]
        return work()

    return doomed
