"""Moves, cautions, repairs, proofs and the rest of a job's events, in words."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from expert.shop.audit_head import costs_in_words
from expert.shop.sentences import audit as say
from expert.trace.records import (
    CannotMove,
    CautionShown,
    Cleared,
    Closed,
    ComplaintNow,
    Conflict,
    CustomerTold,
    HandedOver,
    HazardOpened,
    HazardReleased,
    Moved,
    MoveOffered,
    NoLongerHolds,
    Noted,
    Paused,
    Proved,
    Record,
    Refused,
    Repaired,
    Resumed,
    Said,
    Sealed,
    SearchEnded,
    Stopped,
    TakenBack,
    Worker,
)
from expert.trade.counting import counted

PASSED = {True: "passed", False: "FAILED", None: "not proved"}


def happened_in_words(record: Record, fault: Callable[[str], str], question: Callable[[str], str]) -> Iterator[str]:
    """The lines for one record; `fault` and `question` give names for ids."""
    yield from _at_the_bench(record, fault, question)
    yield from _in_the_talk(record, fault, question)


def tells_by_itself(record: Record) -> bool:
    """Whether the record is an event of its own in the story; what was typed shows in what came of it."""
    return not isinstance(record, Said) and next(happened_in_words(record, str, str), None) is not None


def _at_the_bench(record: Record, fault: Callable[[str], str], question: Callable[[str], str]) -> Iterator[str]:
    match record:
        case CautionShown(caution=caution, text=text):
            yield f"! {text} [{caution}]"
        case Moved(move=move, state=state, minutes=minutes):
            now = ", ".join(f"{dimension} {value}" for dimension, value in state.items())
            yield say.bench_moved(move, minutes, now)
        case CannotMove(number=number, text=text):
            yield say.could_not_be_done(number, text)
        case MoveOffered(text=text):
            yield say.offered_once_more(text)
        case Stopped(rule=rule, text=text):
            yield f"STOP! {text} [{rule}]"
        case Cleared(by=by):
            yield say.danger_dealt_with_by(by)
        case HazardOpened(hazard=hazard, name=name, forbids=forbids, because=because):
            acts = f"; forbids {', '.join(forbids)}" if forbids else ""
            yield say.danger_stands(name, hazard, acts, ", ".join(because))
        case HazardReleased(hazard=hazard, how=how, by=by):
            yield say.danger_ended(hazard, how) + (f" ({', '.join(by)})" if by else "")
        case Refused(hazard=hazard, act=act, what=what):
            yield say.not_offered(what, hazard, act.replace("_", " "))
        case Worker(name=name, qualified=qualified):
            yield say.at_the_bench(name, "qualified" if qualified else "not qualified")
        case Repaired(fault=mended, minutes=minutes, said=said):
            yield ""
            yield say.repaired(fault(mended), minutes, said)
        case NoLongerHolds(number=number, fault=mended):
            yield say.answer_described_before(number, fault(mended))
        case ComplaintNow(complaint=complaint, standing=standing):
            seen = say.SEEN_AT_THE_BENCH if standing == "raised" else standing
            yield f"Complaint {seen}: {complaint.replace('_', ' ')}"
        case Proved(question=proof, answer=answer, passed=passed):
            yield say.proof(PASSED[passed], question(proof), answer).rstrip()


def _in_the_talk(record: Record, fault: Callable[[str], str], question: Callable[[str], str]) -> Iterator[str]:
    match record:
        case Said(text=text):
            yield f"Typed: {text}"
        case Conflict(fact=fact, answers=answers):
            yield say.contradiction(fact, ", ".join(map(str, answers)))
        case TakenBack(number=number, question=taken):
            yield say.taken_back_answer(number, question(taken))
        case SearchEnded(outcome=outcome, listed=listed):
            yield f"Search ended: {outcome.replace('_', ' ')}"
            yield from (f"  still possible: {fault(name)}" for name in listed)
        case Noted(text=text):
            yield f"Note: {text}"
        case HandedOver(summary=summary):
            yield say.HANDED_OVER
            yield from (f"  {line}" for line in summary.splitlines())
        case CustomerTold(lines=lines):
            yield say.TOLD_TO_CUSTOMER
            yield from (f"  {line}" for line in lines)
        case Paused():
            yield "Paused"
        case Resumed(program=program, rules_digest=digest, rebuilt=True):
            yield say.taken_up_with_todays_rules(program, digest[:12])
        case Resumed(program=program):
            yield say.taken_up(program)
        case Closed(outcome=outcome, minutes=minutes):
            yield ""
            yield say.closed(outcome.replace("_", " "), minutes)
            if record.currency:
                yield f"Costs: {costs_in_words(record)}"
        case Sealed(lines=lines_before):
            yield f"Sealed after {counted(lines_before, 'line')}"
