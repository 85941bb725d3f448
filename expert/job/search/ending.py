"""How a search ends: found, left by elimination, narrowed, normal or not resolved; never mixed up in wording."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from expert.engine.planner import choose
from expert.engine.suspicion import Picture, Weighed, evidence_of
from expert.job.bench.first import barring
from expert.job.bench.moves import offer_again
from expert.job.search.elimination import may_be_named
from expert.job.search.short_list import LONGEST, in_rows, ranked
from expert.job.search.unexplained import may_show, that_show, unexplained
from expert.job.sentences import search as say
from expert.job.state.hazards import refuse
from expert.job.state.job import Job, Phase, Turn, phase_after
from expert.job.state.situation import outcome_in_words, situation_of
from expert.trace.records import Found, SearchEnded
from expert.trade.counting import counted

CLOSE = 5  # suspects so close together that the complaint counts as narrowed to them
CLOSE_SPAN = 10  # decibans below the heaviest suspect within which the others are close
LISTED_SPAN = 20  # decibans below the heaviest beyond which nobody is worth a line: a hundredth of its odds

LOOKED_ALONG = 4  # parts named where the cause may be one that no rule knows
FOUND, ELIMINATED, LISTED, OWN_JUDGEMENT = "found", "left_by_elimination", "narrowed", "own_judgement"


@dataclass(frozen=True, slots=True)
class Ending:
    """How a search ended: the outcome, the faults with their standing, and what to tell."""

    outcome: str
    standings: dict[str, str]
    sentences: tuple[str, ...]


def end_search(turn: Turn, picture: Picture, *, by_choice: bool = False) -> None:
    """Say how far the search came and go on to the repair, or to the close when there is nothing to repair.

    `by_choice`: the technician ends it, though there is something left to ask.
    """
    job = turn.job
    left = choose(situation_of(job, picture, any_move=True)) if job.impossible and not by_choice else None
    if left is not None and offer_again(turn, left.best.route):
        return
    ending = ending_of(job, picture)
    job.outcome = ending.outcome
    if ending.outcome in (LISTED, "unresolved") and _held_up_by_danger(turn, picture):
        job.outcome = "handed_over"
    for fault, standing in ending.standings.items():
        job.found[fault] = standing
        if standing != LISTED:
            turn.add(Found(fault, standing, because_of(job, fault)))
    turn.add(SearchEnded(job.outcome, tuple(f for f, s in ending.standings.items() if s == LISTED)))
    turn.tell(*ending.sentences)
    to_repair = [f for f, s in ending.standings.items() if s in (FOUND, ELIMINATED) and f not in job.declined]
    job.to_repair = tuple(causes_first(job, to_repair))
    # Proofs that a contradiction or a taken-back answer interrupted are still due.
    prove = job.to_prove or job.outcome == "normal"  # a machine called sound is tried at work first
    job.phase = phase_after(Phase.FIND) if job.to_repair else Phase.PROVE if prove else Phase.CLOSE


def _held_up_by_danger(turn: Turn, picture: Picture) -> bool:
    """Say what would be tested next if no danger stood. Whether there is such a test."""
    job = turn.job
    left = choose(situation_of(job, picture, no_hazards=True)) if job.hazards.open else None
    if left is None:
        return False
    question = job.base.questions[left.best.asks]
    for hazard, act in barring(job, question):
        refuse(turn, hazard, act, f"question {question.id}")
        turn.tell(say.not_tested(question.ask, hazard.name, hazard.until))
    return True


def ending_of(job: Job, picture: Picture) -> Ending:
    """What can be said when no question is left that tells anything."""
    standings = dict.fromkeys(picture.confirmed, FOUND)
    sentences: list[str] = []
    outcomes: list[str] = []
    for complaint in picture.complaints_open:
        outcome, faults = _complaint_ends(job, picture, complaint)
        # What no fault explains leaves a fault that is found as found; it is told, and stays open.
        if faults or not (picture.confirmed or job.mended()):
            outcomes.append(outcome)
        standing = ELIMINATED if outcome == ELIMINATED else LISTED
        standings |= {fault: standing for fault in faults if fault not in standings}
        sentences += _complaint_in_words(job, picture, complaint, outcome)
    for complaint in picture.normal:
        sentences.append(say.normal_behaviour(job.base.complaints[complaint].name))
    for fault in picture.causes_wanted:
        sentences.append(say.cause_not_settled(job.fault_name(fault)))
    looked_into = unexplained(job, picture)
    for question in picture.observations_open:
        sentences.append(say.not_accounted_for(job.base.questions[question].ask, outcome_in_words(job, question)))
        if question in looked_into:
            suspects = may_show(picture, question)
            outcome, faults = _as_a_list(picture, suspects)
            if faults or not (picture.confirmed or job.mended()):
                outcomes.append(outcome)
            standings |= {fault: LISTED for fault in faults if fault not in standings}
            sentences += [*in_rows(job, picture, suspects), something_unknown(job, that_show(job, question))]
    outcome = _worst(outcomes) if outcomes else _all_accounted(job, picture)
    if outcome in (LISTED, "unresolved"):
        sentences += _repairs_in_doubt(job, picture)
        sentences += _what_would_settle(job, picture)
        if outcomes and _live_work_would_help(job, picture):
            outcome = "handed_over"
    return Ending(outcome, standings, tuple(sentences))


def _all_accounted(job: Job, picture: Picture) -> str:
    if picture.confirmed or job.mended():
        return FOUND
    return "normal" if picture.normal else "unresolved"


def _complaint_in_words(job: Job, picture: Picture, complaint: str, outcome: str) -> list[str]:
    name = job.base.complaints[complaint].name
    suspects = ranked(job, picture, complaint)
    if outcome == ELIMINATED:
        left = job.fault_name(suspects[0].fault)
        return [say.left_by_elimination(name, left)]
    if outcome == LISTED:
        rows = in_rows(job, picture, shortlisted(suspects, picture))
        return [say.narrowed(name), *rows, something_unknown(job, job.knowledge.explainers[complaint])]
    if not suspects:
        return [
            say.not_resolved(name),
            something_unknown(job, job.knowledge.explainers[complaint]),
        ]
    count = counted(len(suspects), "fault")
    lead = say.still_possible(name, count)
    return [lead, *in_rows(job, picture, suspects), something_unknown(job, job.knowledge.explainers[complaint])]


def something_unknown(job: Job, explaining: Iterable[str]) -> str:
    """The suspect that no question ever clears, and where to look for it by hand: along the parts of these faults."""
    faults = (job.base.faults[fault] for fault in explaining)
    parts = list(dict.fromkeys(job.base.parts[fault.part].name for fault in faults))[:LOOKED_ALONG]
    along = say.look_by_hand(", ".join(parts)) if parts else ""
    return say.not_known_to_rules(along)


def _complaint_ends(job: Job, picture: Picture, complaint: str) -> tuple[str, tuple[str, ...]]:
    """The outcome for one open complaint, and the faults that stand for it or lead its short list."""
    open_ones = ranked(job, picture, complaint)
    possible_here = [f for f in job.knowledge.explainers[complaint] if "machine data" not in _who_cleared(job, f)]
    if len(open_ones) == 1 and len(possible_here) > 1 and not _may_be_sound(job, complaint, open_ones[0]):
        last = open_ones[0].fault
        return ELIMINATED if may_be_named(job, picture, complaint, last) else LISTED, (last,)
    return _as_a_list(picture, open_ones)


def _as_a_list(picture: Picture, suspects: tuple[Weighed, ...]) -> tuple[str, tuple[str, ...]]:
    """Narrowed to a short list where few are close together, else not resolved; and the faults that lead the list."""
    near = close(suspects)
    if near and len(near) <= CLOSE:
        return LISTED, tuple(suspect.fault for suspect in shortlisted(suspects, picture))
    return "unresolved", tuple(suspect.fault for suspect in suspects[:LONGEST])


def close(suspects: tuple[Weighed, ...]) -> tuple[Weighed, ...]:
    """Those that weigh nearly as much as the heaviest."""
    return tuple(suspect for suspect in suspects if suspect.decibans >= suspects[0].decibans - CLOSE_SPAN)


def shortlisted(suspects: tuple[Weighed, ...], picture: Picture) -> tuple[Weighed, ...]:
    """Those that stand on a short list: the close ones, what would give the same answers as one of them that is held
    back, and whoever else is not far behind, as long as the list stays short."""
    near = close(suspects)
    alike = {rival for suspect in near for rival in picture.held.get(suspect.fault, ())}
    floor = suspects[0].decibans - LISTED_SPAN if suspects else 0
    further = sorted(
        (s for s in suspects if s not in near and (s.fault in alike or s.decibans >= floor)),
        key=lambda suspect: suspect.fault not in alike,
    )
    chosen = {suspect.fault for suspect in (*near, *further[: max(CLOSE - len(near), 0)])}
    return tuple(suspect for suspect in suspects if suspect.fault in chosen)


def _may_be_sound(job: Job, complaint: str, last: Weighed) -> bool:
    """Whether the last suspect may be innocent: normal behaviour is not ruled out, or the evidence speaks for it."""
    normal = job.knowledge.normal_rules.get(complaint, ())
    return evidence_of(job.knowledge, job.state.fired).get(last.fault, 0) < 0 or any(
        job.state.truth(job.base.rules[rule].when) is not False for rule in normal
    )


def _who_cleared(job: Job, fault: str) -> frozenset[str]:
    if "present" in job.state.possible(fault):
        return frozenset()
    return job.state.sources_behind(fault, "present") if job.state.possible(fault) else frozenset()


def _worst(outcomes: list[str]) -> str:
    order = ("unresolved", LISTED, ELIMINATED)
    return min(outcomes, key=order.index)


def _repairs_in_doubt(job: Job, picture: Picture) -> list[str]:
    """Repairs whose own proof failed and whose fault would explain what is still open: they may not be good."""
    explaining = {fault for complaint in picture.complaints_open for fault in job.knowledge.explainers[complaint]}
    failed = {
        question for question, passed in {name: passed for name, _, passed in job.proofs}.items() if passed is False
    }
    return [
        say.repaired_but_failed(job.fault_name(fault))
        for fault, proved in job.repaired.items()
        if proved is False and fault in explaining and failed & set(job.base.faults[fault].prove)
    ]


def _what_would_settle(job: Job, picture: Picture) -> list[str]:
    """The best test that was not possible here and would have told more: barred by a move, or not to be told."""
    choice = choose(situation_of(job, picture, qualified=True, any_instrument=True, any_move=True)) or choose(
        situation_of(job, picture, qualified=True, any_instrument=True, any_move=True, ask_anew=True)
    )
    if choice is None:
        return []
    question = job.base.questions[choice.best.question]
    means = f" ({job.base.instruments[question.instrument].name})" if question.instrument else ""
    sentences = [say.what_would_settle(question.ask, means)]
    needed = {move.id: move.say for move in choice.best.route.moves}
    for unable in job.unable.values():
        if unable.holds and unable.kind == "move" and unable.subject in needed:
            sentences.append(say.needs_what_could_not(needed[unable.subject], unable.number))
        elif unable.holds and unable.subject in (choice.best.question, choice.best.asks):
            sentences.append(say.could_not_be_told(unable.number))
    return sentences


def _live_work_would_help(job: Job, picture: Picture) -> bool:
    return not job.qualified and choose(situation_of(job, picture, qualified=True)) is not None


def because_of(job: Job, fault: str) -> tuple[str, ...]:
    """Why a fault is held to be there: the sentences of the rules that confirm it, or that nothing else is left."""
    if job.state.possible(fault) != ("present",):
        return (say.ALL_OTHERS_CLEARED,)
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
    """The faults in an order in which a cause comes before what it has damaged.

    Where each can have brought in the other, as a shorted relay and a bridged limit, the order of the rules holds: what
    drives the heat stands there before what should have caught it.
    """
    ordered: list[str] = []
    order = list(job.base.faults)

    def place(fault: str, seen: frozenset[str]) -> None:
        for cause in job.base.faults[fault].caused_by:
            mutual = fault in job.base.faults[cause].caused_by and order.index(fault) < order.index(cause)
            if cause in faults and cause not in seen and not mutual:
                place(cause, seen | {fault})
        if fault not in ordered:
            ordered.append(fault)

    for fault in faults:
        place(fault, frozenset((fault,)))
    return ordered
