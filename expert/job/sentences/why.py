"""Why a question is asked, what an answer would mean, the suspects."""

from __future__ import annotations

# ------------------------------------------------------------ why

ASKED_AGAIN = "It is asked again because the first answer contradicted others."
IN_NUMBERS = "In numbers: why more"
MAY_SHOW_A_DANGER = "It comes first because it may show a danger."


def heads_the_check_list(fault: str, rule: str, because: str) -> str:
    return f"It comes first because {fault} heads the check list of the rule {rule}: {because}"


def next_best(question: str, cost: str) -> str:
    return f"The next best: {question} It takes {cost}."


def not_explained_yet(complaints: str) -> str:
    return f"Not explained yet: {complaints}."


def tells_about(bits: float, minutes: float) -> str:
    return (
        f"It tells about {bits:.2f} bits in {minutes:g} min, moves of the bench included. (1 bit: "
        "half of the doubt is gone.)"
    )


def next_in_line(question: str, bits: float, minutes: float) -> str:
    return f"Next in line: {question} ({bits:.2f} bits in {minutes:g} min)"


def known_before(question: str) -> str:
    return f"It must be known before the next test: {question}"


WHETHER_NORMAL = "It tells whether this is normal behaviour."


def bears_on_the_last(fault: str) -> str:
    return f"One fault is left, and it bears on that: {fault}."


def bears_on_all(count: int, names: str, more: str) -> str:
    return f"It bears on all {count} faults that are left: {names}{more}."


def tells_from_the_others(left: str, on: int, others: int, names: str, more: str) -> str:
    return f"Of the {left} left it can tell {on} from the other {others}: {names}{more}."


def cost_with_moves(minutes: str, moves: str) -> str:
    return f"{minutes}, these moves included: {moves}"


def cost_as_it_stands(minutes: str) -> str:
    return f"{minutes} as the bench stands"


def takes(cost: str) -> str:
    return f"It takes {cost}."


def and_more(count: int) -> str:
    return f" and {count} more"


# ------------------------------------------------------------ explaining

NO_SUSPECTS_YET = "No suspects before the complaint is known."


def more_suspects(count: int) -> str:
    return f"      and {count} more, none of them likelier"


NO_SUSPECT = "No suspect is open."
PROOF_FAILED = ", but the proof failed"
NOT_PROVED_YET = ", not proved yet"


def if_it_is(outcomes: str) -> str:
    return f"If it is {outcomes}:"


WOULD_CONTRADICT = "  It would contradict earlier answers. They would have to be repeated."
NOTHING_CONCLUDED = "  Nothing could be concluded from it alone."
