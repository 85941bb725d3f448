"""Finding: what to ask next and why."""

from __future__ import annotations

from expert.engine.candidates import Candidate
from expert.engine.gain import beliefs
from expert.engine.planner import Choice, choose
from expert.engine.suspicion import Picture
from expert.job.answers.putting import put_question
from expert.job.bench.moves import make_ready
from expert.job.search.ending import end_search
from expert.job.state.job import Job, Turn
from expert.job.state.situation import outcome_in_words, picture_of, situation_of
from expert.trace.why import Considered, Suspicion, Why


def search_on(turn: Turn) -> None:
    """Put the next question or bench move, or end the search."""
    job = turn.job
    picture = picture_of(job)
    if job.choice is None:
        job.choice = choose(situation_of(job, picture))
    if job.choice is None:
        end_search(turn, picture)
        return
    if not job.announced.issuperset(picture.confirmed):
        turn.tell(*why_search_goes_on(job, picture))
    job.announced = frozenset(picture.confirmed)
    question = job.base.questions[job.choice.best.asks]
    ready = make_ready(turn, question)
    if ready:
        put_question(turn, question, "question", why_asked(job, picture, job.choice))
    elif ready is None:
        # A move turned out impossible after the choice: plan again without it.
        job.choice = choose(situation_of(job, picture))
        if job.choice is None or job.choice.best.asks == question.id:
            end_search(turn, picture)
        else:
            search_on(turn)


def why_search_goes_on(job: Job, picture: Picture) -> tuple[str, ...]:
    """A fault is found, but more is to be known before the repair: what, and why.

    The search may go on although the fault accounts for everything: an answer that contradicted others is then asked
    again, and until it is given the fault rests on those that are left.
    """
    found = "; ".join(job.fault_name(fault) for fault in picture.confirmed)
    if picture.causes_wanted:
        reason = "What caused it is looked for before a new part is fitted."
    elif picture.complaints_open:
        names = "; ".join(job.base.complaints[complaint].name for complaint in picture.complaints_open)
        reason = f"It does not explain: {names}."
    elif picture.observations_open:
        asked = job.base.questions[picture.observations_open[0]].ask
        reason = f"It does not account for: {asked} {outcome_in_words(job, picture.observations_open[0])}."
    else:
        reason = "An answer that contradicted others is asked again first."
    return f"Found so far: {found}.", f"The search goes on. {reason}"


def why_asked(job: Job, picture: Picture, choice: Choice) -> Why:
    """The planner's reasons as plain data for the trace."""
    belief = beliefs(job.knowledge, picture)
    return Why(
        aim=choice.best.question,
        rule=choice.ahead_by or "",
        ahead_for=choice.ahead_for or "",
        settles=choice.best.settles[:8],
        candidates=tuple(_considered(candidate) for candidate in (choice.best, *choice.others)),
        suspects=tuple(
            Suspicion(suspect.fault, suspect.decibans, round(belief[suspect.fault], 4))
            for suspect in picture.suspects[:8]
        ),
    )


def _considered(candidate: Candidate) -> Considered:
    return Considered(
        candidate.question,
        round(candidate.gain, 4),
        round(candidate.minutes + candidate.route.minutes, 2),
        tuple(move.id for move in candidate.route.moves),
    )
