"""What can be chosen, as a numbered list; and a number as the choice of one."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from expert.job.state.bench import state_in_words
from expert.job.state.job import Job
from expert.practice import sentences as say
from expert.practice.finding import is_live_work, needs_of, stands_for, tests_here
from expert.practice.practice import Offer, Practice, Stepped


def listed(practice: Practice, heading: str, offers: Sequence[Offer]) -> Stepped:
    """The offers with their numbers; from now on a number chooses one of them."""
    lines = (heading, *(f"  {number:2}  {in_words(practice.job, offer)}" for number, offer in enumerate(offers, 1)))
    return replace(practice, offers=tuple(offers), waiting=None), lines


def in_words(job: Job, offer: Offer) -> str:
    """One offer on one line: what it is, its minutes, and what the bench lacks for it."""
    if offer.kind == "fault":
        return job.fault_name(offer.id)
    if offer.kind == "move":
        move = next(move for move in job.base.bench.moves if move.id == offer.id)
        return say.bench_move(move.say, move.minutes)
    question = job.base.questions[offer.id]
    line = f"{question.ask} ({question.minutes:g} min)"
    if is_live_work(job, question) and not job.qualified:
        return say.only_for_the_qualified(line)
    needs = needs_of(job, question)
    return line if stands_for(job, needs) else say.first_wanted(line, wanting(job, needs))


def wanting(job: Job, needs: Mapping[str, str]) -> str:
    """What of a wanted bench state does not hold, such as "mains isolated, covers off"."""
    stands = dict(job.bench)
    return ", ".join(f"{name} {state}" for name, state in needs.items() if stands[name] != state)


def bench_now(practice: Practice) -> Stepped:
    """How the machine stands, and the moves that are open."""
    job = practice.job
    stands = dict(job.bench)
    moves = [
        Offer("move", move.id)
        for move in job.base.bench.moves
        if all(stands[name] in states for name, states in move.needs.items())
    ]
    heading = say.moves_from_here(state_in_words(job), practice.minutes)
    return listed(practice, heading, moves)


def allowed_now(practice: Practice) -> Stepped:
    """Every test that the bench stands for and that was not made yet."""
    job = practice.job
    done = {seen.question for seen in practice.seen}
    tests = [
        Offer("test", question.id)
        for question in tests_here(practice)
        if question.id not in done
        and stands_for(job, needs_of(job, question))
        and (job.qualified or not is_live_work(job, question))
        and job.state.truth(question.only_if)
    ]
    return listed(practice, say.tests_that_can_be_made(state_in_words(job)), tests)
