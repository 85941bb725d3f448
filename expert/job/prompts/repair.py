"""Repair: steps with their cautions, and what was really done."""

from __future__ import annotations

from expert.job.answers.putting import show_cautions
from expert.job.answers.reading import NO, NotAnAnswer
from expert.job.answers.taking import set_aside
from expert.job.bench.moves import bring_bench, offer_again
from expert.job.prompts.owner import Owner, Unattended
from expert.job.prompts.proof import proof_list
from expert.job.prompts.test_prompt import cautions_again, numbered_steps
from expert.job.search.ending import OWN_JUDGEMENT
from expert.job.sentences import repair as say
from expert.job.state.bench import bench_map
from expert.job.state.inference import conclude
from expert.job.state.job import Given, Job, Phase, Prompt, Turn
from expert.job.state.situation import reopen
from expert.trace.records import NoLongerHolds, PromptPut, Repaired
from expert.trade.quantities.units import echo

DONE = {"done"}  # neither ok nor y: whoever says it has read what it confirms
LEADS = {
    "found": "Repair",
    "left_by_elimination": say.LEAD_BY_ELIMINATION,
    "own_judgement": say.LEAD_OWN_JUDGEMENT,
}
AT_WORK = {"mains": "on"}.items()
MOST_CAUSES = 4  # named in one line


def repair_on(turn: Turn) -> None:
    """Put the next repair, or go on to the proof."""
    job = turn.job
    for fault in job.to_repair:
        if fault in job.declined or job.repaired.get(fault, False) is not False:
            continue
        repair = job.base.faults[fault].repair
        bench = repair.bench or job.base.bench.safe
        ready = bring_bench(turn, bench)
        if ready is None:
            if offer_again(turn, bench_map(job, any_move=True).route(job.bench, bench)):
                return
            job.declined.add(fault)
            turn.tell(say.bench_not_ready(job.fault_name(fault)))
            continue
        if ready:
            put_repair(turn, fault)
        return
    job.to_repair = ()
    job.to_prove = proof_list(job)
    job.phase = Phase.PROVE if job.to_prove else Phase.CLOSE


def put_repair(turn: Turn, fault: str) -> None:
    """Cautions, parts, steps; the job waits for what was done."""
    job = turn.job
    repair = job.base.faults[fault].repair
    show_cautions(turn, repair.cautions)
    turn.tell(say.repair_put(LEADS[job.found.get(fault, "found")], job.fault_name(fault), repair.minutes))
    turn.tell(*causes_left(job, fault))
    if repair.parts or repair.consumables:
        turn.tell(say.you_need(", ".join((*repair.parts, *repair.consumables))))
    turn.tell(*(f"{number}. {step}" for number, step in enumerate(repair.steps, 1)))
    turn.add(PromptPut("repair", fault, say.WHAT_WAS_DONE))
    job.prompt = Prompt("repair", fault, ("done", "no"))


def causes_left(job: Job, fault: str) -> list[str]:
    """What may have damaged a part and is neither mended nor cleared: the new part would go the same way."""
    causes = job.base.faults[fault].caused_by
    gone = set(job.mended())
    there = [c for c in causes if job.state.possible(c) == ("present",) and c not in gone]
    if there:
        names = "; ".join(job.fault_name(cause) for cause in there)
        return [say.cause_not_mended(names)]
    if any(cause in gone for cause in causes):
        return []
    left = [job.fault_name(cause) for cause in causes if len(job.state.possible(cause)) > 1]
    if not left:
        return []
    more = say.and_more(len(left) - MOST_CAUSES) if len(left) > MOST_CAUSES else ""
    names = "; ".join(left[:MOST_CAUSES])
    return [say.cause_not_known(names, more)]


