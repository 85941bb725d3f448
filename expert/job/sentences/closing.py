"""Handing over, the bill, the ending."""

from __future__ import annotations

# ------------------------------------------------------------ closing

AS_SOON_AS_SAFE = "It is handed over as soon as the machine is safe."


def not_like_this(hazard: str, bench: str) -> str:
    return (
        f"Not like this: there may be {hazard}, and the machine stands with {bench}. Take the next "
        "step first, then pause."
    )


def not_safe_to_leave(bench: str) -> str:
    return f"! The machine is not safe to leave: {bench}. Unplug it and keep the plug in sight."


def bench(state: str) -> str:
    return f"Bench: {state}"


def found(fault: str) -> str:
    return f"Found: {fault}"


def danger(text: str) -> str:
    return f"Danger: {text}"


def danger_until(hazard: str, until: str) -> str:
    return f"Danger: {hazard}. It ends when: {until}"


def still_possible(fault: str) -> str:
    return f"Still possible: {fault}"


def still_to_be_proved(question: str) -> str:
    return f"Still to be proved: {question}"


def not_answered(question: str, why: str) -> str:
    return f"Not answered: {question} {why}"


def could_not_be_done(move: str) -> str:
    return f"Could not be done: {move}"


# ------------------------------------------------------------ bill


def still_open(complaints: str) -> str:
    return f"Still open, not seen to be gone: {complaints}."


SEEN_AT_THE_BENCH = " (seen at the bench)"
WHY_PARTS = "The record says which parts were used. The bill rests on it."


def parts_used(planned: str) -> str:
    return f"Parts used: {planned}. (ok, or the list as it was)"


def names_no_part(typed: str) -> str:
    return f"{typed} names no part. Type ok, none, or the parts, separated by commas."


WHY_MINUTES = "The record says how long the job took. The bill rests on it."


def minutes_spent(minutes: float) -> str:
    return f"Minutes spent: about {minutes:.0f} by the book. (ok, or the real number)"


def no_number_of_minutes(typed: str) -> str:
    return f"{typed} is no number of minutes. Type one such as 45, or ok."


WHY_NOTE = "What the record does not say otherwise, the next person will not know."
WITH_THAT_HANDED_OVER = "With that the job is handed over, and stays open."


def anything_to_note(what_follows: str) -> str:
    return f"Anything the next person should know? (no, or type it)\n{what_follows} Not so: back"


def with_that_closed(ending: str) -> str:
    return f"With that the job is closed for good: {ending}."


def no_remark(typed: str) -> str:
    return f"{typed} is no remark. Type it in a few more words, or no."


# ------------------------------------------------------------ ending

ENDED_REPAIRED = "repaired and proved"
ENDED_NOT_FULLY_PROVED = "repaired, not fully proved: do not hand out before it is"
ENDED_NORMAL = "no fault: normal behaviour"
ENDED_NORMAL_NOT_SHOWN_SAFE = "no fault: normal behaviour; not shown safe: do not hand out before it is"
ENDED_UNREPAIRED = "returned unrepaired"
ENDED_BEYOND_REPAIR = "beyond repair"
ENDED_HANDED_OVER = "handed over"
ENDED_STOPPED = "stopped for danger: not to be used"
WHY_ENDING = "The record and the customer's summary say how the job ended."
HOW_DOES_IT_END = "How does the job end? Type the number."


def danger_still(hazard: str, until: str) -> str:
    return f"! Danger: {hazard}. It ends when: {until}"


def no_number_of_an_ending(typed: str, count: int) -> str:
    return f"{typed} is no answer here. Type a number from 1 to {count}."
