"""What a practice says, in sentences: reworded or translated here, and nowhere else."""

from __future__ import annotations

# ------------------------------------------------------------ choosing


def bench_move(move: str, minutes: float) -> str:
    return f"Bench: {move} ({minutes:g} min)"


def only_for_the_qualified(line: str) -> str:
    return f"{line} - live work: only for those who are qualified"


def first_wanted(line: str, wanting: str) -> str:
    return f"{line} - first: {wanting}"


def moves_from_here(state_in_words: str, minutes: float) -> str:
    return f"It stands so: {state_in_words}. {minutes:g} min so far. Moves from here:"


def tests_that_can_be_made(state_in_words: str) -> str:
    return f"As the machine stands ({state_in_words}) these tests can be made:"


# ------------------------------------------------------------ ending


def unsafe_attempts(refused: str) -> str:
    return f"Unsafe attempts, refused: {refused}."


EXPERTS_WAY_TO_HERE = "The expert's way, not to the end:"


def points(score: int, full: int) -> str:
    return f"Points: {score} of {full}."


def it_was(name: str, named: str) -> str:
    return f"It was: {name} ({named})."


# ------------------------------------------------------------ invented


def holds_jobs_already(folder: object) -> str:
    return f"{folder} holds jobs already: a season is made in a folder of its own"


# ------------------------------------------------------------ moving


def not_as_it_stands(wanted: str) -> str:
    return f"Not as the machine stands. This needs: {wanted}. Type: bench"


WILL_NOT_WORK = "After what was seen and read so far, this will not work on this machine."


def confirm_by(question: str, word: str) -> str:
    return f"{question} (type {word}, or no)"


LIVE_WORK = "Mains on with the covers off is live work: for the qualified only, and never half prepared."
UNDER_PRESSURE = "Nobody opens a machine that may be under pressure. Let the pressure out first."
NOT_PUT_TOGETHER = "Nobody switches on a machine that is not put together for it."


def forbidden(act: str, danger: str, until: str) -> str:
    return f"It is forbidden to {act}, because of {danger}. It ends when: {until}"


def not_cold(degrees: float) -> str:
    return f"The thermometer says {degrees:.0f} degC: the boiler is not cold."


def done(state_in_words: str) -> str:
    return f"Done. It stands so: {state_in_words}."


def hot(state_in_words: str) -> str:
    return f"It is hot. It stands so: {state_in_words}."


NEVER_HOT = "It does not come up to heat, however long you wait."

# ------------------------------------------------------------ naming


def you_name(fault_name: str) -> str:
    return f"You name: {fault_name}. It is repaired then. Sure? (yes / no)"


def named_before(called: str) -> str:
    return f"You named that before: {called}."


def put_right(called: str) -> str:
    return f"Put right: {called}. But something else brought it about, and that is still there."


def not_that_and_near(called: str) -> str:
    return f"Not that, and near: this part did not fail so. ({called})"


def minutes_for_nothing(minutes: float) -> str:
    return f"{minutes:g} min at the bench for nothing."


def sound_part_repaired(called: str, minutes: str) -> str:
    return f"Repaired and tried: as before. That part was sound: {called}. {minutes}"


def right_and_not_all(called: str) -> str:
    return f"RIGHT: {called}. It is repaired, and the machine is still not as it should be."


# ------------------------------------------------------------ opening


def what_a_plate_is(plates: str, sensors: str) -> str:
    return f"volts and hertz ({plates}), and behind it the sensor, if it matters ({sensors})"


def no_machine_to_practise_on(echo: str, there: str) -> str:
    return f"{echo} is no machine to practise on; name {there}"


def above_the_sea(altitude: float) -> str:
    return f", {altitude:g} m above the sea"


def begins(level: str, about: str, seed: int) -> str:
    return f"PRACTICE on a simulated machine: level {level} ({about}), seed {seed}."


def plate(volts: float, hertz: float, watts: float, sensor: str, place: str) -> str:
    return f"Plate: {volts:g} V, {hertz:g} Hz, {watts:g} W; sensor {sensor}{place}."


def customer_says(told: str) -> str:
    return f"The customer says: {told}."


