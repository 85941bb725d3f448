"""The dangers of a job: what stands now, what it forbids, and which test may still release it. Pure."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from expert.engine.bench import BenchState, in_time, satisfies
from expert.engine.hazards import Known, Released, correct, keep_account, next_test, tests_left, to_answer_anew
from expert.job.state.job import Job, Turn
from expert.job.state.values import missing_first
from expert.language.model import Act, Hazard, Question
from expert.trace.records import HazardOpened, HazardReleased, Refused

HAND_BACK = "hand_back"


def known_of(job: Job) -> Known:
    """What the job knows, as hazards are judged by it."""
    answers = {given.question: (given.number, given.outcomes) for given in job.given.values() if given.holds}
    unable = {one.subject: one.number for one in job.unable.values() if one.holds and one.kind == "question"}
    return Known(
        base=job.base,
        answers=answers,
        unable=unable,
        possible=job.state.possible,
        behind=lambda fault: (
            source for source in job.state.sources_behind(fault, "absent") if source.startswith("answer ")
        ),
        fired=job.state.fired,
        repaired={fault: at for fault, at in job.repaired_at.items() if job.repaired.get(fault) is not False},
        concerns=lambda question: job.concerns_machine(job.base.questions[question]),
        seen_again=job.seen_again,
    )


def watch(turn: Turn) -> None:
    """Open and release hazards by what is known now, and write it down."""
    job = turn.job
    if not job.bench:  # the intake is not over
        return
    for name, change in keep_account(job.hazards, known_of(job), job.next_number):
        hazard = job.base.hazards[name]
        if isinstance(change, Released):
            turn.add(HazardReleased(name, change.how, change.by))
            job.refused = {(hazard_id, what) for hazard_id, what in job.refused if hazard_id != name}
        else:
            because = tuple(sorted(change.causes))
            turn.add(HazardOpened(name, hazard.name, hazard.until, hazard.forbids, because, job.next_number - 1))
        job.choice = None


def answer_anew(job: Job, question: str, taken: str) -> None:
    """An answer was taken back: what stood on it alone ends when the question is answered again."""
    correct(job.hazards, known_of(job), question, taken, job.next_number)


# ---------------------------------------------------------------- what they forbid


def open_hazards(job: Job) -> tuple[Hazard, ...]:
    """The hazards that stand now, in the order of the rules."""
    return tuple(hazard for name, hazard in job.base.hazards.items() if name in job.hazards.open)


def forbidding(job: Job, state: BenchState, left: bool = False) -> Iterator[tuple[Hazard, Act]]:
    """Every open hazard that forbids the state or what becomes of it by itself, with the act that it is.

    `left`: when it is left alone so.
    """
    states = (state, in_time(job.base.bench, state))
    for hazard in open_hazards(job):
        for act in acts_of(job, hazard, left):
            if any(satisfies(stands, one) for one in act.states for stands in states):
                yield hazard, act
                break


def acts_of(job: Job, hazard: Hazard, left: bool = False) -> Iterator[Act]:
    """The acts that a hazard forbids: those at work, or those on leaving."""
    return (act for name in hazard.forbids if (act := job.base.acts[name]).left == left)


def refuse(turn: Turn, hazard: Hazard, act: str, what: str) -> None:
    """Write down that something was not offered because of a hazard; once while it stands."""
    if (hazard.id, what) not in turn.job.refused:
        turn.job.refused.add((hazard.id, what))
        turn.add(Refused(hazard.id, act, what))


# ---------------------------------------------------------------- what may still release them


def due_tests(job: Job, hazard: Hazard) -> tuple[str, ...]:
    """For each way of release that is still open, the test that comes next; none when the hazard stands for good."""
    known = known_of(job)
    standing = job.hazards.open[hazard.id]
    due: dict[str, None] = {}
    if (anew := to_answer_anew(standing, known)) and to_put(job, job.base.questions[anew]) is not None:
        due[anew] = None
    due |= dict.fromkeys(_ways_out(job, hazard, known).values())
    return tuple(due)


def _ways_out(job: Job, hazard: Hazard, known: Known) -> dict[tuple[str, ...], str]:
    """The tests left of each way of release that is still open, with the one that comes next.

    Without a way that asks for more than another does.
    """
    standing = job.hazards.open[hazard.id]
    ways: dict[tuple[str, ...], str] = {}
    for release in hazard.released_by:
        test, left = next_test(release, standing, known), tests_left(release, standing, known)
        if test is not None and _can_be_made(job, left):
            ways.setdefault(left, test)
    return {left: test for left, test in ways.items() if not any(set(other) < set(left) for other in ways)}


def tests_that_end(job: Job, wanted: Iterable[str]) -> tuple[str, ...]:
    """The tests `wanted`, and with them those that end the hazards that stand, as far as they may pass now.

    Of several ways out of one the one that is among them anyway, else the author's first.
    """
    known = known_of(job)
    due = dict.fromkeys(wanted)
    for hazard in open_hazards(job):
        ways = _ways_out(job, hazard, known)
        way = min(ways, key=lambda way: not set(way) <= due.keys(), default=())
        due |= dict.fromkeys(test for test in way if _may_pass_now(job, hazard, test))
    return tuple(due)


def _may_pass_now(job: Job, hazard: Hazard, test: str) -> bool:
    """Whether a machine in order passes it now. What shows the danger itself, or came out otherwise before, waits: a
    boiler that was low is full only once the machine was on."""
    sound = set(job.base.questions[test].sound)
    ends = bool(sound) and any(sound <= set(release.tests.get(test, ())) for release in hazard.released_by)
    seen = [given for given in job.given.values() if given.question == test]
    was_sound = not seen or bool(sound & set(seen[-1].outcomes))
    return ends and was_sound and test not in job.knowledge.questions_of(hazard.holds)


def _can_be_made(job: Job, tests: Iterable[str]) -> bool:
    """Whether every one of these tests can be put to this technician in this shop."""
    return all(to_put(job, job.base.questions[test]) is not None for test in tests)


def to_put(job: Job, question: Question, depth: int = 4) -> Question | None:
    """The question itself, or the one that has to be answered before it; None when it cannot be put."""
    if not question.possible_with(job.instruments):
        return None
    if depth == 0 or job.state.truth(question.only_if) is False or not job.concerns_machine(question):
        return None
    missing = missing_first(job, question.id)
    if missing:
        return _first_of(job, missing[:1], depth)
    if job.state.truth(question.only_if):
        return question
    wanted = [name for name in job.knowledge.questions_of(question.only_if) if name != question.id]
    return _first_of(job, wanted, depth)


def _first_of(job: Job, names: Iterable[str], depth: int) -> Question | None:
    """The first of these that is neither answered nor beyond telling, or what comes before it."""
    for name in names:
        if name in job.base.questions and job.answer_to(name) is None and name not in job.cannot:
            return to_put(job, job.base.questions[name], depth - 1)
    return None
