"""A job that is taken up again: does the machine still stand as the record says? Pure, like every step of the talk."""

from __future__ import annotations

from collections.abc import Mapping

from expert.engine.bench import bench_state, satisfies
from expert.job.answers.mistyped import is_no_name
from expert.job.answers.reading import NO, YES, NotAnAnswer
from expert.job.bench.moves import note_opened
from expert.job.prompts.danger import make_safe
from expert.job.prompts.owner import Owner, Unattended
from expert.job.prompts.qualified import ASKED, QUALIFIED, qualified_by
from expert.job.sentences import safety as say
from expert.job.state.job import NO_PROMPT, Job, Phase, Prompt, Turn
from expert.job.state.situation import reopen
from expert.trace.records import Moved, PromptPut, Record, Worker
from expert.trade.quantities.units import echo

WHO, QUALIFICATION, STILL = "technician", "qualified", "still"


def take_up_again(job: Job) -> tuple[Job, tuple[Record, ...]]:
    """The job waiting for who is at the bench now, and, where that may have changed, for how the machine stands."""
    if not job.bench or job.is_closed:
        return job, ()
    turn = Turn(job.copy())
    if turn.job.handed is not None:
        _take_on(turn.job, *turn.job.handed)
    turn.job.left_at = job.left_at or job.prompt
    turn.job.paused = False
    _ask_who(turn)
    return turn.job, tuple(turn.records)


def _take_on(job: Job, phase: Phase, outcome: str) -> None:
    """Go on where a job was handed over, with all that is known. What only somebody else could test is searched for."""
    job.handed, job.leaving, job.phase, job.outcome = None, False, phase, outcome
    job.closing.clear()
    job.prompt = NO_PROMPT
    if outcome == "handed_over":
        job.outcome = ""
        reopen(job)


def _ask_who(turn: Turn) -> None:
    people = turn.job.shop.people
    lines = [f"  {number}  {person.name}" for number, person in enumerate(people, 1)]
    how = say.NUMBER_OR_NAME if people else say.NAME
    text = "\n".join([say.who_is_there_now(how), *lines])
    _put(turn, WHO, text, _names(turn.job))


def _names(job: Job) -> tuple[str, ...]:
    return tuple(person.name for person in job.shop.people)


def _put(turn: Turn, name: str, text: str, choices: tuple[str, ...]) -> None:
    turn.add(PromptPut("standing", name, text))
    turn.job.prompt = Prompt("standing", name, choices)


def _take_name(turn: Turn, line: str) -> None:
    job = turn.job
    person = job.shop.person(line.strip())
    if person is None and is_no_name(line):
        raise NotAnAnswer(say.NAME_NEEDED)
    job.technician = person.name if person else line.strip()[:60]
    if person is None:
        _put(turn, QUALIFICATION, ASKED, (QUALIFIED, "no"))
    else:
        _at_the_bench(turn, person.qualified)


def _at_the_bench(turn: Turn, qualified: bool) -> None:
    """Note who works from here on. Whoever it is has not read what was shown before."""
    job = turn.job
    job.qualified = qualified
    if job.technician not in job.workers:
        job.workers = (*job.workers, job.technician)
    job.cautions_read.clear()
    job.moves_told.clear()
    job.cautions_told.clear()
    turn.add(Worker(job.technician, qualified))
    if not must_be_confirmed(job):
        _go_on(turn)
        return
    stands = ", ".join(f"{dimension} {state}" for dimension, state in job.bench)
    text = say.still_as_it_was(stands)
    _put(turn, STILL, text, ("yes", "no"))


def _go_on(turn: Turn) -> None:
    """What was put is put again, cautions first, to whoever is there now."""
    turn.job.left_at = None
    turn.job.prompt = NO_PROMPT


def must_be_confirmed(job: Job) -> bool:
    """Whether the machine was left in another state than one in which a machine arrives safe."""
    bench = job.base.bench
    return job.bench not in [
        bench_state(bench, arrival.state) for arrival in bench.arrives.values() if _is_safe(job, arrival.state)
    ]


def _is_safe(job: Job, state: Mapping[str, str]) -> bool:
    return satisfies(bench_state(job.base.bench, state), job.base.bench.safe)


def _to_ask(job: Job) -> list[str]:
    """The dimensions that change only by somebody's hand, and hurt nobody by themselves."""
    bench = job.base.bench
    by_itself = {dimension for change in bench.in_time for dimension in change.becomes}
    return [dimension for dimension in bench.states if dimension not in bench.safe and dimension not in by_itself]


