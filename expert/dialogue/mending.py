"""Repair and proof: steps with their cautions, what was really done, then the tests that show that it holds."""

from __future__ import annotations

from collections.abc import Mapping
from math import inf

from expert.dialogue.asking import NO, YES, NotAnAnswer, put_question, set_aside, show_cautions, take_answer
from expert.dialogue.bench_moves import bench_map, bring_bench, make_ready, offer_again
from expert.dialogue.inference import conclude
from expert.dialogue.job import Given, Job, Phase, Prompt, Talk
from expert.dialogue.situation import picture_of, reopen
from expert.language.model import Question
from expert.trace.records import NoLongerHolds, Proved, Put, Repaired
from expert.trace.why import Why
from expert.trade.quantities.units import echo

WHAT_WAS_DONE = "When it is done: type done. If you did something else: instead, and what. If it is not repaired: no"
DONE = {*YES, "done", "ok"}
MOST_CAUSES = 4  # named in one line
DEAD: Mapping[str, str] = {"mains": "isolated"}


def repair_on(talk: Talk) -> None:
    """Put the next repair, or go on to the proof."""
    job = talk.job
    for fault in job.to_repair:
        if fault in job.declined or job.repaired.get(fault, False) is not False:
            continue
        repair = job.base.faults[fault].repair
        ready = bring_bench(talk, repair.bench or DEAD)
        if ready is None:
            if offer_again(talk, bench_map(job, any_move=True).route(job.bench, repair.bench or DEAD)):
                return
            job.declined.add(fault)
            talk.tell(f"The bench cannot be made ready for this repair: {job.fault_name(fault)}.")
            continue
        if ready:
            put_repair(talk, fault)
        return
    job.to_repair = ()
    job.to_prove = proof_list(job)
    job.phase = Phase.PROVE if job.to_prove else Phase.CLOSE


def put_repair(talk: Talk, fault: str) -> None:
    """Cautions, parts, steps; the job waits for what was done."""
    job = talk.job
    repair = job.base.faults[fault].repair
    show_cautions(talk, repair.cautions)
    lead = "Repair" if job.found.get(fault) == "found" else "Left by elimination, not proved. If you repair it"
    talk.tell(f"{lead}: {job.fault_name(fault)}. About {repair.minutes:g} min.")
    talk.tell(*causes_left(job, fault))
    if repair.parts or repair.consumables:
        talk.tell(f"You need: {', '.join((*repair.parts, *repair.consumables))}.")
    talk.tell(*(f"{number}. {step}" for number, step in enumerate(repair.steps, 1)))
    talk.add(Put("repair", fault, WHAT_WAS_DONE))
    job.prompt = Prompt("repair", fault, ("done", "no"))


def causes_left(job: Job, fault: str) -> list[str]:
    """What may have damaged a part and is neither mended nor cleared: the new part would go the same way."""
    causes = job.base.faults[fault].caused_by
    gone = set(job.mended())
    there = [c for c in causes if job.state.possible(c) == ("present",) and c not in gone]
    if there:
        names = "; ".join(job.fault_name(cause) for cause in there)
        return [f"! Its cause is found and not mended: {names}. A new part will go the same way."]
    if any(cause in gone for cause in causes):
        return []
    left = [job.fault_name(cause) for cause in causes if len(job.state.possible(cause)) > 1]
    if not left:
        return []
    more = f" and {len(left) - MOST_CAUSES} more" if len(left) > MOST_CAUSES else ""
    names = "; ".join(left[:MOST_CAUSES])
    return [f"! What damaged it is not known. Look for it before the new part is fitted: {names}{more}."]


def answer_repair(talk: Talk, line: str) -> None:
    """Take the technician's word on the repair. Raises NotAnAnswer on an empty line."""
    job = talk.job
    fault = job.prompt.subject
    said = line.strip()
    word, _, rest = said.partition(" ")
    # Anything else is more likely a mistyped command than the report of a repair.
    if said.casefold() not in {*NO, *DONE} and not (word.casefold().rstrip(":,") == "instead" and rest.strip()):
        raise NotAnAnswer(f"{echo(said)} does not say what was done. {WHAT_WAS_DONE}")
    if said.casefold() in NO:
        job.declined.add(fault)
        talk.tell(f"Not repaired: {job.fault_name(fault)}.")
        return
    repair = job.base.faults[fault].repair
    job.minutes += repair.minutes
    job.parts_used = (*job.parts_used, *repair.parts)
    talk.add(Repaired(fault, repair.minutes, said[:500]))
    overtaken = overtaken_by(job, fault)
    for given in overtaken:
        set_aside(talk, given)
        talk.add(NoLongerHolds(given.number, given.question, fault))
    if overtaken:
        numbers = ", ".join(str(given.number) for given in overtaken)
        which = f"answers {numbers}" if len(overtaken) > 1 else f"answer {numbers}"
        talk.tell(f"No longer counted, because it was about the machine before the repair: {which}.")
    job.repaired[fault] = None
    conclude(talk, job.state.narrow(f"repair {fault}", fault, ("absent",)))


