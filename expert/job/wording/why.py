"""Why a question is asked: in the language of the bench, and on request in numbers."""

from __future__ import annotations

from expert.engine.candidates import Candidate
from expert.engine.planner import Choice
from expert.engine.suspicion import Picture
from expert.job.sentences import why as say
from expert.job.state.job import Job
from expert.trade.counting import counted


def why_in_words(job: Job, picture: Picture, choice: Choice) -> tuple[str, ...]:
    """The planner's reasons for the question now put, as one would say them at the bench."""
    best = choice.best
    if not best.gain:
        return (say.ASKED_AGAIN,)
    lines = [*_wanted_for(job, best), _what_it_splits(job, picture, best)]
    if choice.danger_first:
        lines.append(say.MAY_SHOW_A_DANGER)
    if choice.ahead_by and choice.ahead_for:
        lines.append(
            say.heads_the_check_list(
                job.fault_name(choice.ahead_for), choice.ahead_by, job.base.rules[choice.ahead_by].because
            )
        )
    lines.append(say.takes(_cost(best)))
    if choice.others:
        after = choice.others[0]
        lines.append(say.next_best(job.base.questions[after.question].ask, _cost(after)))
    open_complaints = [job.base.complaints[complaint].name for complaint in picture.complaints_open]
    if open_complaints:
        lines.append(say.not_explained_yet("; ".join(open_complaints)))
    return (*lines, say.IN_NUMBERS)


def why_in_numbers(job: Job, choice: Choice) -> tuple[str, ...]:
    """The same as the planner weighs it: bits and minutes, with the next in line."""
    best = choice.best
    if not best.gain:
        return (say.ASKED_AGAIN,)
    minutes = best.minutes + best.route.minutes
    lines = [say.tells_about(best.gain, minutes)]
    for other in choice.others[:2]:
        cost = other.minutes + other.route.minutes
        lines.append(say.next_in_line(job.base.questions[other.question].ask, other.gain, cost))
    return tuple(lines)


def _wanted_for(job: Job, best: Candidate) -> list[str]:
    if best.asks == best.question:
        return []
    return [say.known_before(job.base.questions[best.question].ask)]


def _what_it_splits(job: Job, picture: Picture, best: Candidate) -> str:
    """How many of those left it bears on, and which."""
    left, on = len(picture.suspects), len(best.settles)
    if not on:
        return say.WHETHER_NORMAL
    names = "; ".join(job.fault_name(fault) for fault in best.settles[:3])
    more = say.and_more(on - 3) if on > 3 else ""
    if left == 1:
        return say.bears_on_the_last(names)
    if on == left:
        return say.bears_on_all(left, names, more)
    return say.tells_from_the_others(counted(left, "fault"), on, left - on, names, more)


def _cost(candidate: Candidate) -> str:
    """The minutes, and what has to be done to the bench for it."""
    moves = "; ".join(move.say.rstrip(".") for move in candidate.route.moves)
    minutes = f"{candidate.minutes + candidate.route.minutes:g} min"
    return say.cost_with_moves(minutes, moves) if moves else say.cost_as_it_stands(minutes)
