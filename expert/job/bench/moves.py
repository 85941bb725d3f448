"""Bringing the bench into the state that the next step needs, one confirmed move at a time."""

from __future__ import annotations

from collections.abc import Mapping

from expert.engine.bench import Route, after, in_time, satisfies
from expert.job.answers.putting import put_question, show_cautions
from expert.job.answers.reading import NO, YES, NotAnAnswer
from expert.job.answers.taking import cannot_tell
from expert.job.state.bench import bench_map
from expert.job.state.job import Job, Prompt, Turn
from expert.language.model import Move, Preparation, Question
from expert.trace.records import CannotMove, Moved, MoveOffered, Put
from expert.trace.why import Why
from expert.trade.quantities.units import echo

PREPARE = "prepare "
NOT_YET = "Nothing else comes before this. Type yes when it is done, or can't if it cannot be done."


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


def bring_bench(turn: Turn, wanted: Mapping[str, str]) -> bool | None:
    """True when the bench stands as wanted; False when a move was put; None when there is no way there."""
    job = turn.job
    ways = bench_map(job)
    if ways.stands(job.bench, wanted) and ways.may_stay(job.bench):
        if not satisfies(job.bench, wanted):
            job.bench = in_time(job.base.bench, job.bench)
        return True
    route = ways.route(job.bench, wanted)
    if route is None:
        return None
    put_move(turn, route.moves[0])
    return False


def make_ready(turn: Turn, question: Question) -> bool | None:
    """The same for a question, which may have to be set up in another bench state first."""
    job = turn.job
    if question.prepare is not None and question.id not in job.prepared:
        ready = bring_bench(turn, question.prepare.bench)
        if ready:
            put_preparation(turn, question.id, question.prepare)
        return ready and False
    return bring_bench(turn, question.bench)


def put_preparation(turn: Turn, question: str, preparation: Preparation) -> None:
    """The steps of setting up, then the question that confirms them."""
    show_cautions(turn, turn.job.base.questions[question].cautions)
    turn.tell("Set up the next test.", *(f"{number}. {step}" for number, step in enumerate(preparation.steps, 1)))
    turn.add(Put("move", f"{PREPARE}{question}", "Is that done? (yes / no)"))
    turn.job.prompt = Prompt("move", f"{PREPARE}{question}", ("yes", "no"))


def answer_preparation(turn: Turn, line: str) -> None:
    """With a yes the test is set up; with a no the question is left. Raises NotAnAnswer."""
    job = turn.job
    question = job.prompt.subject.removeprefix(PREPARE)
    if confirmed(line):
        job.prepared.add(question)
        turn.add(Moved(job.prompt.subject, dict(job.bench), 0.0))
    else:
        cannot_tell(turn, question, "it could not be set up")
        job.choice = None


def note_opened(job: Job) -> None:
    """Remember that the machine is open: it goes back with its safety tested, or with the word that it was not."""
    if job.base.bench.opened and satisfies(job.bench, job.base.bench.opened):
        job.opened, job.tested_since_opened = True, False


def confirmed(line: str) -> bool:
    """Whether a move was made, by the technician's word. Raises NotAnAnswer for anything but yes and no."""
    word = line.strip().casefold()
    if word in YES | {"done", "ok"}:
        return True
    if word in NO or word.startswith(("can't", "cant", "cannot")):
        return False
    raise NotAnAnswer(f"{echo(line)} is no answer here. Type yes when it is done, or no if it cannot be done.")


def may_be_asked_here(job: Job, question: Question) -> bool:
    """Whether a question is one for this machine and this shop, and the bench stands for it as it is."""
    return (
        satisfies(job.bench, question.bench)
        and job.state.truth(question.only_if) is not False
        and (question.measure is None or question.measure.instrument in job.shop.instruments)
        and job.concerns_machine(question)
    )


def moves_waiting_for(job: Job) -> list[Move]:
    """The bench moves before which the question that is now put must be known, where that is why it is put."""
    subject = job.prompt.subject if job.prompt.kind == "question" else ""
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
            turn.tell(f"! Still to be looked at: {question.ask} Do not go on before somebody has. If nobody can: can't")
        elif job.answer_to(name) is None and may_be_asked_here(job, question):
            turn.tell(f"Next comes: {move.say} This has to be known first.")
            put_question(turn, question, "proof" if name in job.to_prove else "question", Why(before_move=move.id))
            return
    show_cautions(turn, move.cautions)
    turn.tell(f"{move.say} ({move.minutes:g} min)", *(f"{number}. {step}" for number, step in enumerate(move.steps, 1)))
    turn.add(Put("move", move.id, f"{move.confirm} (yes / no)"))
    turn.job.prompt = Prompt("move", move.id, ("yes", "no"))


def answer_move(turn: Turn, line: str) -> None:
    """The technician's confirmation: the state changes with a yes only. Raises NotAnAnswer."""
    job = turn.job
    if job.prompt.subject.startswith(PREPARE):
        answer_preparation(turn, line)
        return
    move = next(move for move in job.base.bench.moves if move.id == job.prompt.subject)
    done = confirmed(line)
    safe = job.base.bench.safe
    leads_to_safe = not satisfies(job.bench, safe) and any(
        move.makes.get(name) == state for name, state in safe.items()
    )
    # "No" is "not yet" while the machine is not safe; a way round this move is looked for only after "can't".
    if not done and leads_to_safe and line.strip().casefold() in NO:
        raise NotAnAnswer(NOT_YET)
    if done:
        job.bench = after(in_time(job.base.bench, job.bench), move.makes)
        job.minutes += move.minutes
        note_opened(job)
        # What was read in one state may be forgotten in the next.
        job.cautions_read.clear()
        turn.add(Moved(move.id, dict(job.bench), move.minutes))
    else:
        unable = job.could_not("move", move.id)
        job.choice = None
        turn.add(CannotMove(unable.number, move.id, move.say))
