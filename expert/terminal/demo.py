"""Saved demo jobs: played through the real dialogue at reading pace, and written as plain text beside their traces.

Run as `python -m expert.terminal.demo --write FOLDER` it writes NAME.txt for every NAME.jsonl in the folder.
"""

from __future__ import annotations

import select
import sys
import time
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from difflib import get_close_matches
from pathlib import Path
from typing import TextIO

from expert.desk.profile.using import shop_at_opening
from expert.desk.replay import opened_of
from expert.desk.taking_up import RulesDiffer
from expert.engine.knowledge import Knowledge
from expert.job.beginning import begin
from expert.job.state.job import Job, Phase
from expert.job.steps import step
from expert.job.wording.records import lines_of
from expert.terminal import sentences as say
from expert.terminal.demo_headings import with_headings
from expert.terminal.plain_lines import WIDTH, wrapped
from expert.trace.cleaning import clean
from expert.trace.reading import Trace, read_trace
from expert.trace.records import Record, Said, Told

A_LETTER = 0.04  # seconds, as an unhurried typist
A_WORD = 0.12  # seconds of reading for each word shown
LONGEST_PAUSE = 2.5  # seconds for one line


class NoSuchDemo(ValueError):
    """There is no demo job of that name. The message says which there are."""


@dataclass(frozen=True, slots=True)
class Scene:
    """One step of a job: the line typed (None: the opening), the job after it, what it led to, the phase before."""

    line: str | None
    job: Job
    records: tuple[Record, ...]
    before: Phase | None = None


def scenes(trace: Trace, knowledge: Knowledge) -> Iterator[Scene]:
    """The recorded lines through the real dialogue, step by step. Raises TraceDamaged when it does not begin as one."""
    opened = opened_of(trace)
    job, records = begin(*shop_at_opening(knowledge, opened, trace.path), opened.job)
    yield Scene(None, job, records)
    for record in trace.records:
        if isinstance(record, Said):
            job.paused = False
            before = job.phase
            job, records = step(job, record.text)
            yield Scene(record.text, job, records, before)


def render(trace: Trace, knowledge: Knowledge) -> str:
    """The job as plain text: a heading with its number, then the dialogue with '> ' before each typed line.

    Where a phase of the job begins, a heading names it.

    Raises RulesDiffer when the job was opened with other rules than these, and TraceDamaged.
    """
    opened = opened_of(trace)
    if opened.rules_digest != knowledge.base.digest:
        raise RulesDiffer(opened.rules_digest, knowledge.base.digest)
    heading = f"Job {opened.job}"
    lines = [heading, "=" * len(heading), ""]
    for scene in scenes(trace, knowledge):
        if scene.line is not None:
            lines += ["", *wrapped(f"> {clean(scene.line)}", WIDTH)]
        told = [line for _, text in _told(scene) for line in wrapped(text, WIDTH)]
        lines += ["", *told] if scene.line is not None and told[:1] and told[0].startswith("--- ") else told
    return "\n".join(lines) + "\n"


def _told(scene: Scene) -> Iterator[tuple[str, str]]:
    for at, part in enumerate(with_headings(scene.before, scene.job, scene.records)):
        if isinstance(part, str):
            # An empty line stands before the replies already.
            yield from (("small", line) for line in ("", part, "")[at == 0 :])
        else:
            yield from lines_of(scene.job, part)


# ---------------------------------------------------------------- the demo jobs that come with the program


def demo_jobs(folder: Path) -> dict[str, Path]:
    """The traces in a folder and its folders, by name, sorted."""
    return {path.stem: path for path in sorted(folder.rglob("*.jsonl"), key=lambda path: path.stem)}


def demo_named(folder: Path, name: str | None) -> Trace:
    """The demo job of that name, or the first one. Raises NoSuchDemo and what `read_trace` raises."""
    jobs = demo_jobs(folder)
    if not jobs:
        raise NoSuchDemo(say.holds_no_demo_job(folder))
    chosen = name or next(iter(jobs))
    if chosen not in jobs:
        near = get_close_matches(chosen, jobs, 1)
        hint = say.did_you_mean(near[0]) if near else f"there are: {', '.join(jobs)}"
        raise NoSuchDemo(say.is_no_demo_job(clean(chosen, 60), hint))
    return read_trace(jobs[chosen])