def stands_and_you_are(state: str, negation: str) -> str:
    return f"It stands so: {state}. You are {negation}qualified for live work."


def find(counted: str) -> str:
    return f"Find {counted}. Type what you want to test, in a few words, or: help"


# ------------------------------------------------------------ practice


def a_danger(name: str, acts: str, until: str) -> str:
    return f"! A danger: {name}. Do not {acts}. It ends when: {until}"


def no_longer_a_danger(name: str) -> str:
    return f"No longer a danger: {name}."


# ------------------------------------------------------------ scenario


def no_such_machine(level: str, seed: int) -> str:
    return f"no machine of level {level!r} and seed {seed} does what was asked for; try another seed"


# ------------------------------------------------------------ score


def minutes_run_forwards(before: float, after: float) -> str:
    return f"minutes run forwards only; {before:g} and {after:g} were given"


# ------------------------------------------------------------ stepping

HELP_WORDS = "Type a few words for what you want to test or do: boiler gauge, fill coil, covers off. A number chooses."
HELP_TESTS = "tests: what can be tested as the machine stands. bench: how it stands, and the moves from there."
HELP_READ = "read: what you have seen so far. hint: what the expert would do next; it costs points."


def help_naming(it_is: str, give_up: str) -> str:
    return f"{it_is} ...: name part and failure, such as: {it_is} pump worn. {give_up}: end it."


PRACTICE_IS_OVER = "This practice is over."
NOTHING_LISTED = "nothing is listed now"


def chooses_nothing(echo: str, upto: str) -> str:
    return f"{echo} chooses nothing: {upto}. Type help to see what can be typed."


def no_test_and_no_move(echo: str) -> str:
    return f"No test and no move has the words {echo}. Other words, or: tests, bench, help"


WHICH = "Which? Type its number."


def no_part_and_failure(it_is: str) -> str:
    return f"No part and failure has these words. Type: {it_is}, and what, such as: {it_is} pump worn"


WHICH_OF_THESE = "Which of these? Type its number."
SURE_TO_END = "It ends here, and you are told what it was. Sure? (yes / no)"
A_WORD_IS_WAITED_FOR = "A word is waited for: see the last question. no leaves it."


def so_far(counted: str, minutes: float) -> str:
    return f"{counted}, {minutes:g} min so far. The customer says: "


NO_SUSPECTS_SHOWN = "The suspects are yours to think of: a practice does not show them. A hint costs points."


def would_look_here(ask: str) -> str:
    return f"The expert would look here next: {ask}"


def would_do_this(moves: str) -> str:
    return f"The expert would do this next: {moves}"


def for_this_test(ask: str) -> str:
    return f" It is for this test: {ask}"


EXPERT_STOPS = "The expert would stop here: what you have found is dangerous. Name it."
EXPERT_LOOKS_TWICE = "The expert would look twice: two of the things that you have read do not go together."
EXPERT_HAS_NO_TEST_LEFT = "The expert has no test left that would tell more: weigh what you have read."
EXPERT_ASKS_NO_MORE = "The expert would ask no more: what you have read is enough to name it."

# ------------------------------------------------------------ testing

NOTHING_THERE = "The simulated machine has nothing to show here."


def live_without_being_qualified(ask: str) -> str:
    return f"live work without being qualified: {ask}"


LIVE_TEST = "It is done with the mains on and the covers off, by the qualified only."


def bench_does_not_stand(wanting: str) -> str:
    return f"The bench does not stand for this test. First: {wanting}. Type: bench"


NOTHING_TO_BE_LEARNED = "After what was seen and read so far, there is nothing to be learned from this test."
KNOWN_FIRST = "This has to be known first:"
SET_UP_FIRST = "This test is set up first."


def is_that_done(set_up: str) -> str:
    return f"Is that done? (type {set_up}, or no)"


def ready(go: str) -> str:
    return f"Ready? (type {go}, or no)"


def refused(what: str) -> str:
    return f"REFUSED, and counted as unsafe: {what}"


SET_UP = "Set up. Type the same test again once the bench stands for it."


def nothing_to_see(why: str) -> str:
    return f"Nothing can be seen or read: {why}."


NO_LINE = "no line in the table"
NOTHING_FITS = "nothing in the table fits"
