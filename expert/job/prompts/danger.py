"""Danger stops: they come before anything else is asked."""

from __future__ import annotations

from collections.abc import Mapping

from expert.engine.bench import in_time
from expert.job.answers.reading import NotAnAnswer
from expert.job.bench.moves import bring_bench, put_move
from expert.job.prompts.owner import Owner, Unattended
from expert.job.search.ending import because_of
from expert.job.search.second_reading import one_safe_look
from expert.job.sentences import safety as say
from expert.job.state.bench import bench_map
from expert.job.state.hazards import forbidding, open_hazards, refuse
from expert.job.state.job import CouldNot, Given, Job, Phase, Prompt, Turn
from expert.job.state.situation import picture_of, reopen
from expert.language.model import Move
from expert.trace.records import Cleared, Found, PromptPut, Stopped
from expert.trade.quantities.units import echo

NOBODY = {"me", "myself", "i", "self", "name", "nobody", "noone", "somebody", "someone", "anyone"}


def open_dangers(job: Job) -> dict[str, str]:
    """Dangers met and not dealt with: rule and what the danger is."""
    return {rule: text for rule, text in job.dangers_met.items() if rule not in job.dangers_cleared}


def handle_danger(turn: Turn) -> None:
    """Say the danger once, bring the bench to its safe state, then wait until it is dealt with."""
    job = turn.job
    for rule, text in open_dangers(job).items():
        if rule not in job.dangers_told:
            job.dangers_told.add(rule)
            turn.add(Stopped(rule, text))
    job.outcome = "stopped"
    name_confirmed(turn, read_twice=True)
    make_safe(turn, stopped_text(job))


def name_confirmed(turn: Turn, read_twice: bool) -> None:
    """Name what is confirmed; `read_twice`: not what rests on one look that can be taken again after the stop."""
    job = turn.job
    for fault in picture_of(job).confirmed:
        if fault not in job.found and not (read_twice and one_safe_look(job, fault)):
            job.found[fault] = "found"
            turn.add(Found(fault, "found", because_of(job, fault)))


def mistaken(job: Job) -> None:
    """A danger that no rule tells of any more is gone, and with it the stop."""
    for rule in [rule for rule in job.dangers_met if rule not in job.state.fired]:
        del job.dangers_met[rule]
        job.dangers_told.discard(rule)
    if job.outcome == "stopped" and not open_dangers(job):
        job.outcome = ""


def make_safe(turn: Turn, then: str, wanted: Mapping[str, str] | None = None) -> bool:
    """Bring the bench to its safe state; then, or when there is no way there, wait for a responsible person.

    `wanted`: another state that counts as safe here.
    `then`: what to say when it is safe; with '' the job simply goes on. Gives whether the bench is safe.
    """
    job = turn.job
    ready = bring_bench(turn, job.base.bench.safe if wanted is None else wanted)
    if ready is None and (towards := _towards_safe(job)):
        put_move(turn, towards)
        return False
    if ready is None or (ready and then):
        put_stop(turn, then if ready else say.COULD_NOT_BE_MADE_SAFE)
    return bool(ready)


def _towards_safe(job: Job) -> Move | None:
    """The move that can be made here and makes what is not safe safe, though there is no way to all that is wanted.

    A machine that cannot be vented or cooled is unplugged all the same.
    """
    stands = dict(in_time(job.base.bench, job.bench))
    lacking = {name: state for name, state in job.base.bench.safe.items() if stands[name] != state}
    return next(
        (
            move
            for move in job.base.bench.moves
            if lacking
            and move.id not in job.impossible
            and lacking.items() <= move.makes.items()
            and all(stands[name] in states for name, states in move.needs.items())
        ),
        None,
    )


def may_stand(job: Job) -> bool:
    """Whether the machine may stand as it does: no danger forbids it, for whoever works at the bench now."""
    return not (any(forbidding(job, job.bench)) or not bench_map(job, strict=True).allowed(job.bench))


def leave(turn: Turn) -> None:
    """Put the move out of a state that a danger forbids; where there is none, wait for a responsible person."""
    job = turn.job
    for hazard, act in forbidding(job, job.bench):
        refuse(turn, hazard, act.id, "standing so")
    route = bench_map(job, strict=True).route(job.bench, {})
    if (route is None or not route.moves) and (towards := _towards_safe(job)):
        put_move(turn, towards)
    elif route is None or not route.moves:
        put_stop(turn, say.COULD_NOT_BE_MADE_SAFE)
    else:
        put_move(turn, route.moves[0])


def put_stop(turn: Turn, text: str) -> None:
    """Wait for a responsible person."""
    turn.add(PromptPut("danger", "stop", text))
    turn.job.prompt = Prompt("danger", "stop", ("dealt with by ", "hand over"))


def stopped_text(job: Job) -> str:
    """What lifts the stop, and what ends the dangers that stand."""
    ends = [say.danger_ends_when(hazard.until) for hazard in open_hazards(job) if not hazard.in_every_job]
    return "\n".join([say.STOPPED, *([f"{say.DEALT_WITH_IS_RECORDED}"] if ends else []), *ends])


def _letters(name: str) -> str:
    """The letters and digits of a name, so that a full stop or a blank makes nobody somebody else."""
    return "".join(filter(str.isalnum, name.casefold()))


def answer_danger(turn: Turn, line: str) -> None:
    """Go on only when somebody takes responsibility by name. Raises NotAnAnswer."""
    job = turn.job
    word, _, name = line.strip().partition(" by ")
    if word.casefold() != "dealt with" or not name.strip():
        raise NotAnAnswer(say.does_not_lift_the_stop(echo(line)))
    name = name.strip()[:60]
    if not any(map(str.isalpha, name)) or _letters(name) in NOBODY:
        raise NotAnAnswer(say.nobodys_name(echo(name)))
    if _letters(name) in map(_letters, (job.technician, *job.workers)):
        raise NotAnAnswer(say.NOT_BY_WHOEVER_WORKS)
    job.can_again("move")
    job.dangers_cleared |= set(open_dangers(job))
    job.outcome = ""
    job.found = {fault: standing for fault, standing in job.found.items() if fault in job.repaired}
    turn.add(Cleared(name))
    reopen(job)
    # A name does not pull a plug: the moves to the safe state are confirmed one by one.
    job.phase = Phase.SAFE


class DangerStop(Owner):
    drops_typed_ahead = True
    is_stop = True

    def take(self, turn: Turn, line: str) -> None:
        answer_danger(turn, line)

    def unattended(self, job: Job, at_hand: Unattended) -> list[str]:
        return ["hand over"]

    def why(self, job: Job) -> tuple[str, ...]:
        return (say.WHY_STOPPED,)

    def taken_back(self, job: Job, taken: Given | CouldNot) -> None:
        mistaken(job)

    def how(self, job: Job) -> tuple[str, ...]:
        return (*(f"STOP! {text}" for text in open_dangers(job).values()), say.STOPPED)
