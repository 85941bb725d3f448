"""Headings for the phases of a played job: where in the replies to a line the next phase begins."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from expert.job.state.bench import state_in_words
from expert.job.state.job import PHASES, Job, Phase
from expert.trace.records import CautionShown, Put, Record, Told

# How the first sentence of something to do begins; a move of the bench begins with its own words.
TO_DO = (
    "Repair: ",
    "Left by elimination, not proved. If you repair it: ",
    "Your own judgement, not found by the rules. Repair: ",
    "Set up the next test.",
    "Not proved, because",
)


def heading(phase: Phase) -> str:
    """
    >>> heading(Phase.REPAIR)
    '--- 4 of 6: repair ---'
    """
    return f"--- {PHASES.index(phase) + 1} of {len(PHASES)}: {phase.value} ---"


def with_headings(before: Phase | None, job: Job, records: Sequence[Record]) -> Iterator[Record | str]:
    """The replies to a line, with the heading of the phase that begins among them.

    `before`: the phase when the line was typed, None at the opening; `job`: after it.
    """
    if before is job.phase or job.phase is Phase.DONE:
        yield from records
        return
    begins = _where_it_begins(job, records)
    yield from records[:begins]
    if before is Phase.INTAKE and job.phase is Phase.FIND:
        # Nothing had to be moved: the phase is told all the same, with how the machine stands.
        yield heading(Phase.SAFE)
        yield Told(f"The machine stands safe: {state_in_words(job)}.")
    yield heading(job.phase)
    yield from records[begins:]


def _where_it_begins(job: Job, records: Sequence[Record]) -> int:
    """The first of the replies that is about what to do next, and not about what the line led to."""
    start = len(records)
    for at in range(len(records) - 1, -1, -1):
        record = records[at]
        if not isinstance(record, Put | CautionShown | Told):
            break
        if isinstance(record, Put | CautionShown) or _is_to_do(job, record):
            start = at
    return start


def _is_to_do(job: Job, told: Told) -> bool:
    moves = tuple(f"{move.say} (" for move in job.base.bench.moves)
    return told.text.startswith(TO_DO + moves)