def make_safe_again(turn: Turn) -> None:
    """Walk the moves to how a machine arrives safe, but for what was asked.

    Where there is no way, somebody answers for it: an open machine may be under pressure, and is not worked on.
    """
    job = turn.job
    safe = next((a.state for a in job.base.bench.arrives.values() if _is_safe(job, a.state)), job.base.bench.safe)
    wanted = {dimension: state for dimension, state in safe.items() if dimension not in _to_ask(job)}
    job.unsure = not make_safe(turn, then="", wanted=wanted)


def answer_standing(turn: Turn, line: str) -> None:
    """Who is there, then how it stands: with a yes the job goes on, with a no the worst is assumed and made safe.

    Raises NotAnAnswer.
    """
    job = turn.job
    word = line.strip().casefold()
    assert job.left_at is not None
    if job.prompt.subject == WHO:
        _take_name(turn, line)
    elif job.prompt.subject == QUALIFICATION:
        _at_the_bench(turn, qualified_by(line))
    elif job.prompt.subject != STILL:
        _answer_dimension(turn, word)
    elif word in YES:
        turn.add(Moved("stands as recorded", dict(job.bench), 0.0))
        _go_on(turn)
    elif word in NO:
        _assume_the_worst(turn)
    else:
        raise NotAnAnswer(say.not_whether_it_stands_so(echo(line)))


def _assume_the_worst(turn: Turn) -> None:
    """Whatever changes by itself, or could hurt somebody, counts as it would be worst; the rest is asked."""
    job = turn.job
    bench = job.base.bench
    unsafe = [a for a in bench.arrives.values() if not _is_safe(job, a.state)]
    worst = next((a.state for a in sorted(unsafe, key=lambda a: not a.unsure)), dict(job.bench))
    asked = _to_ask(job)
    job.bench = bench_state(bench, {name: state if name in asked else worst[name] for name, state in job.bench})
    job.choice = None
    job.cautions_read.clear()
    job.moves_told.clear()
    job.cautions_told.clear()
    job.prepared.clear()
    _ask_or_go_on(turn, asked)


def _ask_or_go_on(turn: Turn, to_ask: list[str]) -> None:
    job = turn.job
    turn.add(Moved("stands otherwise", dict(job.bench), 0.0))
    if to_ask:
        states = job.base.bench.states[to_ask[0]]
        lines = [f"  {number}  {to_ask[0]} {state}" for number, state in enumerate(states, 1)]
        text = "\n".join([say.how_does_it_stand(to_ask[0], " or ".join(states)), *lines])
        turn.add(PromptPut("standing", to_ask[0], text))
        job.prompt = Prompt("standing", to_ask[0], states)
        return
    note_opened(job)
    job.closing.pop("ending", None)  # it was chosen for a machine that stood as it should
    turn.tell(say.THE_REST_IS_UNSAFE)
    job.left_at = None
    job.unsure = True
    job.prompt = NO_PROMPT


def _answer_dimension(turn: Turn, word: str) -> None:
    job = turn.job
    dimension, states = job.prompt.subject, job.prompt.choices
    if word.isdecimal() and len(word) < 3 and 1 <= int(word) <= len(states):
        word = states[int(word) - 1]
    if word not in states:
        raise NotAnAnswer(say.no_number_of_a_state(echo(word), len(states)))
    job.bench = tuple((name, word if name == dimension else state) for name, state in job.bench)
    asked = _to_ask(job)
    _ask_or_go_on(turn, asked[asked.index(dimension) + 1 :])


class AsLeft(Owner):
    drops_typed_ahead = True

    def take(self, turn: Turn, line: str) -> None:
        answer_standing(turn, line)

    def put_again(self, job: Job, recorded: Prompt) -> Prompt | None:
        choices = {WHO: _names(job), QUALIFICATION: (QUALIFIED, "no"), STILL: ("yes", "no")}
        if recorded.subject in choices:
            return Prompt("standing", recorded.subject, choices[recorded.subject]) if job.left_at else None
        states = job.base.bench.states.get(recorded.subject)
        return Prompt("standing", recorded.subject, states) if states and job.left_at else None

    def unattended(self, job: Job, at_hand: Unattended) -> list[str]:
        # Nobody is there to look, and nobody was there to leave it.
        at = job.prompt.subject
        return ["unattended" if at == WHO else "no" if at == QUALIFICATION else "yes" if at == STILL else "1"]

    def why(self, job: Job) -> tuple[str, ...]:
        if job.prompt.subject in (WHO, QUALIFICATION):
            return (say.WHY_WHO_IS_THERE_NOW,)
        return (say.WHY_STILL_AS_IT_WAS,)
