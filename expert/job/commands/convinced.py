"""Going on to the repair on the technician's own judgement: recorded as that, and never shown as found by the rules."""

from __future__ import annotations

from expert.engine.gain import beliefs
from expert.job.answers.reading import NotAnAnswer
from expert.job.search.ending import FOUND, OWN_JUDGEMENT, because_of, causes_first
from expert.job.sentences import commands as say
from expert.job.state.job import NO_PROMPT, Job, Phase, Turn, phase_after
from expert.job.state.situation import picture_of
from expert.trace.records import Found
from expert.trade.quantities.units import echo

MOST = 8


def be_convinced(turn: Turn, rest: str) -> None:
    """Show of what one can be convinced, or go on to the repair of the one that is named. Raises NotAnAnswer."""
    job = turn.job
    if job.left_at is not None or not (job.phase is Phase.FIND or job.prompt.subject == "ending"):
        raise NotAnAnswer(say.CHOSEN_WHILE_SEARCHED)
    picture = picture_of(job)
    mended = set(job.mended())
    belief = beliefs(job.knowledge, picture)
    found = [fault for fault in picture.confirmed if fault not in mended]
    faults = (*found, *(suspect.fault for suspect in picture.suspects[:MOST]))
    if not faults:
        raise NotAnAnswer(say.NO_FAULT_SUSPECTED)
    if not rest:
        turn.tell(
            *(f"{number}. {_named(job, fault, belief)}" for number, fault in enumerate(faults, 1)),
            say.HOW_TO_BE_CONVINCED,
        )
        return
    if not (rest.isdecimal() and len(rest) < 3 and 1 <= int(rest) <= len(faults)):
        raise NotAnAnswer(say.none_of_the_suspects(echo(rest), len(faults)))
    fault = faults[int(rest) - 1]
    for known in found:
        job.found[known] = FOUND
        turn.add(Found(known, FOUND, because_of(job, known)))
    if fault not in found:
        job.found[fault] = OWN_JUDGEMENT
        turn.add(Found(fault, OWN_JUDGEMENT, (_weighs(belief[fault]),)))
    job.outcome = job.found[fault]
    job.declined.discard(fault)
    job.to_repair = tuple(causes_first(job, [*found, *(() if fault in found else (fault,))]))
    job.closing.clear()
    job.choice = None
    job.phase, job.prompt = phase_after(Phase.FIND), NO_PROMPT


def _named(job: Job, fault: str, belief: dict[str, float]) -> str:
    share = f"{belief[fault]:.0%}" if fault in belief else "found"
    return f"{job.fault_name(fault)} ({share})"


def _weighs(share: float) -> str:
    return say.convinced_of(share)
