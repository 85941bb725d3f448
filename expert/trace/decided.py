"""What of a record was decided, and what was only shown: wording and weights change with the program, decisions do not.

Decided are answers, narrowing, findings, bench moves, cautions, what was asked, what was done. Shown are sentences,
weights, ranks and minutes by the book. A job goes on when what was decided comes out again.
"""

from __future__ import annotations

from collections.abc import Hashable, Iterable, Mapping

from expert.trace.records import (
    Answered,
    CannotMove,
    CannotTell,
    CautionShown,
    Cleared,
    Closed,
    ComplaintNow,
    Conflict,
    CustomerTold,
    Fired,
    Found,
    HandedOver,
    HazardOpened,
    HazardReleased,
    Moved,
    MoveOffered,
    Narrowed,
    NoLongerHolds,
    Noted,
    Opened,
    Paused,
    PromptPut,
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
    TakenIn,
    Told,
    Unfired,
    Worker,
)

SHOWN_ONLY: tuple[type[Record], ...] = (Told, HandedOver, CustomerTold, Resumed, Sealed, Opened)
# Kinds that older programs did not write, each with the kind that every whole trace has since they are written.
ADDED_LATER: Mapping[type[Record], type[Record]] = {
    TakenIn: TakenIn,
    Worker: Worker,
    HazardOpened: Worker,
    HazardReleased: Worker,
    Refused: Worker,
}


def added_since(records: Iterable[Record]) -> tuple[type[Record], ...]:
    """The kinds that the program which wrote these records did not know: that there are none decides nothing."""
    there = {type(record) for record in records}
    return tuple(kind for kind, since in ADDED_LATER.items() if since not in there)


def decided(record: Record) -> Hashable:
    """What the record says that was decided; None when it was shown only.

    >>> decided(Told("Set up the next test.")), decided(TakenBack(4, "fill_coil"))
    (None, (4, 'fill_coil'))
    """
    if isinstance(record, SHOWN_ONLY):
        return None
    for part in (_of_the_talk, _of_the_rules, _of_the_bench, _of_the_hazards, _of_the_end):
        if (found := part(record)) is not None:
            return found
    return None


def _of_the_talk(record: Record) -> Hashable:
    match record:
        case Said(text=text) | Noted(text=text):
            return (text,)
        case PromptPut(prompt=prompt, question=question):
            return (prompt, question)
        case Answered():
            return (record.number, record.question, record.text, record.outcomes, record.reading, record.instrument)
        case CannotTell(question=question, number=number):
            return (question, number)
        case TakenBack(number=number, question=question):
            return (number, question)
        case TakenIn():
            intake = (record.technician, record.machine_key, record.plate, record.complaint_keys, record.qualified)
            return intake
        case Paused():
            return ("paused",)
    return None


def _of_the_rules(record: Record) -> Hashable:
    match record:
        case Fired(rule=rule) | Unfired(rule=rule):
            return (rule,)
        case Narrowed(fact=fact, before=before, after=after):
            return (fact, before, after)
        case Conflict(fact=fact, answers=answers):
            return (fact, answers)
        case Found(fault=fault, standing=standing):
            return (fault, standing)
        case SearchEnded(outcome=outcome):
            return (outcome,)
        case Stopped(rule=rule):
            return (rule,)
    return None


def _of_the_bench(record: Record) -> Hashable:
    match record:
        case Moved(move=move, state=state):
            return (move, frozenset(state.items()))
        case CannotMove(number=number, move=move):
            return (number, move)
        case MoveOffered(move=move):
            return (move,)
        case CautionShown(caution=caution):
            return (caution,)
    return None


def _of_the_hazards(record: Record) -> Hashable:
    match record:
        case HazardOpened(hazard=hazard):
            return (hazard,)
        case HazardReleased(hazard=hazard, how=how):
            return (hazard, how)
        case Refused(hazard=hazard, act=act, what=what):
            return (hazard, act, what)
        case Worker(name=name, qualified=qualified):
            return (name, qualified)
    return None


def _of_the_end(record: Record) -> Hashable:
    match record:
        case Cleared(by=by):
            return (by,)
        case Repaired(fault=fault, said=said):
            return (fault, said)
        case NoLongerHolds(number=number, question=question):
            return (number, question)
        case Proved(question=question, passed=passed):
            return (question, passed)
        case ComplaintNow(complaint=complaint, standing=standing):
            return (complaint, standing)
        case Closed(outcome=outcome, parts=parts, note=note):
            return (outcome, parts, note)
    return None
