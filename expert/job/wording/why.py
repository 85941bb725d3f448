"""Why a question is asked: in the language of the bench, and on request in numbers."""

from __future__ import annotations

from expert.engine.candidates import Candidate
from expert.engine.planner import Choice
from expert.engine.suspicion import Picture
from expert.job.state.job import Job
from expert.trade.counting import counted

ASKED_AGAIN = "It is asked again because the first answer contradicted others."
IN_NUMBERS = "In numbers: why more"


def why_in_words(job: Job, picture: Picture, choice: Choice) -> tuple[str, ...]:
    """The planner's reasons for the question now put, as one would say them at the bench."""
    best = choice.best
    if not best.gain:
        return (ASKED_AGAIN,)
    lines = [*_wanted_for(job, best), _what_it_splits(job, picture, best)]
    if choice.danger_first:
        lines.append("It comes first because it may show a danger.")
    if choice.ahead_by and choice.ahead_for:
        lines.append(
            f"It comes first because {job.fault_name(choice.ahead_for)} heads the check list of the rule "
            f"{choice.ahead_by}: {job.base.rules[choice.ahead_by].because}"
        )
    lines.append(f"It takes {_cost(best)}.")
    if choice.others:
        after = choice.others[0]
        lines.append(f"The next best: {job.base.questions[after.question].ask} It takes {_cost(after)}.")
    open_complaints = [job.base.complaints[complaint].name for complaint in picture.complaints_open]
    if open_complaints:
        lines.append(f"Not explained yet: {'; '.join(open_complaints)}.")
    return (*lines, IN_NUMBERS)


def why_in_numbers(job: Job, choice: Choice) -> tuple[str, ...]:
    """The same as the planner weighs it: bits and minutes, with the next in line."""
    best = choice.best
    if not best.gain:
        return (ASKED_AGAIN,)
    minutes = best.minutes + best.route.minutes
    lines = [
        f"It tells about {best.gain:.2f} bits in {minutes:g} min, moves of the bench included. "
        "(1 bit: half of the doubt is gone.)"
    ]
    for other in choice.others[:2]:
        cost = other.minutes + other.route.minutes
        lines.append(f"Next in line: {job.base.questions[other.question].ask} ({other.gain:.2f} bits in {cost:g} min)")
    return tuple(lines)


def _wanted_for(job: Job, best: Candidate) -> list[str]:
    if best.asks == best.question:
        return []
    return [f"It must be known before the next test: {job.base.questions[best.question].ask}"]


def _what_it_splits(job: Job, picture: Picture, best: Candidate) -> str:
    """How many of those left it bears on, and which."""
    left, on = len(picture.suspects), len(best.settles)
    if not on:
        return "It tells whether this is normal behaviour."
    names = "; ".join(job.fault_name(fault) for fault in best.settles[:3])
    more = f" and {on - 3} more" if on > 3 else ""
    if left == 1:
        return f"One fault is left, and it bears on that: {names}."
    if on == left:
        return f"It bears on all {left} faults that are left: {names}{more}."
    return f"Of the {counted(left, 'fault')} left it can tell {on} from the other {left - on}: {names}{more}."


def _cost(candidate: Candidate) -> str:
    """The minutes, and what has to be done to the bench for it."""
    moves = "; ".join(move.say.rstrip(".") for move in candidate.route.moves)
    minutes = f"{candidate.minutes + candidate.route.minutes:g} min"
    return f"{minutes}, these moves included: {moves}" if moves else f"{minutes} as the bench stands"
