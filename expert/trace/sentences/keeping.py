"""Why a step was not recorded, a job not opened, a trace not read."""

from __future__ import annotations

# ------------------------------------------------------------ meddling

STEP_NOT_RECORDED_HERE = "this step was not recorded"


def changed_by_another(path: object, not_recorded: str) -> str:
    return f"{path} was changed by another program; {not_recorded}"


def replaced_by_another(path: object, not_recorded: str, kept: object) -> str:
    return (
        f"{path} was replaced by another file while the job was open; {not_recorded}. All that was recorded until now "
        f"is in {kept}: give it its name back, and send the line again"
    )


def renamed(path: object, name: str, not_recorded: str) -> str:
    return (
        f"{path} was renamed to {name} while the job was open; {not_recorded}. Give it its name back, and send the "
        "line again"
    )


def moved_away(path: object, not_recorded: str) -> str:
    return f"{path} was moved away while the job was open; {not_recorded}. Put it back, and send the line again"


def deleted(path: object, not_recorded: str) -> str:
    return (
        f"{path} was deleted while the job was open; {not_recorded}. All that was recorded until now has been put "
        "back there: send the line again"
    )


# ------------------------------------------------------------ places

WHAT_A_NUMBER_MAY_HOLD = (
    "letters a to z, digits, '-', '.' and '_' will do, 1 to 40 of them, the first a letter or a digit"
)


def is_no_job_number(shown: str, what_would_do: str) -> str:
    return f"{shown!a} is not a job number: {what_would_do}"


def name_of_a_device(number: str) -> str:
    return f"{number!a} is not a job number: some systems keep that name for a device; add a digit"


def cannot_be_read(path: object, why: object) -> str:
    return f"{path} cannot be read: {why}"


# ------------------------------------------------------------ reading


def is_no_file(path: object) -> str:
    return f"{path} is not a file: a trace is one"


def file_too_long(path: object, length: int, longest: int) -> str:
    return f"{path} has {length:,} bytes; a trace has at most {longest:,}"


NOT_JSON = "the line is not JSON"


def line_too_long(path: object, number: int, longest: int) -> str:
    return f"{path}:{number}:1: the line is over {longest:,} bytes"


# ------------------------------------------------------------ register

STEP_NOT_RECORDED = "This step was not recorded."


def cannot_be_written(path: object, why: object, consequence: str) -> str:
    return f"{path} cannot be written: {why}. {consequence}"


def held_by_another(path: object, not_recorded: str) -> str:
    return f"{path} is held by another program. {not_recorded}"


# ------------------------------------------------------------ storage

JOB_NOT_OPENED = "The job was not opened."


def there_already(path: object) -> str:
    return f"{path} is there already: resume that job, or take another number"


JOB_NOT_TAKEN_UP = "The job was not taken up again."


def in_doubt(path: object) -> str:
    return f"{path} is in doubt after an earlier error: leave the job and resume it"


def would_grow_over(path: object, longest: int) -> str:
    return f"{path} would grow over {longest:,} bytes; nothing was recorded"


def in_use(path: object) -> str:
    return f"{path} is in use: another terminal is working on this job"


# ------------------------------------------------------------ writing


def was_there_and_is_gone(path: object) -> str:
    return f"{path} was there by the register of its folder, and is gone: take another number"


def not_there(path: object) -> str:
    return f"{path} is not there: there is no such job to go on with"


def is_sealed(path: object) -> str:
    return f"{path} is sealed: the job is closed, and nothing can be added to it"


SEAL_BY_SEAL = "a seal is written by seal(), which knows what it holds"
