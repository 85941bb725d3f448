"""What the chat shows beside the dialogue, as plain text: where the job stands, and what the typed line would do.

Everything is asked of the job itself. A line is tried on a copy, so that there is no second idea of what an answer is.
"""

from __future__ import annotations

from dataclasses import dataclass

from expert.desk.session import LONGEST_LINE
from expert.engine.gain import beliefs
from expert.job.answers.command_words import COMMAND_WORDS
from expert.job.answers.mistyped import with_command_meant
from expert.job.answers.reading import NotAnAnswer
from expert.job.commands.obey import obey
from expert.job.prompts.danger import open_dangers
from expert.job.prompts.registry import owner_at
from expert.job.state.bench import state_in_words
from expert.job.state.job import PHASES, Job, Phase, Turn
from expert.job.state.situation import picture_of
from expert.terminal import sentences as say
from expert.trace.cleaning import clean
from expert.trade.counting import counted

LEAST_WORD = 3  # letters; shorter beginnings of a complaint tell nothing


@dataclass(frozen=True, slots=True)
class Remark:
    """What the line typed so far would do. `refused`: it would not be taken, and `text` says why."""

    text: str
    refused: bool = False


NOTHING = Remark("")


def remark_on(job: Job, typed: str) -> Remark:
    """What would happen with this line, found without saying it."""
    line = clean(typed, LONGEST_LINE).strip()
    if not line or job.phase is Phase.DONE:
        return NOTHING
    try:
        meaning = clean(_meaning(job, line))
        return NOTHING if meaning == line.casefold() else Remark(meaning)
    except NotAnAnswer as problem:
        return NOTHING if may_go_on(job, line) else Remark(clean(with_command_meant(str(problem), line)), refused=True)


def may_go_on(job: Job, line: str) -> bool:
    """Whether the line is the beginning of something that may be typed here."""
    begun = line.casefold()
    if owner_at(job).offers_at_once and len(owner_at(job).part_typed(begun).strip()) < LEAST_WORD:
        return True
    return any(word.startswith(begun) or begun == word.strip() for word in (*COMMAND_WORDS, *job.prompt.choices))


def _meaning(job: Job, line: str) -> str:
    """What a line that is taken means, in words, or ''. Raises NotAnAnswer."""
    return "" if obey(Turn(job.copy()), line) else owner_at(job).meaning(job, line)


# ---------------------------------------------------------------- where the job stands


def phases_in_words(job: Job) -> str:
    """The phase in capitals, then the phases left, such as "FIND > repair > prove > close"; a stop before all."""
    if job.phase is Phase.DONE:
        return "CLOSED"
    if open_dangers(job):
        return "STOPPED for danger"
    first, *left = PHASES[PHASES.index(job.phase) :]
    return " > ".join((first.value.upper(), *(phase.value for phase in left)))


def suspects_in_short(job: Job) -> str:
    """What was found, what was repaired, or how many suspects are left and the likeliest of them by name."""
    if job.phase in (Phase.INTAKE, Phase.SAFE):
        return ""
    picture = picture_of(job)
    if picture.confirmed:
        return "found: " + "; ".join(job.fault_name(fault) for fault in picture.confirmed)
    if not picture.suspects:
        repaired = "; ".join(job.fault_name(fault) for fault in job.mended())
        return f"repaired: {repaired}" if repaired else "no suspect left"
    shares = {fault: f"{share:.0%}" for fault, share in beliefs(job.knowledge, picture).items()}
    first = picture.suspects[0].fault
    alike = [suspect.fault for suspect in picture.suspects if shares[suspect.fault] == shares[first]]
    each = " each" if len(alike) > 1 else ""
    # The figure before the names: what does not fit is cut off at the end.
    names = "; ".join(job.fault_name(fault) for fault in alike)
    return f"{counted(len(picture.suspects), 'suspect')}: {shares[first]}{each} {names}"


def where_it_stands(job: Job) -> tuple[str, ...]:
    """Job number with phases, then the suspects if there can be any yet."""
    parts = (say.job_and_phases(job.number, phases_in_words(job)), suspects_in_short(job))
    return tuple(clean(part) for part in parts if part)


def joined(parts: tuple[str, ...], width: int) -> tuple[str, ...]:
    """The parts in one line when they fit, else a line for each, cut to the width.

    >>> joined(("Job 7 | FIND", "2 suspects"), 30), joined(("Job 7 | FIND", "2 suspects"), 20)
    (('Job 7 | FIND | 2 suspects',), ('Job 7 | FIND', '2 suspects'))
    """
    together = " | ".join(parts)
    return (together,) if len(together) <= width else tuple(cut_to(part, width) for part in parts)


def bench_in_words(job: Job) -> str:
    """How the machine stands on the bench, in one line."""
    return clean(f"Bench: {state_in_words(job) or 'not known yet'}")


def time_so_far(job: Job, by_the_clock: float) -> str:
    """What was done so far would take so long by the book, and took so long; '' before anything was done."""
    return say.minutes_so_far(job.minutes, by_the_clock) if job.minutes >= 1 else ""


def cut_to(text: str, width: int) -> str:
    """The text in at most `width` characters, with three dots where it was cut.

    >>> cut_to("12 suspects, likeliest: fill solenoid valve", 20)
    '12 suspects, like...'
    """
    return text if len(text) <= width else text[: max(width - 3, 0)] + "..."[:width]
