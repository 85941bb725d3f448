"""What is told of a record."""

from __future__ import annotations

# ------------------------------------------------------------ records

OWN_JUDGEMENT = "Repaired on the technician's own judgement."
HANDED_OVER = "To be handed over: what is left needs live work by a qualified person, or a danger ended first."
LEAD_OWN_JUDGEMENT = "YOUR OWN JUDGEMENT, NOT FOUND BY THE RULES"
LEAD_BY_ELIMINATION = "LEFT BY ELIMINATION"
LEFT_BY_ELIMINATION = "Left by elimination."
NARROWED = "Narrowed, not found."
LOCAL_CODES = "Local electrical and pressure codes and licensed practice come first."


def do_not(acts: str, until: str) -> str:
    return f"  Do not {acts}. It ends when: {until}"


def still_forbidden(until: str) -> str:
    return f"  The same is forbidden. It ends when: {until}"


def danger_over(hazard: str) -> str:
    return f"Danger over: {hazard}."


def danger(hazard: str) -> str:
    return f"! Danger: {hazard}."


def taken_back(number: int) -> str:
    return f"Answer {number} is taken back."


def left_open(number: int) -> str:
    return f"Left open. Later: take back {number}"


CANNOT_BE_DONE = "Noted: that cannot be done now. Looking for another way."


def nothing_else_to_do(move: str) -> str:
    return f"Nothing else is left to do. You said that this cannot be done: {move}"


OFFERED_ONCE_MORE = "It is offered once more. If it cannot be done: can't"


def repair_noted(fault: str) -> str:
    return f"Repaired: {fault}."


def complaint_raised(complaint: str) -> str:
    return f"Seen at the bench: {complaint}."


def complaint_gone(complaint: str) -> str:
    return f"Seen to be gone: {complaint}."


def complaint_withdrawn(complaint: str) -> str:
    return f"Not seen after all: {complaint}."


COMPLAINT_NOW = {"raised": complaint_raised, "gone": complaint_gone, "withdrawn": complaint_withdrawn}


HANDED_OVER = "Handed over, not closed: it stays open until somebody closes it. To take it on:"
WHERE_IT_STANDS = "Where the job stands:"
FOR_THE_CUSTOMER = "For the customer:"
PAUSED = "Paused. Nothing is lost. Go on with:"


def closed(job: str, outcome: str, minutes: float) -> str:
    return f"Job {job} is closed: {outcome}, {minutes:g} min."


def number_wanted(unit: str, may_be_open: bool, instrument: str) -> str:
    return f"  (a number in {unit}{', or OL' if may_be_open else ''}; {instrument})"


def number_wanted_in_short(unit: str, may_be_open: bool, instrument: str) -> str:
    return f"  ({unit}{' or OL' if may_be_open else ''}; {instrument})"


def last_reading(answer: str) -> str:
    return f"  Last reading: {answer}"


def how(text: str) -> str:
    return f"How: {text}"


def how_begins(first: str) -> str:
    return f"How: {first} ... (more: how)"


def how_goes_on(first: str) -> str:
    return f"How: {first} ..."


def how_again(warnings: str) -> str:
    return f"How, as before: {warnings} ..." if warnings else ""


PROVED = "Proved."
DECIDING_READING = "Once more, before it is named:"
