"""Finding: what to ask next and why."""

from __future__ import annotations

from dataclasses import replace

from expert.engine.bench import Route
from expert.engine.candidates import Candidate
from expert.engine.gain import beliefs
from expert.engine.planner import Choice, choose
from expert.engine.suspicion import Picture
from expert.engine.ways import Situation, way_to_ask
from expert.job.answers.putting import put_question
from expert.job.bench.first import looks_at_once
from expert.job.bench.moves import make_ready, put_release_test
from expert.job.search.ending import end_search
from expert.job.search.second_reading import ask_again
from expert.job.search.short_list import in_rows
from expert.job.search.stalling import Stall, stall_of
from expert.job.sentences import search as say
from expert.job.state.complaints_now import raise_what_is_seen
from expert.job.state.job import Foreseen, Job, Prompt, Turn
from expert.job.state.situation import outcome_in_words, picture_of, situation_of
from expert.trace.records import PromptPut
from expert.trace.why import Considered, Suspicion, Why


def search_on(turn: Turn) -> None:
    """Put the next question or bench move, or end the search."""
    job = turn.job
    if begin_with := looks_at_once(job):
        put_release_test(turn, begin_with)
        return
    picture = picture_of(job)
    if job.choice is None and not ask_again(turn, picture, at_the_end=False):
        situation = situation_of(job, picture)
        recorded = turn.foreseen and as_recorded(situation, turn.foreseen)
        job.choice = recorded or choose(situation)
        if job.choice is not None and job.choice.best.route.moves:
            # A job that is left on the way there takes up the same choice.
            why = turn.foreseen.why if turn.foreseen and recorded else why_asked(job, picture, job.choice)
            turn.on_the_way = replace(why, suspects=())
    if job.choice is None:
        if not raised_instead(turn, picture) and not ask_again(turn, picture, at_the_end=True):
            end_search(turn, picture)
        return
    if not job.choice.second_reading:  # that has said itself why it comes first
        if not job.announced.issuperset(picture.confirmed):
            turn.tell(*why_search_goes_on(job, picture))
        job.announced = frozenset(picture.confirmed)
    stall = stall_of(job, picture)
    job.progress = stall.progress
    if job.choice.best.danger:
        job.asked_for_danger |= {job.choice.best.asks}
    elif stall.tells_little and turn.foreseen is None and job.choice.best.asks not in job.again:
        # on record is what was asked then
        if not raised_instead(turn, picture) and not ask_again(turn, picture, at_the_end=True):
            offer_to_stop(turn, picture, stall)
        return
    question = job.base.questions[job.choice.best.asks]
    ready = make_ready(turn, question)
    if ready:
        put_question(turn, question, "question", recorded_why(turn) or why_asked(job, picture, job.choice))
    elif ready is None:
        # A move turned out impossible after the choice: plan again without it.
        job.choice = choose(situation_of(job, picture))
        if job.choice is None or job.choice.best.asks == question.id:
            end_search(turn, picture)
        else:
            search_on(turn)


def raised_instead(turn: Turn, picture: Picture) -> bool:
    """Before a search ends with nothing found: what the bench saw of other complaints is looked into, if anything.

    Where a fault is found it is mended first: what is left is seen when the machine is tried at work.
    """
    if picture.settled or picture.confirmed or not raise_what_is_seen(turn):
        return False
    turn.job.choice = None
    return True


def as_recorded(situation: Situation, foreseen: Foreseen) -> Choice | None:
    """The choice that was recorded, if its question can be put here as well."""
    why = foreseen.why
    aim = situation.knowledge.base.questions.get(why.aim or foreseen.asks)
    way = aim and way_to_ask(situation, aim)
    if aim is None or not way or foreseen.asks not in ("", way.asks) or not why.candidates:
        return None
    best, *others = why.candidates
    moves = {move.id: move for move in situation.knowledge.base.bench.moves}
    return Choice(
        Candidate(aim.id, way.asks, best.bits, way.minutes, way.route, why.settles),
        why.rule or None,
        why.ahead_for or None,
        tuple(
            Candidate(
                o.question,
                o.question,
                o.bits,
                o.minutes,
                Route(tuple(moves[m] for m in o.moves if m in moves), 0.0),
                (),
            )
            for o in others
        ),
    )


def recorded_why(turn: Turn) -> Why | None:
    """The reasons on record, where the question now put is the one that was recorded."""
    foreseen, choice = turn.foreseen, turn.job.choice
    if foreseen is None or choice is None or choice.best.asks != foreseen.asks or not foreseen.why.suspects:
        return None
    return foreseen.why if (foreseen.why.aim or foreseen.asks) == choice.best.question else None


def offer_to_stop(turn: Turn, picture: Picture, stall: Stall) -> None:
    """Show who is left, and ask whether to go on."""
    job = turn.job
    turn.tell(say.changed_nothing(stall.in_vain))
    turn.tell(*in_rows(job, picture, picture.suspects))
    turn.add(PromptPut("going on", "", say.GO_ON_OR_END))
    job.prompt = Prompt("going on", "", ("go on", "end"))


def why_search_goes_on(job: Job, picture: Picture) -> tuple[str, ...]:
    """A fault is found, but more is to be known before the repair: what, and why.

    The search may go on although the fault accounts for everything: an answer that contradicted others is then asked
    again, and until it is given the fault rests on those that are left.
    """
    found = "; ".join(job.fault_name(fault) for fault in picture.confirmed)
    if picture.causes_wanted:
        reason = say.CAUSE_FIRST
    elif picture.complaints_open:
        names = "; ".join(job.base.complaints[complaint].name for complaint in picture.complaints_open)
        reason = say.does_not_explain(names)
    elif picture.observations_open:
        asked = job.base.questions[picture.observations_open[0]].ask
        reason = say.does_not_account_for(asked, outcome_in_words(job, picture.observations_open[0]))
    else:
        reason = say.CONTRADICTION_FIRST
    return say.found_so_far(found), say.search_goes_on(reason)


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
