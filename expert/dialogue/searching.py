"""Finding: what to ask next, and how a search ends."""

from __future__ import annotations

from dataclasses import dataclass

from expert.dialogue.asking import put_question
from expert.dialogue.bench_moves import bench_map, bring_bench
from expert.dialogue.job import Job, Phase, Talk, applies
from expert.dialogue.values import missing_first
from expert.engine.bench import BenchMap
from expert.engine.gain import beliefs
from expert.engine.planner import Candidate, Choice, Situation, choose
from expert.engine.suspicion import Picture, take_picture
from expert.trace.records import Found, SearchEnded
from expert.trace.why import Considered, Suspicion, Why

SHORT_LIST = 5
SHORT_LIST_SPAN = 10  # decibans below the heaviest suspect that still belong on the short list

FOUND, ELIMINATED, LISTED = "found", "left_by_elimination", "narrowed"


def picture_of(job: Job) -> Picture:
    """Suspects, confirmed faults and what is not accounted for, as the job stands."""
    return take_picture(job.knowledge, job.state, job.complaints, job.answered(), job.mended())


def situation_of(job: Job, picture: Picture, qualified: bool | None = None, any_instrument: bool = False) -> Situation:
    """What the planner looks at. `qualified` and `any_instrument` ask what would be possible with them."""
    base = job.base
    bench = bench_map(job) if qualified is None else BenchMap(base.bench, qualified, job.state.truth, job.impossible)
    features = job.machine.features if job.machine else {}
    return Situation(
        knowledge=job.knowledge,
        state=job.state,
        picture=picture,
        settled_questions=frozenset(job.answered()) | frozenset(job.cannot),
        bench=job.bench,
        bench_map=bench,
        applies=lambda question: applies(
            base, features, (base.circuits[base.questions[question].circuit].applies, base.questions[question].applies)
        ),
        measurable=frozenset(base.instruments) if any_instrument else job.shop.instruments,
        missing_first=lambda question: missing_first(job, question),
    )


def search_on(talk: Talk) -> None:
    """Put the next question or bench move, or end the search."""
    job = talk.job
    picture = picture_of(job)
    if job.choice is None:
        job.choice = choose(situation_of(job, picture))
    if job.choice is None:
        end_search(talk, picture)
        return
    if not job.announced.issuperset(picture.confirmed):
        talk.tell(*why_search_goes_on(job, picture))
    job.announced = frozenset(picture.confirmed)
    question = job.base.questions[job.choice.best.asks]
    ready = bring_bench(talk, question.bench)
    if ready:
        put_question(talk, question, "question", why_asked(job, picture, job.choice))
    elif ready is None:
        # A move turned out impossible after the choice: plan again without it.
        job.choice = choose(situation_of(job, picture))
        if job.choice is None or job.choice.best.asks == question.id:
            end_search(talk, picture)
        else:
            search_on(talk)


def why_search_goes_on(job: Job, picture: Picture) -> tuple[str, ...]:
    """A fault is found, but more is to be known before the repair: what, and why."""
    found = "; ".join(job.fault_name(fault) for fault in picture.confirmed)
    if picture.causes_wanted:
        reason = "What caused it is looked for before a new part is fitted."
    elif picture.complaints_open:
        names = "; ".join(job.base.complaints[complaint].name for complaint in picture.complaints_open)
        reason = f"It does not explain: {names}."
    else:
        asked = job.base.questions[picture.observations_open[0]].ask
        reason = f"It does not account for: {asked} {_outcome_words(job, picture.observations_open[0])}."
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


# ---------------------------------------------------------------- the end of a search


@dataclass(frozen=True, slots=True)
class Ending:
    """How a search ended: the outcome, the faults with their standing, and what to tell."""

    outcome: str
    standings: dict[str, str]
    sentences: tuple[str, ...]


def end_search(talk: Talk, picture: Picture) -> None:
    """Say how far the search came and go on to the repair, or to the close when there is nothing to repair."""
    job = talk.job
    ending = ending_of(job, picture)
    job.outcome = ending.outcome
    for fault, standing in ending.standings.items():
        job.found[fault] = standing
        if standing != LISTED:
            talk.add(Found(fault, standing, because_of(job, fault)))
    talk.add(SearchEnded(ending.outcome, tuple(f for f, s in ending.standings.items() if s == LISTED)))
    talk.tell(*ending.sentences)
    to_repair = [f for f, s in ending.standings.items() if s in (FOUND, ELIMINATED) and f not in job.declined]
    job.to_repair = tuple(causes_first(job, to_repair))
    job.phase = Phase.REPAIR if job.to_repair else Phase.CLOSE


