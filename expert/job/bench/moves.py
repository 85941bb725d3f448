"""Bringing the bench into the state that the next step needs, one confirmed move at a time."""

from __future__ import annotations

from collections.abc import Mapping

from expert.engine.bench import Route, after, in_time, satisfies
from expert.job.answers.putting import put_question, show_cautions
from expert.job.bench.first import Before, first_test, leads_into_danger
from expert.job.sentences import safety as say
from expert.job.state.bench import bench_map
from expert.job.state.hazards import refuse
from expert.job.state.job import Job, Prompt, Turn
from expert.language.model import Move, Preparation, Question
from expert.trace.records import Moved, MoveOffered, PromptPut
from expert.trace.why import Why

PREPARE = "prepare "
SET_UP = "set"  # what confirms that a test is set up

NOTHING_WAITS: frozenset[str] = frozenset()


def offer_again(turn: Turn, route: Route | None) -> bool:
    """Offer the moves on this route once more that could not be made; each only once. Whether there was one."""
    job = turn.job
    barred = [move for move in route.moves if move.id in job.impossible] if route else []
    if not barred or any(move.id in job.offered_again for move in barred):
        return False
    for move in barred:
        job.offered_again.add(move.id)
        job.can_again("move", move.id)
        turn.add(MoveOffered(move.id, move.say))
    job.choice = None
    return True


def bring_bench(turn: Turn, wanted: Mapping[str, str], waiting: frozenset[str] = NOTHING_WAITS) -> bool | None:
    """True when the bench stands as wanted; False when a move was put; None when there is no way there.

    `waiting`: the tests that wait for this. One that would itself have to come first is no way.
    """
    job = turn.job
    ways = bench_map(job)
    if ways.stands(job.bench, wanted) and ways.may_stay(job.bench):
        if not satisfies(job.bench, wanted):
            job.bench = in_time(job.base.bench, job.bench)
        return True
    route = ways.route(job.bench, wanted)
    if route is None:
        return None
    before = first_test(job, route)
    if before is None:
        if leads_into_danger(job, route.moves[0]):
            return None  # a test would have to come first, and there is no safe way to it
        put_move(turn, route.moves[0])
        return False
    return put_release_test(turn, before, waiting)


def put_release_test(turn: Turn, before: Before, waiting: frozenset[str] = NOTHING_WAITS) -> bool | None:
    """Put the dead test without which the way on stays forbidden; or the move that leads to it."""
    job = turn.job
    if before.test.id in waiting:
        return None
    if before.move is not None:
        for hazard, act in before.hazards:
            refuse(turn, hazard, act, f"move {before.move.id}")
    ready = make_ready(turn, before.test, waiting | {before.test.id})
    if ready:
        hazard = before.hazards[0][0]
        if not hazard.in_every_job:  # what comes first in every job needs no reason but that of the word why
            turn.tell(say.comes_first_because(hazard.name))
        why = Why(aim=before.test.id, hazard=hazard.id, before_move=before.move.id if before.move else "")
        put_question(turn, before.test, "proof" if before.test.id in job.to_prove else "question", why)
        return False
    return ready


def make_ready(turn: Turn, question: Question, waiting: frozenset[str] = NOTHING_WAITS) -> bool | None:
    """The same for a question, which may have to be set up in another bench state first."""
    job = turn.job
    if question.prepare is not None and question.id not in job.prepared:
        return _set_up(turn, question, question.prepare, waiting)
    if _altered_for_another(job, question) and not satisfies(job.bench, job.base.bench.safe):
        # What was set up for another test is live: nothing else is looked at before the plug is out.
        return bring_bench(turn, {**job.base.bench.safe, **question.bench}, waiting)
    return bring_bench(turn, question.bench, waiting)


def _altered_for_another(job: Job, question: Question) -> bool:
    """Whether the set-up of another test has left something changed in the machine."""
    others = (job.base.questions[name].prepare for name in job.prepared if name != question.id)
    return any(prepare is not None and prepare.leaves for prepare in others)


