"""Bringing the bench into a state, taking a job up again, dangers, what is tested after opening."""

from __future__ import annotations

# ------------------------------------------------------------ as left

NUMBER_OR_NAME = "Type your number or name."
NAME = "Type your name."


def who_is_there_now(how: str) -> str:
    return f"Who is at the bench now? {how}"


NAME_NEEDED = "A name is needed for the record. Type your name or your initials."


def still_as_it_was(stands: str) -> str:
    return f"Look before you touch anything. Is the machine still as it was: {stands}? (yes / no)"


def not_whether_it_stands_so(typed: str) -> str:
    return f"{typed} is no answer here. Type yes if it stands so, no if it does not."


def how_does_it_stand(dimension: str, states: str) -> str:
    return f"How does it stand now: {dimension} {states}? Type the number."


THE_REST_IS_UNSAFE = "Everything else counts as unsafe until it is made safe, step by step."


def no_number_of_a_state(typed: str, count: int) -> str:
    return f"{typed} is no answer here. Type a number from 1 to {count}."


WHY_WHO_IS_THERE_NOW = (
    "Live work is put only to whoever is qualified and here now, and cautions are read by whoever works."
)
WHY_STILL_AS_IT_WAS = "Somebody may have plugged the machine in, or out, since the job was left."


# ------------------------------------------------------------ danger

STOPPED = (
    "Work has stopped. When a responsible person has dealt with the danger, type: dealt with by NAME. Or: hand over"
)
DEALT_WITH_IS_RECORDED = "That is recorded, and ends no danger. The work goes on with dead tests."
COULD_NOT_BE_MADE_SAFE = (
    "The machine could not be made safe. Leave it, keep everybody away, switch off at the breaker. "
    "When a responsible person has made it safe, type: dealt with by NAME. Or: hand over"
)


def danger_ends_when(until: str) -> str:
    return f"It ends when: {until}"


def does_not_lift_the_stop(typed: str) -> str:
    return f"{typed} does not lift the stop. Type: dealt with by NAME. Or: hand over"


def nobodys_name(typed: str) -> str:
    return f"{typed} is nobody's name. Type: dealt with by, and the name of who answers for it."


NOT_BY_WHOEVER_WORKS = "Whoever works at the bench cannot lift the stop. Somebody else must answer for it by name."
WHY_STOPPED = "A danger was found. Nothing else is asked until a responsible person has dealt with it."


# ------------------------------------------------------------ move

NOTHING_ELSE_FIRST = "Nothing else comes before this. Type {word} when it is done, or can't if it cannot be done."
WHY_MOVES_ARE_CONFIRMED = "You confirm each move, so that nobody works on a live or hot machine by mistake."


def does_not_confirm(typed: str, word: str) -> str:
    return f"{typed} does not confirm it. Type {word} when it is so, or no if it cannot be done."


DANGER_THEREFORE_SAFE = "A danger was found. The machine is made safe before anything else."
SAFE_BEFORE_THE_SEARCH = "The machine is made safe before the search begins."


def the_next_test_is(question: str) -> str:
    return f" It is: {question}"


def next_test_needs_the_bench(which: str) -> str:
    return f"The next test needs the bench in another state.{which}"


REPAIR_NEEDS_THE_BENCH = "The repair needs the bench in another state."
PROOF_NEEDS_THE_BENCH = "The next proof needs the bench in another state."
LEFT_IN_A_SAFE_STATE = "The machine is left in a safe state."


# ------------------------------------------------------------ moves


def comes_first_because(hazard: str) -> str:
    return f"First, because of {hazard}:"


SET_UP_THE_NEXT_TEST = "Set up the next test."


def is_it_set_up(word: str) -> str:
    return f"Is that done? ({word} / no)"


def still_to_be_looked_at(question: str) -> str:
    return f"! Still to be looked at: {question} Do not go on before somebody has. If nobody can: can't"


LOOK_WHY_NOT = "A machine that does not come to it shows by that what is wrong with it. That is looked at first."


def next_comes(move: str) -> str:
    return f"Next comes: {move} This has to be known first."


def move_with_minutes(move: str, minutes: float) -> str:
    return f"{move} ({minutes:g} min)"


def move_as_before(move: str, minutes: float) -> str:
    return f"{move} ({minutes:g} min, as before: how)"


def type_the_word(word: str) -> str:
    return f"{word} / no"


# ------------------------------------------------------------ setting up

IS_THAT_DONE = "Is that done?"
COULD_NOT_BE_SET_UP = "it could not be set up"


# ------------------------------------------------------------ after opening

WAS_OPEN = "The machine was open. Before it goes back, its safety is tested, whether anything was repaired or not."
EVERY_SAFETY_DEVICE = "Before it goes back, every safety device is looked at, whatever the complaint was."
OPENED_AND_NOT_SHOWN_SAFE = "The machine was opened, and was not shown to be safe after that."
NOT_SHOWN_SAFE = "Not shown to be safe."


def to_be_tested_before_use(why: str, questions: str) -> str:
    return f"{why} To be tested before it is used: {questions}"


# ------------------------------------------------------------ something happened

HAPPENED_FIRST = (
    "! Plug out now, or the breaker off, if you reach it without danger. If not: keep away, and keep others away. "
    "Nobody touches the machine before."
)
HAPPENED_BEFORE_THE_BENCH = (
    "Plug out, or the breaker off, and keep away. How the machine stands is not settled yet: answer that first, "
    "then type danger."
)
WHY_HAPPENED = "What happened forbids things by itself, and says which dead tests come next."


def what_happened(ask: str) -> str:
    return f"{ask} Type the number; no if nothing did."


def happened_choice(number: int, label: str) -> str:
    return f"  {number}  {label}"


def if_it_happened(outcome: str, message: str) -> str:
    return f"If that has just happened: plug out, and type danger {outcome}. {message}"
