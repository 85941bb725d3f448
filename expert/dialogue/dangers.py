"""Danger stops and contradictions: both come before anything else is asked."""

from __future__ import annotations

from collections.abc import Mapping

from expert.dialogue.asking import NotAnAnswer, cannot_tell, set_aside
from expert.dialogue.bench_moves import bring_bench
from expert.dialogue.ending import because_of
from expert.dialogue.explaining import answer_in_words
from expert.dialogue.inference import conclude
from expert.dialogue.job import Given, Job, Phase, Prompt, Talk
from expert.dialogue.situation import picture_of, reopen
from expert.engine.bench import Route
from expert.engine.planner import Candidate, Choice
from expert.trace.records import Cleared, Conflict, Found, Put, Stopped
from expert.trade.quantities.units import echo

STOPPED = (
    "Work has stopped. When a responsible person has dealt with the danger, type: dealt with by NAME. Or: hand over"
)
NOBODY = {"me", "myself", "i", "self", "name", "nobody", "noone", "somebody", "someone", "anyone"}
NOT_SAFE = (
    "The machine could not be made safe. Leave it, keep everybody away, switch off at the breaker. "
    "When a responsible person has made it safe, type: dealt with by NAME. Or: hand over"
)

# ---------------------------------------------------------------- danger


def open_dangers(job: Job) -> dict[str, str]:
    """Dangers met and not dealt with: rule and what the danger is."""
    return {rule: text for rule, text in job.dangers_met.items() if rule not in job.dangers_cleared}


def handle_danger(talk: Talk) -> None:
    """Say the danger once, bring the bench to its safe state, then wait until it is dealt with."""
    job = talk.job
    for rule, text in open_dangers(job).items():
        if rule not in job.dangers_told:
            job.dangers_told.add(rule)
            talk.add(Stopped(rule, text))
    if job.outcome != "stopped":
        job.outcome = "stopped"
        for fault in picture_of(job).confirmed:
            if fault not in job.found:
                job.found[fault] = "found"
                talk.add(Found(fault, "found", because_of(job, fault)))
    make_safe(talk, STOPPED)


def make_safe(talk: Talk, then: str, wanted: Mapping[str, str] | None = None) -> bool:
    """Bring the bench to its safe state; then, or when there is no way there, wait for a responsible person.

    `wanted`: another state that counts as safe here.
    `then`: what to say when it is safe; with '' the job simply goes on. Gives whether the bench is safe.
    """
    job = talk.job
    ready = bring_bench(talk, job.base.bench.safe if wanted is None else wanted)
    if ready is None or (ready and then):
        talk.add(Put("danger", "stop", then if ready else NOT_SAFE))
        job.prompt = Prompt("danger", "stop", ("dealt with by ", "hand over"))
    return bool(ready)


def _letters(name: str) -> str:
    """The letters and digits of a name, so that a full stop or a blank makes nobody somebody else."""
    return "".join(filter(str.isalnum, name.casefold()))


def answer_danger(talk: Talk, line: str) -> None:
    """Go on only when somebody takes responsibility by name. Raises NotAnAnswer."""
    job = talk.job
    word, _, name = line.strip().partition(" by ")
    if word.casefold() != "dealt with" or not name.strip():
        raise NotAnAnswer(f"{echo(line)} does not lift the stop. Type: dealt with by NAME. Or: hand over")
    name = name.strip()[:60]
    if not any(map(str.isalpha, name)) or _letters(name) in NOBODY:
        raise NotAnAnswer(f"{echo(name)} is nobody's name. Type: dealt with by, and the name of who answers for it.")
    if _letters(name) == _letters(job.technician):
        raise NotAnAnswer("Whoever works at the bench cannot lift the stop. Somebody else must answer for it by name.")
    job.can_again("move")
    job.dangers_cleared |= set(open_dangers(job))
    job.outcome = ""
    job.found = {fault: standing for fault, standing in job.found.items() if fault in job.repaired}
    talk.add(Cleared(name))
    reopen(job)
    # A name does not pull a plug: the moves to the safe state are confirmed one by one.
    job.phase = Phase.SAFE


