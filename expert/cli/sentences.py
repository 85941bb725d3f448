"""What the commands say, in sentences: reworded or translated here. The help of a command stands with the command."""

from __future__ import annotations

# ------------------------------------------------------------ bench

JSON_GOES_WITH_ANSWERS = "--json goes with --answers FILE"


def invented_jobs(jobs: int, folder: object, where: str) -> str:
    return f"{jobs} invented jobs in {folder}. Look at them with:\n  expert shop {where}\n  expert report {where}"


def no_job_is_open(folder: object) -> str:
    return f"No job is open in {folder}. Open one with: expert bench"


WHICH_ONE_BEHIND_RESUME = "Which one? Type its number behind: expert resume"
WHICH_JOB = "Which job? Type its number, or nothing to leave: "


def no_job_is_open_2(folder: object) -> str:
    return f"No job is open in {folder}."


def and_more_open(more: str) -> str:
    return f"... and {more} more, touched earlier: expert jobs --all"


DEMO_STOPPED = "\nThe demo was stopped."

# ------------------------------------------------------------ edge

NOWHERE_TO_WRITE = "There is nowhere to write to: standard output is closed."

# ------------------------------------------------------------ knowing


def nothing_is_about(words: str) -> str:
    return f"Nothing in the rules is about {words}."


NAME_ONE_ID = "name one id, such as: expert explain element_resistance. Or: expert explain --all WORDS"


def schemas_written(count: int, folder: object) -> str:
    return f"{count} schemas are in {folder}. The manual says how an editor is told of them."


def name_a_sort_of_file(schemas: str) -> str:
    return f"name a sort of file: {schemas}. Or: expert schema --write FOLDER"


# ------------------------------------------------------------ rules


def case_and_its_questions(case: str, minutes: float, questions: str) -> str:
    return f"{case}: {minutes:g} min: {questions}"


def run_is_not_remembered(problem: object) -> str:
    return f"This run is not remembered for --changed: {problem}"


def not_touched(count: int) -> str:
    return f", {count} not touched"


def cases_counted(cases: str, right: int, wrong: int) -> str:
    return f"{cases}, {right} as expected, {wrong} not"


def changed_cases_counted(cases: str, left: str, right: int, wrong: int) -> str:
    return f"{cases}{left}, {right} as expected, {wrong} not"


# ------------------------------------------------------------ shared


def rules_are_not_used(problems: str) -> str:
    return f"{problems}: the rules are not used"


# ------------------------------------------------------------ shop

SLIP_GOES_WITH_A_JOB = "--slip goes with a job: expert report 0007 --slip"


def mend_or_move_away(file: object) -> str:
    return f"Mend {file} or move it away, then set up again."


NOTHING_WAS_WRITTEN = "The lines have ended. Nothing was written."
WHICH_JOB_BEHIND_REVIEW = "Which job? Type its number behind: expert review"


def copied_without_names(traces: str, folder: object) -> str:
    return f"{traces} in {folder}, without notes and names. Read them before you pass them on."


def nothing_speaks_against(jobs: str) -> str:
    return f"{jobs} counted: nothing speaks against what the rules say."


def seen_how_often(fault: str, now: str, jobs: str, proposed: str) -> str:
    return f"{fault}: {now} in the rules, seen {jobs}: {proposed}"