def ending_of(job: Job, picture: Picture) -> Ending:
    """What can be said when no question is left that tells anything."""
    standings = dict.fromkeys(picture.confirmed, FOUND)
    sentences: list[str] = []
    outcomes: list[str] = []
    for complaint in picture.complaints_open:
        outcome, faults = _complaint_ends(job, picture, complaint)
        outcomes.append(outcome)
        standings |= {fault: outcome for fault in faults if fault not in standings}
        name = job.base.complaints[complaint].name
        sentences.append(_COMPLAINT_ENDS[outcome].format(name=name, names=_listed(job, faults)))
    for complaint in picture.normal:
        sentences.append(f"'{job.base.complaints[complaint].name}' is how a sound machine behaves. It is no fault.")
    for fault in picture.causes_wanted:
        sentences.append(
            f"What caused '{job.fault_name(fault)}' could not be settled. Look for it before fitting a new part."
        )
    for question in picture.observations_open:
        sentences.append(f"Not accounted for: {job.base.questions[question].ask} {_outcome_words(job, question)}.")
    outcome = _worst(outcomes) if outcomes else _all_accounted(job, picture)
    if outcome in (LISTED, "unresolved"):
        sentences += _what_would_settle(job, picture)
        if outcomes and _live_work_would_help(job, picture):
            outcome = "handed_over"
    return Ending(outcome, standings, tuple(sentences))


def _all_accounted(job: Job, picture: Picture) -> str:
    if picture.confirmed or job.mended():
        return FOUND
    return "normal" if picture.normal else "unresolved"


_COMPLAINT_ENDS = {
    ELIMINATED: "'{name}': everything else that explains it is cleared. Left by elimination, not proved: {names}.",
    LISTED: "'{name}': narrowed to a short list, not further: {names}.",
    "unresolved": "'{name}' is not resolved. {names}",
}


def _complaint_ends(job: Job, picture: Picture, complaint: str) -> tuple[str, tuple[str, ...]]:
    """The outcome for one open complaint and the faults that stand for it."""
    explainers = job.knowledge.explainers[complaint]
    open_ones = [suspect for suspect in picture.suspects if suspect.fault in explainers]
    possible_here = [f for f in explainers if "machine data" not in _who_cleared(job, f)]
    if len(open_ones) == 1 and len(possible_here) > 1:
        return ELIMINATED, (open_ones[0].fault,)
    if open_ones:
        span = open_ones[0].decibans - SHORT_LIST_SPAN
        short = tuple(suspect.fault for suspect in open_ones if suspect.decibans >= span)
        if len(short) <= SHORT_LIST:
            return LISTED, short
    return "unresolved", ()


def _who_cleared(job: Job, fault: str) -> frozenset[str]:
    if "present" in job.state.possible(fault):
        return frozenset()
    return job.state.sources_behind(fault, "present") if job.state.possible(fault) else frozenset()


def _worst(outcomes: list[str]) -> str:
    order = ("unresolved", LISTED, ELIMINATED)
    return min(outcomes, key=order.index)


def _what_would_settle(job: Job, picture: Picture) -> list[str]:
    """Tests that were not possible here and would have told more."""
    choice = choose(situation_of(job, picture, qualified=True, any_instrument=True))
    if choice is None:
        return []
    question = job.base.questions[choice.best.question]
    means = f" ({job.base.instruments[question.measure.instrument].name})" if question.measure else ""
    return [f"What would settle it: {question.ask}{means}"]


def _live_work_would_help(job: Job, picture: Picture) -> bool:
    return not job.qualified and choose(situation_of(job, picture, qualified=True)) is not None


def because_of(job: Job, fault: str) -> tuple[str, ...]:
    """Why a fault is held to be there: the sentences of the rules that confirm it, or that nothing else is left."""
    if job.state.possible(fault) != ("present",):
        return ("All other faults that explain the complaint are cleared.",)
    return tuple(
        job.base.rules[rule].because
        for rule in job.knowledge.concluding.get(fault, ())
        if rule in job.state.fired and _confirms(job, rule, fault)
    )


def _confirms(job: Job, rule: str, fault: str) -> bool:
    return any(
        getattr(said, "word", "") == "confirm" and getattr(said, "fact", "") == fault
        for said in job.base.rules[rule].then
    )


def causes_first(job: Job, faults: list[str]) -> list[str]:
    """The faults in an order in which a cause comes before what it has damaged."""
    ordered: list[str] = []

    def place(fault: str, seen: frozenset[str]) -> None:
        for cause in job.base.faults[fault].caused_by:
            if cause in faults and cause not in seen:
                place(cause, seen | {fault})
        if fault not in ordered:
            ordered.append(fault)

    for fault in faults:
        place(fault, frozenset((fault,)))
    return ordered


def _listed(job: Job, faults: tuple[str, ...]) -> str:
    return "; ".join(job.fault_name(fault) for fault in faults) or "Too many faults are still possible."


def _outcome_words(job: Job, question: str) -> str:
    labels = job.base.questions[question].labels
    return " or ".join(labels.get(outcome, outcome) for outcome in job.state.possible(question))


def replan(job: Job) -> None:
    """Forget the chosen question; the next step chooses anew."""
    job.choice = None


def reopen(job: Job) -> None:
    """Back to the search, with everything known kept."""
    job.phase = Phase.FIND
    job.choice = None
    job.to_repair = ()
    job.to_prove = ()