# ---------------------------------------------------------------- contradiction


def conflict_of(job: Job) -> tuple[str, tuple[str, ...]] | None:
    """The first fact without any possible outcome, and the sources that cannot all hold."""
    conflicts = job.state.conflicts()
    return (conflicts[0], job.state.conflict_answers(conflicts[0])) if conflicts else None


def handle_conflict(talk: Talk, fact: str, sources: tuple[str, ...]) -> None:
    """A repair that the tests speak against counts as failed; answers that contradict each other are shown together."""
    job = talk.job
    repairs = [source for source in sources if source.startswith("repair ")]
    if repairs:
        for source in repairs:
            fault = source.removeprefix("repair ")
            conclude(talk, job.state.take_back(source))
            job.repaired[fault] = False
            talk.tell(f"The tests speak against the repair: '{job.fault_name(fault)}' is still there.")
        reopen(job)
        return
    answers = answers_among(job, sources)
    talk.add(Conflict(fact, tuple(given.number for given in answers)))
    talk.tell("These answers cannot all be right:")
    asked = ((given, job.base.questions[given.question].ask) for given in answers)
    talk.tell(*(f"{given.number}. {ask} {answer_in_words(job, given)}" for given, ask in asked))
    first = repeat_first(job, answers)
    text = (
        f"Type the number of the one to repeat; it is asked again. Best {first.number}: "
        f"{_why_first(job, first, answers)}. If none can be repeated, type: can't tell"
    )
    talk.add(Put("conflict", fact, text))
    job.prompt = Prompt("conflict", fact, tuple(str(given.number) for given in answers))


def answers_among(job: Job, sources: tuple[str, ...]) -> list[Given]:
    return [given for given in job.given.values() if given.source in sources]


def repeat_first(job: Job, answers: list[Given]) -> Given:
    """The answer to repeat first: the quickest test, of equal ones the one with the poorer instrument."""
    return min(answers, key=lambda given: (job.base.questions[given.question].minutes, -_share(given)))


def _share(given: Given) -> float:
    """The uncertainty as a share of the reading; an observation by eye counts as certain."""
    if given.quantity is None or given.uncertainty is None or not given.quantity.value:
        return 0.0
    return abs(given.uncertainty.value / given.quantity.value)


def _why_first(job: Job, first: Given, answers: list[Given]) -> str:
    minutes = job.base.questions[first.question].minutes
    as_quick = [given for given in answers if job.base.questions[given.question].minutes == minutes]
    if len(as_quick) == 1:
        return f"it is the quickest, {minutes:g} min"
    if _share(first) > max(_share(given) for given in as_quick if given is not first):
        return f"it takes {minutes:g} min like others, and its instrument is the least certain"
    return f"it takes {minutes:g} min, and none is quicker"


def answer_conflict(talk: Talk, line: str) -> None:
    """Ask one of the contradicting answers again, or set all of them aside. Raises NotAnAnswer."""
    job = talk.job
    conflict = conflict_of(job)
    answers = answers_among(job, conflict[1]) if conflict else []
    word = line.strip().casefold()
    if word == "set aside":
        for given in answers:
            set_aside(talk, given)
            cannot_tell(talk, given.question, "contradicts other answers")
        job.choice = None
        talk.tell("All of them are set aside. The search goes on by other tests.")
        return
    chosen = [given for given in answers if word == str(given.number)]
    if not chosen:
        numbers = ", ".join(str(given.number) for given in answers)
        raise NotAnAnswer(f"{echo(line)} is no answer here. Type one of {numbers}, or: can't tell")
    set_aside(talk, chosen[0])
    reopen(job)
    # Asked again like any other question: the bench may have moved on since.
    again = Candidate(chosen[0].question, chosen[0].question, 0.0, 0.0, Route((), 0.0), ())
    job.choice = Choice(again, None, None, ())