def _set_up(turn: Turn, question: Question, preparation: Preparation, waiting: frozenset[str]) -> bool | None:
    """Lead to the set-up and put it; before all that, what forbids the way on from there: it would undo it again."""
    job = turn.job
    ways = bench_map(job)
    there = ways.route(job.bench, preparation.bench)
    if there is None:
        return None
    start = after(ways.reached_by(job.bench, there), preparation.leaves)
    onward = ways.route(start, question.bench)
    if onward is None:
        return None
    before = first_test(job, onward, start)
    if before is not None and before.test.id != question.id:
        return put_release_test(turn, before, waiting)
    ready = bring_bench(turn, preparation.bench, waiting)
    if ready:
        put_preparation(turn, question.id, preparation)
    return ready and False


def put_preparation(turn: Turn, question: str, preparation: Preparation) -> None:
    """The steps of setting up, then the question that confirms them."""
    show_cautions(turn, turn.job.base.questions[question].cautions)
    turn.tell(say.SET_UP_THE_NEXT_TEST, *(f"{number}. {step}" for number, step in enumerate(preparation.steps, 1)))
    turn.add(PromptPut("move", f"{PREPARE}{question}", say.is_it_set_up(SET_UP), turn.on_the_way))
    turn.job.prompt = Prompt("move", f"{PREPARE}{question}", (SET_UP, "no"))


def note_opened(job: Job) -> None:
    """Remember that the machine is open: it goes back with its safety tested, or with the word that it was not."""
    if job.base.bench.opened and satisfies(job.bench, job.base.bench.opened):
        job.opened, job.opened_at = True, job.next_number


def may_be_asked_here(job: Job, question: Question) -> bool:
    """Whether a question is one for this machine and this shop, and the bench stands for it as it is."""
    return (
        satisfies(job.bench, question.bench)
        and job.state.truth(question.only_if) is not False
        and question.possible_with(job.instruments)
        and job.concerns_machine(question)
    )


def moves_waiting_for(job: Job) -> list[Move]:
    """The bench moves before which the question that is now put must be known, where that is why it is put."""
    subject = job.prompt.subject
    if job.choice is not None and job.choice.best.asks == subject:
        return []
    stands = dict(job.bench)
    return [
        move
        for move in job.base.bench.moves
        if subject in move.first and all(stands[name] in states for name, states in move.needs.items())
    ]


def put_move(turn: Turn, move: Move) -> None:
    """What must be known before the move; then cautions, what to do, the steps, and the question that confirms it."""
    job = turn.job
    for name in move.first:
        question = job.base.questions[name]
        if name in job.cannot:
            turn.tell(say.still_to_be_looked_at(question.ask))
        elif job.answer_to(name) is None and may_be_asked_here(job, question):
            turn.tell(say.next_comes(move.say))
            put_question(turn, question, "proof" if name in job.to_prove else "question", Why(before_move=move.id))
            return
    show_cautions(turn, move.cautions)
    if move.id in job.moves_told:
        turn.tell(say.move_as_before(move.say, move.minutes))
    else:
        turn.tell(
            say.move_with_minutes(move.say, move.minutes),
            *(f"{number}. {step}" for number, step in enumerate(move.steps, 1)),
        )
    how = say.type_the_word(move.word) if move.word else "yes / no"
    turn.add(PromptPut("move", move.id, f"{move.confirm} ({how})", turn.on_the_way))
    turn.job.prompt = Prompt("move", move.id, (move.word or "yes", "no"))


def has_moved(turn: Turn, name: str, makes: Mapping[str, str], minutes: float) -> None:
    """The bench stands otherwise now. What no longer holds is forgotten: cautions, and what was set up for a test."""
    job = turn.job
    job.bench = after(in_time(job.base.bench, job.bench), makes)
    job.minutes += minutes
    job.moves_told.add(name)
    note_opened(job)
    stands = dict(job.bench)
    job.cautions_read = {caution for caution in job.cautions_read if _lasts(job, caution, stands)}
    for question in tuple(job.prepared):
        preparation = job.base.questions[question].prepare
        if preparation is not None and not satisfies(job.bench, preparation.leaves):
            job.prepared.discard(question)
    turn.add(Moved(name, dict(job.bench), minutes))


def _lasts(job: Job, caution: str, stands: Mapping[str, str]) -> bool:
    """Whether a caution that was shown still stands: its danger is the same as before the move."""
    lasts = job.base.cautions[caution].lasts if caution in job.base.cautions else {}
    return bool(lasts) and all(stands[name] in states for name, states in lasts.items())
