"""Headings for the phases of a played job: where in the replies to a line the next phase begins."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from expert.job.state.bench import state_in_words
from expert.job.state.job import PHASES, Job, Phase
from expert.terminal import sentences as say
from expert.trace.records import Record, Told


def heading(phase: Phase) -> str:
    """
    >>> heading(Phase.REPAIR)
    '--- 4 of 6: repair ---'
    """
    return say.phase_heading(PHASES.index(phase) + 1, len(PHASES), phase.value)


def with_headings(before: Phase | None, job: Job, records: Sequence[Record]) -> Iterator[Record | str]:
    """The replies to a line, with the heading of the phase that begins among them.

    `before`: the phase when the line was typed, None at the opening; `job`: after it.
    """
    if before is job.phase or job.phase is Phase.DONE:
        yield from records
        return
    begins = 0 if before is None else job.phase_begins
    yield from records[:begins]
    if before is Phase.INTAKE and job.phase is Phase.FIND:
        # Nothing had to be moved: the phase is told all the same, with how the machine stands.
        yield heading(Phase.SAFE)
        yield Told(say.machine_stands_safe(state_in_words(job)))
    yield heading(job.phase)
    yield from records[begins:]
