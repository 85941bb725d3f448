"""Close: the prompts one after the other, then nothing more is asked; or a summary for whoever goes on."""

from __future__ import annotations

from dataclasses import replace

from expert.engine.bench import satisfies
from expert.job.answers.reading import NotAnAnswer
from expert.job.bench.moves import bring_bench
from expert.job.prompts.bill import Minutes, Note, Parts
from expert.job.prompts.closing_prompt import ClosingPrompt
from expert.job.prompts.danger import leave, make_safe, may_stand, name_confirmed
from expert.job.prompts.ending import Ending
from expert.job.sentences import closing as say
from expert.job.state.after_opening import looks_before_return, not_shown_safe_in_words, tests_before_return
from expert.job.state.bench import state_in_words
from expert.job.state.costs import costs_of
from expert.job.state.hazards import forbidding, open_hazards
from expert.job.state.job import NO_PROMPT, Job, Phase, Prompt, Turn
from expert.job.state.situation import picture_of
from expert.job.wording.customer import customer_summary
from expert.job.wording.explaining import answer_in_words, repairs_in_words
from expert.trace.records import Closed, CustomerTold, HandedOver

CLOSING: tuple[ClosingPrompt, ...] = (Ending(), Parts(), Minutes(), Note())
BY_NAME = {prompt.name: prompt for prompt in CLOSING}


def close_on(turn: Turn) -> None:
    """Bring the bench to its safe state, then put the next closing prompt, or close."""
    job = turn.job
    # No job is closed while the machine is plugged in: either the plug is out, or somebody answers for it.
    if not make_safe(turn, then=""):
        return
    if "ending" not in job.closing and before_the_ending(turn):
        return
    for prompt in CLOSING:
        if prompt.name not in job.closing:
            prompt.put(turn)
            return
    finish(turn, job.closing["ending"])


def before_the_ending(turn: Turn) -> bool:
    """Put what comes before the ending: looks, then closing the machine, then the tests of a machine that was open."""
    job = turn.job
    if looks_before_return(turn):
        return True
    # What was taken off for a test is put back, also on a machine that goes back as it came.
    if job.outcome != "stopped" and bring_bench(turn, job.base.bench.hand_back) is False:
        return True
    return tests_before_return(turn)


def finish(turn: Turn, ending: str) -> None:
    """The last record of the dialogue; the terminal seals the trace after it. What is handed over stays open."""
    job = turn.job
    if ending == "handed_over":
        hand_over_as_it_stands(turn)
        return
    _end(job, ending)
    turn.add(CustomerTold(customer_summary(job, ending)))
    turn.add(_closed(job, ending))


def _closed(job: Job, ending: str) -> Closed:
    closed = Closed(ending, round(job.minutes, 1), job.parts_used, job.closing.get("note", ""))
    if job.shop.rates is None:
        return closed
    costs = costs_of(job.shop.rates, closed.minutes, closed.parts)
    return replace(
        closed,
        currency=costs.currency,
        work_cost=costs.work,
        parts_cost=costs.for_parts,
        without_price=costs.without_price,
    )


def _end(job: Job, ending: str) -> None:
    job.phase = Phase.DONE
    job.prompt = Prompt("done")
    job.closing["ending"] = ending


def hand_over(turn: Turn) -> None:
    """Leave it to somebody else, with a summary to go on from. Where it may hurt as it stands it is made safe first.

    Asked for twice, it is no safer: only a move that cannot be made leads past it.
    """
    job = turn.job
    if not job.bench or (satisfies(job.bench, job.base.bench.safe) and may_stand(job)):
        hand_over_as_it_stands(turn)
    else:
        job.leaving = True
        job.prompt = NO_PROMPT
        turn.tell(say.AS_SOON_AS_SAFE)


def hand_over_as_it_stands(turn: Turn) -> None:
    """Leave it with the summary, whatever state the machine is in; who takes it on is told when it is not safe."""
    job = turn.job
    job.handed = (job.phase, job.outcome)
    if job.outcome == "stopped":
        name_confirmed(turn, read_twice=False)
    else:
        job.outcome = "handed_over"
    turn.add(HandedOver("\n".join(summary(job))))
    warn_if_not_safe(turn)
    _end(job, "handed_over")
    turn.add(CustomerTold(customer_summary(job, "handed_over")))


def leave_safely(turn: Turn) -> None:
    """Put the next move to the safe state; there, or where there is no way to it, hand the job over.

    Where a danger forbids how it stands and no move out of it can be made, a responsible person is called first.
    """
    if not may_stand(turn.job):
        leave(turn)
    elif bring_bench(turn, turn.job.base.bench.safe) is not False:
        hand_over_as_it_stands(turn)


def refuse_leaving(turn: Turn) -> None:
    """Raise NotAnAnswer where a danger forbids to leave the machine as it stands."""
    job = turn.job
    standing = [*forbidding(job, job.bench), *forbidding(job, job.bench, left=True)] if job.bench else []
    if standing:
        hazard = standing[0][0]
        raise NotAnAnswer(say.not_like_this(hazard.name, state_in_words(job)))


def warn_if_not_safe(turn: Turn) -> None:
    """Nobody walks away from a machine that is still plugged in without being told."""
    job = turn.job
    if job.bench and not satisfies(job.bench, job.base.bench.safe):
        turn.tell(say.not_safe_to_leave(state_in_words(job)))


def summary(job: Job) -> list[str]:
    """Where the job stands: complaints, what was found, who is still under suspicion, the answers."""
    base = job.base
    picture = picture_of(job)
    lines = ["Complaints: " + ("; ".join(base.complaints[c].name for c in job.complaints) or "none yet")]
    lines += [say.bench(state_in_words(job))] if job.bench else []
    lines += repairs_in_words(job)
    lines += [say.found(job.fault_name(fault)) for fault in picture.confirmed]
    lines += [say.danger(text) for text in job.dangers_met.values()]
    lines += [say.danger_until(h.name, h.until) for h in open_hazards(job) if not h.in_every_job]
    lines += [say.still_possible(job.fault_name(suspect.fault)) for suspect in picture.suspects[:5]]
    lines += [
        f"{given.number}. {base.questions[given.question].ask} {answer_in_words(job, given)}"
        for given in job.given.values()
        if given.holds
    ]
    lines += [say.still_to_be_proved(base.questions[question].ask) for question in job.to_prove]
    lines += [say.not_answered(base.questions[question].ask, why).rstrip() for question, why in job.cannot.items()]
    lines += not_shown_safe_in_words(job)
    lines += [say.could_not_be_done(move.say) for move in base.bench.moves if move.id in job.impossible]
    return lines