def listing(folder: Path, knowledge: Knowledge) -> list[str]:
    """One line for each demo job: its name, the machine, the complaints and how it ended."""
    lines = []
    for name, path in demo_jobs(folder).items():
        job = list(scenes(read_trace(path), knowledge))[-1].job
        complaints = "; ".join(knowledge.base.complaints[complaint].name for complaint in job.complaints)
        ending = job.closing.get("ending", "") or "open"
        lines.append(clean(say.demo_job(name, complaints, ending.replace("_", " "))))
    return lines


# ---------------------------------------------------------------- playing


def play(
    trace: Trace, knowledge: Knowledge, out: TextIO, show: Callable[[Scene], None] | None, wait: Callable[[float], None]
) -> None:
    """Play a job: typed lines appear letter by letter, replies line by line, with `wait(seconds)` between.

    `show` shows the replies of a scene in a way of its own; None: plain lines.
    """
    if opened_of(trace).rules_digest != knowledge.base.digest:
        out.write(say.SAVED_WITH_OTHER_RULES)
    out.write(say.demo_begins(opened_of(trace).job))
    for scene in scenes(trace, knowledge):
        if scene.line is not None:
            _type(clean(scene.line), out, wait)
        if show is not None:
            show(scene)
        else:
            _tell(scene, out, wait)
    out.flush()


def _type(line: str, out: TextIO, wait: Callable[[float], None]) -> None:
    out.write("> ")
    for letter in line:
        out.write(letter)
        out.flush()
        wait(A_LETTER)
    out.write("\n\n")


def _tell(scene: Scene, out: TextIO, wait: Callable[[float], None]) -> None:
    for _, text in _told(scene):
        for line in wrapped(text, WIDTH):
            out.write(line + "\n")
        out.flush()
        wait(reading_time(text))


def reading_time(text: str) -> float:
    """Seconds that a line stands before the next one comes."""
    return min(A_WORD * len(text.split()), LONGEST_PAUSE)


@dataclass
class Pace:
    """How long is waited between two lines: not at all once Enter was pressed at the keyboard."""

    fast: bool
    keyboard: TextIO

    def wait(self, seconds: float) -> None:
        if self.fast:
            return
        try:
            pressed, _, _ = select.select([self.keyboard], [], [], seconds)
        except (OSError, ValueError):  # nothing that can be waited for, such as no keyboard at all
            time.sleep(seconds)
            return
        if pressed:
            self.keyboard.readline()
            self.fast = True


def play_here(trace: Trace, knowledge: Knowledge, fast: bool) -> None:
    """Play on standard output: in colours at a terminal, in plain lines into a pipe, and there without pauses."""
    is_terminal = sys.stdout.isatty()
    wait = Pace(fast or not is_terminal, sys.stdin).wait
    if is_terminal and not fast:
        print(say.ENTER_GOES_FASTER)
    show: Callable[[Scene], None] | None = None
    if is_terminal:
        from expert.terminal.prompt import show_records

        def show(scene: Scene) -> None:
            for part in with_headings(scene.before, scene.job, scene.records):
                record = Told(part) if isinstance(part, str) else part
                show_records(scene.job, (record,))
                wait(sum(reading_time(text) for _, text in lines_of(scene.job, record)))

    play(trace, knowledge, sys.stdout, show, wait)


# ---------------------------------------------------------------- writing the readable renderings


def write_renderings(folder: Path, knowledge: Knowledge) -> tuple[Path, ...]:
    """Write NAME.txt beside every NAME.jsonl. Raises what `render` and `read_trace` raise."""
    written = []
    for path in demo_jobs(folder).values():
        target = path.with_suffix(".txt")
        target.write_text(render(read_trace(path), knowledge), "utf-8")
        written.append(target)
    return tuple(written)


def main(arguments: Iterable[str]) -> int:
    """`--write FOLDER [RULES]`: write the readable renderings of the traces in a folder. Exit code 0, 1 or 2."""
    from expert.engine.knowledge import knowledge_of
    from expert.language.load import load_rules
    from expert.language.problems import RulesRefused
    from expert.language.shipped import shipped
    from expert.trace.errors import TraceError

    match tuple(arguments):
        case ("--write", folder, *rules) if len(rules) <= 1:
            try:
                knowledge = knowledge_of(load_rules(Path(rules[0]) if rules else shipped("rules")))
                for path in write_renderings(Path(folder), knowledge):
                    print(path)
            except (TraceError, RulesRefused, OSError) as problem:
                print(problem, file=sys.stderr)
                return 1
            return 0
        case _:
            print(say.USAGE_OF_DEMO, file=sys.stderr)
            return 2


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