def answer_repair(turn: Turn, line: str) -> None:
    """Take the technician's word on the repair. Raises NotAnAnswer on an empty line."""
    job = turn.job
    fault = job.prompt.subject
    said = line.strip()
    word, _, rest = said.partition(" ")
    # Anything else is more likely a mistyped command than the report of a repair.
    if said.casefold() not in {*NO, *DONE} and not (word.casefold().rstrip(":,") == "instead" and rest.strip()):
        raise NotAnAnswer(say.not_what_was_done(echo(said), say.WHAT_WAS_DONE))
    if said.casefold() in NO:
        job.declined.add(fault)
        turn.tell(say.not_repaired(job.fault_name(fault)))
        if job.found.get(fault) == OWN_JUDGEMENT:
            # Whoever was convinced is so no longer: it is a suspect like the others.
            del job.found[fault]
            job.declined.discard(fault)
            job.outcome = ""
            reopen(job)
        return
    repair = job.base.faults[fault].repair
    job.minutes += repair.minutes
    job.parts_used = (*job.parts_used, *repair.parts)
    job.advised.clear()
    turn.add(Repaired(fault, repair.minutes, said[:500]))
    overtaken = overtaken_by(job, fault)
    for given in overtaken:
        set_aside(turn, given)
        turn.add(NoLongerHolds(given.number, given.question, fault))
    if overtaken:
        numbers = ", ".join(str(given.number) for given in overtaken)
        which = f"answers {numbers}" if len(overtaken) > 1 else f"answer {numbers}"
        turn.tell(say.no_longer_counted(which))
    for question in job.cannot:
        if _may_be_told_now(job, question):
            job.can_again("question", question)
    # What this machine could not be brought to, it may come to now.
    moves = {move.id for move in job.base.bench.moves if move.look_instead}
    job.offered_again -= moves
    if moves:  # without names it would be all moves
        job.can_again("move", *moves)
    job.repaired[fault] = None
    job.repaired_at[fault] = job.next_number
    conclude(turn, job.state.narrow(f"repair {fault}", fault, ("absent",)))


def overtaken_by(job: Job, fault: str) -> list[Given]:
    """Answers that described the machine with this fault: those its verdict rests on and those it accounts for.

    Sound ones stay: a part that was good before is good after. Not what passes and yet is a sign of this fault. What
    the machine did at work was the work of all its parts: what was not sound is of then, and where the fault kept
    something from arriving, so is all the rest, for it may have hidden anything behind it.
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
        at_work = job.base.questions[given.question].bench.items() >= AT_WORK
        if shown or (not sound and (given.source in behind or named)) or (at_work and (record.cuts or not sound)):
            overtaken.append(given)
    return overtaken


def _may_be_told_now(job: Job, question: str) -> bool:
    """Whether the fault may have hidden what could not be told: a look at the machine at work, no reason given."""
    return not job.cannot[question] and job.base.questions[question].bench.items() >= AT_WORK


class Repair(Owner):
    drops_typed_ahead = True
    puts_work = True

    def take(self, turn: Turn, line: str) -> None:
        answer_repair(turn, line)

    def put_again(self, job: Job, recorded: Prompt) -> Prompt | None:
        known = recorded.subject in job.base.faults
        return Prompt(recorded.kind, recorded.subject, ("done", "no")) if known else None

    def unattended(self, job: Job, at_hand: Unattended) -> list[str]:
        """Repairs count as done where the file says what holds afterwards; none is tried twice."""
        told = at_hand.answers.after_repair is not None or at_hand.answers.after
        if not told or job.prompt.subject in at_hand.tried:
            return ["no"]
        at_hand.tried.append(job.prompt.subject)
        return ["done"]

    def why(self, job: Job) -> tuple[str, ...]:
        if job.found.get(job.prompt.subject) == OWN_JUDGEMENT:
            return (say.WHY_OWN_JUDGEMENT,)
        return (say.WHY_REPAIR,)

    def how(self, job: Job) -> tuple[str, ...]:
        repair = job.base.faults[job.prompt.subject].repair
        needs = ", ".join((*repair.parts, *repair.consumables))
        return (
            *cautions_again(job, repair.cautions),
            *([say.you_need(needs)] if needs else []),
            *numbered_steps(repair.steps),
            say.WHAT_WAS_DONE,
        )
