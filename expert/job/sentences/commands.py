"""What may be typed at any prompt."""

from __future__ import annotations

from collections.abc import Mapping

# ------------------------------------------------------------ help

HELP_HEAD = "Answer the question (y and n will do, or the number of a choice), or type:"
# Each command word with how it is typed, and what it does.
HELP_ON: Mapping[str, tuple[str, str]] = {
    "why": ("why", "why this is asked"),
    "why more": ("why more", "the same in numbers"),
    "how": ("how", "how to make the test, what a sound machine shows"),
    "can't tell": ("can't tell, or ?", "leave this question; a reason may follow, such as: no meter"),
    "what if": ("what if ANSWER", "what an answer would mean, without giving it"),
    "suspects": ("suspects", "what may be at fault, likeliest first"),
    "answers": ("answers", "all answers so far, numbered"),
    "take back": ("take back N", "take answer N back; alone: what can be taken back"),
    "convinced": ("convinced N", "go on to the repair of suspect N on your own judgement"),
    "note": ("note TEXT", "keep a remark with the job"),
    "figure": ("figure NAME ...", "a calculation of the trade; figure list shows them"),
    "danger": ("danger", "it tripped, smells, leaks, got too hot, gave a shock"),
    "hand over": ("hand over", "end here, with a summary for somebody else"),
    "not qualified": ("not qualified", "from here on no live work is put to you"),
    "pause": ("pause", "leave; expert resume goes on"),
    "help": ("help", "this list"),
}

# ------------------------------------------------------------ words of elsewhere

TO_TAKE_BACK = "To take something back, type: take back"
TO_LEAVE = "To leave the job, type: pause"
TO_SEE_WHAT_CAN_BE_TYPED = "To see what can be typed, type: help"


def no_word_here(typed: str, what_does_it: str) -> str:
    return f"{typed} is no word here. {what_does_it}"


# ------------------------------------------------------------ correcting

INTAKE_TOO = "What was said at intake: take back name, plate, complaints or qualified."
WHICH_TO_TAKE_BACK = "Which one? Type take back and its number."
NO_ANSWER_YET = "There is no answer to take back yet."
STANDS_FIRST_THEN_CORRECT = "How the machine stands comes first. Answer that, then correct what was said at intake."
RESTS_ON_THE_TYPE = "All that was tested rests on the machine type. For another type open another job."
NOT_SAID_YET = "That was not said yet: it is asked in its turn."

# ------------------------------------------------------------ take back


def take_it_back_or_not(typed: str) -> str:
    return f"{typed} is no answer here. Type yes to take it back, no to leave it."


WHY_TAKE_BACK = "What rests on the answer goes with it. A yes takes it back, a no leaves it."


# ------------------------------------------------------------ convinced

HOW_TO_BE_CONVINCED = (
    "Type convinced and the number, such as: convinced 1. It is recorded as your own judgement, "
    "not as found. The proofs after the repair stay."
)
CHOSEN_WHILE_SEARCHED = "The repair is chosen while the fault is searched for, or when the search has ended."
NO_FAULT_SUSPECTED = "No fault is under suspicion."


def none_of_the_suspects(typed: str, count: int) -> str:
    return f"{typed} is none of the numbers 1 to {count}. Type convinced to see them."


def convinced_of(share: float) -> str:
    return f"The technician is convinced; by the rules it weighs {share:.0%} of what is left, and is not found."


# ------------------------------------------------------------ obey

NO_TEST_TO_TRY = "There is no test now, so there is no answer to try out."


def what_if_what(example: str) -> str:
    return f"Type what if and an answer, such as: what if {example}"


WHAT_IF_LEFT = "The question is left, and the search goes on by other tests."
NOTE_WHAT = "Type note and the remark, such as: note lime on the probe"
INTAKE_FIRST = "The intake comes first. Type pause to leave the job."
WHO_WORKS_FIRST = "Who works here is not settled yet. Answer that first."
NO_LIVE_WORK = "Noted. No live work is put to you from here on."
STANDS_FIRST_THEN_PAUSE = "How the machine stands comes first. Answer that, then pause."


# ------------------------------------------------------------ taking back

DANGER_RESTS_ON_IT = (
    "The danger rests on this answer, and whoever works at the bench cannot lift the stop. "
    "When a responsible person has looked at it, type: dealt with by NAME. Then the answer "
    "can be taken back and the test repeated."
)
BENCH_NOT_KNOWN = "Bench: not known yet."


def bench(state: str) -> str:
    return f"Bench: {state}."


NO_ANSWERS = "No answers yet."


def could_not_tell(question: str, reason: str) -> str:
    return f"{question} can't tell {reason}"


def answer_in_list(number: int, answer: str) -> str:
    return f"Answer {number}: {answer}"


ASKED_AGAIN = "  It is asked again when it is needed."
TAKE_IT_BACK = "Take it back? Type yes or no."


def danger_until_answered_anew(hazard: str) -> str:
    return f"  A danger rests on it, and stands until it is answered anew: {hazard}."


NOTHING_ELSE_RESTS = "  Nothing else rests on it."


def and_more(count: int) -> str:
    return f"  and {count} more"


STANDS_FIRST_THEN_TAKE_BACK = "How the machine stands comes first. Answer that, then take the answer back."
NOTHING_TO_TAKE_BACK = "There is nothing to take back yet."
NO_ANSWER_TO_TAKE_BACK = "There is no answer to take back."


def answers_that_hold(numbers: str) -> str:
    return f"Answers that hold: {numbers}. Type answers to see them."


def holds_no_longer(number: str, there: str) -> str:
    return f"Answer {number} no longer holds. {there}"


def no_such_answer(typed: str, there: str) -> str:
    return f"There is no answer {typed}. {there}"


# ------------------------------------------------------------ taking back


def no_longer(found: bool, fault: str) -> str:
    return f"  no longer {'found' if found else 'cleared'}: {fault}"
