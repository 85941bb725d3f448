"""Bench moves on the simulated machine, each with its cautions before; what could hurt somebody is refused."""

from __future__ import annotations

from dataclasses import replace

from expert.engine.bench import BenchState, after, in_time, satisfies
from expert.job.answers.putting import show_cautions
from expert.job.bench.moves import has_moved
from expert.job.prompts.move import confirmed
from expert.job.state.bench import state_in_words
from expert.job.state.hazards import forbidding, watch
from expert.job.state.job import Job, Turn
from expert.language.model import Move
from expert.machine import HeatUp, do
from expert.practice import sentences as say
from expert.practice.practice import Offer, Practice, Stepped, now_forbidden
from expert.practice.testing import refused
from expert.trace.records import CautionShown
from expert.witness.playing import brought_to

COLD, UP_TO_HEAT = 40.0, 85.0  # [degC] at the boiler's wall


def move_named(job: Job, name: str) -> Move:
    """A bench move by its id."""
    return next(move for move in job.base.bench.moves if move.id == name)


def choose_move(practice: Practice, name: str) -> Stepped:
    """Cautions and steps of a move, and the word that confirms it; or why it cannot, or must not, be made."""
    job = practice.job
    move = move_named(job, name)
    stands = in_time(job.base.bench, job.bench)
    lacking = [name for name, states in move.needs.items() if dict(stands)[name] not in states]
    danger = _danger_of(job, move, after(stands, move.makes), bool(lacking))
    if danger:
        return refused(practice, f"{move.say}", danger)
    if lacking:
        wanted = ", ".join(f"{dimension} {' or '.join(move.needs[dimension])}" for dimension in lacking)
        return practice, (say.not_as_it_stands(wanted),)
    if job.state.truth(move.unless) is True:
        return practice, (say.WILL_NOT_WORK,)
    turn = Turn(job.copy())
    show_cautions(turn, move.cautions)
    cautions = (f"! {record.text}" for record in turn.records if isinstance(record, CautionShown))
    steps = (f"{number}. {step}" for number, step in enumerate(move.steps, 1))
    lines = (
        *cautions,
        f"{move.say} ({move.minutes:g} min)",
        *steps,
        say.confirm_by(move.confirm, move.word or "yes"),
    )
    return replace(practice, job=turn.job, waiting=Offer("move", name), offers=()), lines


def _danger_of(job: Job, move: Move, then: BenchState, unready: bool) -> str:
    """Why the state after a move could hurt somebody, or ''."""
    bench = job.base.bench
    if any(satisfies(then, states) for states in bench.qualified_only) and (unready or not job.qualified):
        return say.LIVE_WORK
    if any(satisfies(then, states) for states in bench.passing_only):
        return say.UNDER_PRESSURE
    if unready and move.makes.get("mains") == "on":
        return say.NOT_PUT_TOGETHER
    for hazard, act in forbidding(job, then):
        return say.forbidden(act.say, hazard.name, hazard.until)
    return ""


def make_move(practice: Practice, name: str) -> Stepped:
    """The move is made. A thermometer decides where the state after it is a matter of heat."""
    turn = Turn(practice.job.copy())
    move = move_named(turn.job, name)
    before = dict(turn.job.bench)
    if move.otherwise and (wall := practice.machine.state.boiler) > COLD:
        has_moved(turn, f"{move.id}: no", move.otherwise, move.minutes)
        watch(turn)
        said = say.not_cold(wall)
        return replace(practice, job=turn.job, waiting=None), (said, *now_forbidden(turn))
    if move.makes.get("boiler") == "hot":
        return _heated(practice, turn, move)
    has_moved(turn, move.id, move.makes, move.minutes)
    watch(turn)
    machine = brought_to(practice.machine, dict(turn.job.bench), before)
    lines = (say.done(state_in_words(turn.job)), *now_forbidden(turn))
    return replace(practice, job=turn.job, machine=machine, waiting=None), lines


def _heated(practice: Practice, turn: Turn, move: Move) -> Stepped:
    """Waiting for heat: whether it comes is up to the machine."""
    machine = do(practice.machine, HeatUp(minutes=25.0, settle=3.0))
    heated = replace(practice, machine=machine, waiting=None)
    if machine.state.boiler >= UP_TO_HEAT:
        has_moved(turn, move.id, move.makes, move.minutes)
        watch(turn)
        return replace(heated, job=turn.job), (
            say.hot(state_in_words(turn.job)),
            *now_forbidden(turn),
        )
    turn.job.minutes += move.minutes
    turn.job.could_not("move", move.id)
    return replace(heated, job=turn.job), (say.NEVER_HOT,)


def confirms(practice: Practice, name: str, line: str) -> bool:
    """Whether a line confirms a move. Raises NotAnAnswer for anything but its word and no."""
    return confirmed(line, move_named(practice.job, name).word)