def overtaken_by(job: Job, fault: str) -> list[Given]:
    """Answers that described the machine with this fault: those its verdict rests on and those it accounts for.

    Sound ones stay: a part that was good before is good after. Not what passes and yet is a sign of this fault.
    """
    record = job.base.faults[fault]
    behind: frozenset[str] = frozenset()
    if job.state.possible(fault) == ("present",):
        behind = job.state.sources_behind(fault, "absent")
    overtaken = []
    for given in job.given.values():
        if not given.holds:
            continue
        sound = set(given.outcomes) <= set(job.base.questions[given.question].sound)
        named = any(
            given.question in job.knowledge.rule_questions[rule] and fault in job.knowledge.named[rule]
            for rule in job.state.fired
        )
        shown = bool(set(record.shows.get(given.question, ())) & set(given.outcomes))
        if shown or (not sound and (given.source in behind or named)):
            overtaken.append(given)
    return overtaken


# ---------------------------------------------------------------- proof


def proof_list(job: Job) -> tuple[str, ...]:
    """The questions that must come out sound for the repairs not proved yet, then those of the return to service."""
    wanted: dict[str, None] = {}
    for fault, proved in job.repaired.items():
        if not proved:
            wanted |= dict.fromkeys(job.base.faults[fault].prove)
    if wanted:
        wanted |= dict.fromkeys(job.base.bench.service)
    return tuple(question for question in wanted if job.concerns_machine(job.base.questions[question]))


def prove_on(talk: Talk) -> None:
    """Put the next proof, the one nearest to the present bench state; or close the proof when all are through."""
    job = talk.job
    while job.to_prove:
        question = _nearest(job)
        obstacle = _obstacle(job, question)
        if obstacle:
            if offer_again(talk, bench_map(job, any_move=True).route(job.bench, question.bench)):
                return
            talk.tell(f"Not proved, because {obstacle}: {question.ask}")
            _record_proof(talk, question.id, "", None)
            continue
        if make_ready(talk, question):
            put_question(talk, question, "proof", Why(aim=question.id))
        return
    finish_proof(talk)


def _nearest(job: Job) -> Question:
    """Of the proofs left, the one whose bench state costs the fewest minutes to reach; of equals the first listed."""
    ways = bench_map(job)

    def minutes(question: Question) -> float:
        route = ways.route(job.bench, question.bench)
        return route.minutes if route else inf

    return min((job.base.questions[name] for name in job.to_prove), key=minutes)


def _obstacle(job: Job, question: Question) -> str:
    """Why a proof cannot be made here, or ''."""
    if question.measure is not None and question.measure.instrument not in job.shop.instruments:
        return "the shop lacks the instrument"
    if job.state.truth(question.only_if) is False:
        return "it cannot be tested on this machine as it stands"
    if bench_map(job).route(job.bench, question.bench) is None:
        return "the bench cannot be brought into the state it needs"
    return ""


def _record_proof(talk: Talk, question: str, answer: str, passed: bool | None) -> None:
    job = talk.job
    job.to_prove = tuple(other for other in job.to_prove if other != question)
    job.proofs = (*job.proofs, (question, answer, passed))
    talk.add(Proved(question, answer, passed))


def answer_proof(talk: Talk, given: Given) -> None:
    """An answer to a proof question: passed when certainly sound; failed when certainly not, and the search reopens."""
    job = talk.job
    sound = set(job.base.questions[given.question].sound)
    take_answer(talk, given)
    if set(given.outcomes) <= sound:
        _record_proof(talk, given.question, given.text, True)
    elif set(given.outcomes) & sound:
        _record_proof(talk, given.question, given.text, None)
        talk.tell("Too close to the limit to prove the repair. Test again with a better instrument before it goes out.")
    else:
        _record_proof(talk, given.question, given.text, False)
        _proof_failed(talk, given.question)


def cannot_prove(talk: Talk, question: str) -> None:
    """The proof could not be made."""
    _record_proof(talk, question, "can't tell", None)


def _proof_failed(talk: Talk, question: str) -> None:
    job = talk.job
    for fault, proved in job.repaired.items():
        if proved is None and (question in job.base.faults[fault].prove or question in job.base.bench.service):
            job.repaired[fault] = False
    job.to_prove = ()
    job.back_to_close = False
    talk.tell("The proof failed. The search goes on with everything that is known.")
    reopen(job)


def proof_is_withdrawn(job: Job, question: str) -> None:
    """A proof that was taken back is no proof: it is due again, and the repairs that rest on it are open again."""
    if question not in {name for name, _, _ in job.proofs}:
        return
    job.proofs = tuple(proof for proof in job.proofs if proof[0] != question)
    job.to_prove = (*job.to_prove, question)
    for fault, proved in job.repaired.items():
        if proved and question in job.base.faults[fault].prove:
            job.repaired[fault] = None


def offer_what_was_out_of_reach(job: Job) -> None:
    """A bench move can be made after all: repairs that were left and proofs that could not be made are due again."""
    job.declined.clear()
    for question, answer, passed in job.proofs:
        if passed is None and not answer:
            proof_is_withdrawn(job, question)


def finish_proof(talk: Talk) -> None:
    """Every proof is through: the repairs count as proved unless one is still open."""
    job = talk.job
    results = {question: passed for question, _, passed in job.proofs}
    for fault, proved in job.repaired.items():
        # A proof that failed at first may have failed for another fault behind this one.
        if not proved and all(results.get(question) for question in job.base.faults[fault].prove):
            job.repaired[fault] = True
    job.tested_since_opened = True
    on_the_way_out, job.back_to_close = job.back_to_close, False
    if not on_the_way_out and picture_of(job).complaints_open and not job.declined:
        reopen(job)
        return
    job.phase = Phase.CLOSE
