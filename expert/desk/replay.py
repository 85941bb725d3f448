"""Running a trace again: the lines that were typed, through the same dialogue, compared record by record."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from expert.desk.differences import difference_in_words
from expert.desk.profile.using import shop_at_opening
from expert.desk.unattended import with_machine
from expert.engine.knowledge import Knowledge
from expert.job.prompts.as_left import take_up_again
from expert.job.state.job import Job
from expert.job.steps import begin, step
from expert.language.problems import RulesRefused
from expert.language.worked.job_answers import read_machine_text
from expert.trace.errors import TraceDamaged, TraceError
from expert.trace.reading import Trace
from expert.trace.records import Opened, Paused, Put, Record, Resumed, Said, Sealed


class TraceDiffers(TraceError):
    """The same rules and the same lines do not give the same job: the program has changed, or the trace has."""

    def __init__(self, path: Path, line: int, difference: str) -> None:
        super().__init__(
            f"{path}:{line}:1: the same rules do not give what was recorded: {difference}. Another version of the "
            "program wrote it, or it was changed afterwards. Nothing was written to it. Go on with the program of that "
            "time, or open a new job [job-differs]"
        )


class RulesDiffer(TraceError):
    """The job was opened with other rules than those at hand."""

    def __init__(self, opened_with: str, at_hand: str) -> None:
        super().__init__(
            f"the job was opened with other rules ({opened_with[:12]}) than those at hand ({at_hand[:12]}); "
            "name the rules of that time with --rules, or see what would change with: expert audit TRACE --rerun"
        )


@dataclass(frozen=True, slots=True)
class Difference:
    """A line of the trace where the re-run does something else. None: nothing there."""

    line: int
    recorded: Record | None
    now: Record | None

    def __str__(self) -> str:
        return difference_in_words(self.line, self.recorded, self.now)


@dataclass(frozen=True, slots=True)
class Rerun:
    """The job as it stands at the end, records that the trace lacks at its end, and every difference.

    `waiting_at`: the prompt at which the job waits, with what belongs to it; `held_at`: that at which it was left,
    while it is asked how the machine stands.
    """

    job: Job
    missing: tuple[Record, ...]
    differences: tuple[Difference, ...]
    waiting_at: tuple[Record, ...]
    held_at: tuple[Record, ...] = ()

    def refuse_differences(self, path: Path) -> None:
        """Raise TraceDiffers when the same rules do not give the same job."""
        if self.differences:
            first = self.differences[0]
            raise TraceDiffers(path, first.line, str(first))


def opened_of(trace: Trace) -> Opened:
    """The first record. Raises TraceDamaged when the trace does not begin with it."""
    if not trace.lines or not isinstance(trace.lines[0].record, Opened):
        raise TraceDamaged("a trace begins with 'opened'; nothing was recorded here", trace.path, 1)
    return trace.lines[0].record


def with_its_machine(knowledge: Knowledge, opened: Opened, path: Path | None) -> Knowledge:
    """The knowledge with the machine type that the job brought along, if it did. Raises TraceDamaged."""
    if not opened.machine_file:
        return knowledge
    try:
        machine = read_machine_text("the job's machine", opened.machine_file, knowledge.base)
    except RulesRefused as refused:
        problem = f"the machine type of the job does not fit these rules: {refused.problems[0]}"
        raise TraceDamaged(problem, path, 1) from None
    return with_machine(knowledge, machine)


def rerun(knowledge: Knowledge, trace: Trace) -> Rerun:
    """Type the recorded lines again. With the same rules every record must come out the same."""
    opened = opened_of(trace)
    knowledge = with_its_machine(knowledge, opened, trace.path)
    knowledge, shop = shop_at_opening(knowledge, opened, trace.path)
    job, due = begin(knowledge, shop, opened.job)
    waiting = list(due)
    last_replies = held = due
    differences: list[Difference] = []
    for number, line in enumerate(trace.lines[1:], 2):
        match line.record:
            case Said(text=text):
                differences += [Difference(number, None, record) for record in waiting]
                job.paused = False
                waited_for, left_at = job.prompt, job.held
                job, replies = step(job, text)
                waiting = list(replies)
                if left_at is not None and job.prompt == left_at:
                    last_replies = held
                    continue
                # An open take-back waits for its own yes or no, though no prompt was put for it.
                if job.prompt != waited_for or any(isinstance(record, Put) for record in replies):
                    last_replies = replies
            case Resumed(asks_standing=True) if job.held is None:
                held = last_replies
                differences += [Difference(number, None, record) for record in waiting]
                job, last_replies = take_up_again(job)
                waiting = list(last_replies)
            case Resumed() | Sealed():
                continue
            case record:
                now = waiting.pop(0) if waiting else None
                if now != record:
                    differences.append(Difference(number, record, now))
    return Rerun(job, tuple(waiting), tuple(differences), _from_prompt_on(last_replies), _from_prompt_on(held))


def _from_prompt_on(records: tuple[Record, ...]) -> tuple[Record, ...]:
    """The last prompt with what belongs to it: cautions and steps."""
    return tuple(record for record in records if not isinstance(record, Paused))
