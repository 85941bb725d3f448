"""What the terminal says, in sentences: reworded or translated here, and nowhere else."""

from __future__ import annotations

# ------------------------------------------------------------ beside


def job_and_phases(number: str, phases: str) -> str:
    return f"Job {number} | {phases}"


def minutes_so_far(by_the_book: float, by_the_clock: float) -> str:
    return f"{by_the_book:.0f} min by the book, {by_the_clock:.0f} by the clock"


# ------------------------------------------------------------ chat


def job_begins(number: str) -> str:
    return f"Job {number}. Type help to see what can be typed at any time.\n\n"


# ------------------------------------------------------------ demo


def holds_no_demo_job(folder: object) -> str:
    return f"{folder} holds no demo job"


def did_you_mean(near: str) -> str:
    return f"did you mean {near}?"


def is_no_demo_job(name: str, hint: str) -> str:
    return f"{name!a} is no demo job; {hint}"


def demo_job(name: str, complaints: str, ending: str) -> str:
    return f"{name}: {complaints}. Ends: {ending}."


SAVED_WITH_OTHER_RULES = "This job was saved with other rules. It is played with the rules of today.\n"


def demo_begins(job: str) -> str:
    return f"Demo job {job}. Nothing needs to be typed. Ctrl-C ends it.\n\n"


USAGE_OF_DEMO = "usage: python -m expert.terminal.demo --write FOLDER [RULES]"

# ------------------------------------------------------------ demo headings


def phase_heading(index: int, count: int, phase: str) -> str:
    return f"--- {index} of {count}: {phase} ---"


def machine_stands_safe(state: str) -> str:
    return f"The machine stands safe: {state}."


# ------------------------------------------------------------ keyboard


def lines_are_not_kept(file: object, what: object) -> str:
    return f"Typed lines are not kept for the next job: {file}: {what}"


# ------------------------------------------------------------ out

READER_LEFT = "Whoever read the output went away: the rest is not shown."


def reader_left_2(go_on: str) -> str:
    return f"Whoever read the output went away. {go_on}"


def output_fails(what: object, go_on: str) -> str:
    return f"The output cannot be written: {what}. {go_on}"


def cannot_be_written(what: object) -> str:
    return f"the output cannot be written: {what}"


# ------------------------------------------------------------ plain lines

THE_LINES_HAVE_ENDED = "The lines have ended."


def go_on_with(command: str) -> str:
    return f"Nothing is lost. Go on with:\n  {command}"


# ------------------------------------------------------------ prompt

NOTHING_IS_LOST = "Nothing is lost: every answer is on the disk. To leave, type pause, or press Ctrl-C once more."
ENTER_GOES_FASTER = "Played at reading pace. Enter: without pauses."
ENTER_SHOWS_THE_REST = "-- Enter shows the rest -- "
NOTHING_ELSE_HAS_CHANGED = "Nothing else has changed. Put it right, then press Enter to send the line again."
INTERRUPTED = "Interrupted before the line was recorded. Press Enter to send it again."

# ------------------------------------------------------------ resuming

RULES_WERE_EDITED = "The rules were edited since this job was opened"
RULES_OF_THAT_TIME = "The job goes on with the rules of that time."
HOW_TO_TODAY = "To go on with today's instead: {command}"
ANSWERS_ARE_KEPT = "What was answered and done is kept."


def holds_no_answer(path: object, number: str) -> str:
    return f"{path} holds no answer yet. Open the job again with: expert bench --job {number}"


def reads_differently(places: str) -> str:
    return f"This job would read differently now in {places}; nothing is decided otherwise."


def files_changed(edited: str, changed: str) -> str:
    return f"{edited}. Files changed: {changed}."


THAT_TIME_OR_TODAY = "Go on with the rules of that time (Enter), or with today's (type today)? "


def not_kept_and_goes_on(edited: str) -> str:
    return f"{edited}, and those of that time were not kept. Today's decide nothing otherwise so far: it goes on."


def not_kept(edited: str) -> str:
    return f"{edited}, and those of that time were not kept."


ANOTHER_PROGRAM = "This program is another than the one that wrote the job."


def go_on_all_the_same(kept: str) -> str:
    return f"{kept} Go on all the same (type yes), or leave it (Enter)? "


NOTHING_WAS_CHANGED = (
    "Nothing was changed. Name the rules of that time with --rules, or go on all the same with --today."
)
NOTHING_OTHERWISE_SO_FAR = "Today's rules decide nothing otherwise so far."


def goes_on_with_todays_rules(kept: str) -> str:
    return f"{kept} The job goes on with today's rules."


def no_longer_found(fault: str) -> str:
    return f"No longer found: {fault}."


def decided_otherwise(places: str) -> str:
    return f"Decided otherwise now, in {places}:"


# ------------------------------------------------------------ typed ahead

TYPED_AHEAD_IS_DROPPED = "What was typed before this stood on the screen is dropped. Read it, then type."
