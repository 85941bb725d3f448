"""Opening a job, keeping it, going on with one, playing one; and what went wrong."""

from __future__ import annotations

# ------------------------------------------------------------ answer checks


def is_a_command(echo: str) -> str:
    return f"{echo} is a command, no answer. Write an answer, or can't tell"


# ------------------------------------------------------------ faults

NOT_YOURS = "The program failed here; that is a fault of the program, not yours."
IS_SAFE = "Nothing that was answered is lost. If a machine is on the bench: switch it off and pull the plug."
JOB_WAITS = "The job waits where it waited: answer otherwise, type can't tell, or pause and go on later."


def line_not_taken(not_yours: str, is_safe: str, go_on: str, kept: str) -> str:
    return f"{not_yours} The line was not taken. {is_safe} {go_on} {kept}"


def particulars_not_kept(what: object, fault: object) -> str:
    return f"The particulars could not be kept: {what}. It was: {fault!r}"


def particulars_kept(file: object) -> str:
    return f"The particulars are kept, to be sent to whoever looks after the program:\n  {file}"


# ------------------------------------------------------------ job list

NO_WHOLE_LINE = "there is no whole line"
SOMEBODY_WHO_TAKES_IT_ON = "somebody who takes it on"

# ------------------------------------------------------------ pinning


def job_not_opened(place: object, what: object) -> str:
    return f"{place} cannot be written: {what}. The job was not opened."


# ------------------------------------------------------------ replay

NOTHING_RECORDED = "a trace begins with 'opened'; nothing was recorded here"


def machine_does_not_fit(problem: object) -> str:
    return f"the machine type of the job does not fit these rules: {problem}"


# ------------------------------------------------------------ result


def ended(told: str, minutes: object, trace: object) -> str:
    return f"{told}, {minutes:g} min. Trace: {trace}"


# ------------------------------------------------------------ session


def only_the_seal_is_missing(problem: object) -> str:
    return f"{problem} Only the seal is missing; it is set when the job is resumed."


# ------------------------------------------------------------ taking up


def recorded_otherwise(path: object, line: int, difference: object, number: str) -> str:
    return (
        f"{path}:{line}:1: the same rules do not give what was recorded: {difference}. Another version of the program "
        "wrote it, or it was changed afterwards. Nothing was written to it. To go on with what this program makes of "
        f"the answers: expert resume --today {number} [job-differs]"
    )


def other_rules_than_at_hand(opened_with: str, at_hand: str) -> str:
    return (
        f"the job was opened with other rules ({opened_with}) than those at hand ({at_hand}); name the rules of that "
        "time with --rules, or see what would change with: expert audit TRACE --rerun"
    )


# ------------------------------------------------------------ unattended


def did_not_end(steps: int) -> str:
    return f"the job did not end within {steps} steps"


def machine_not_in_profile(machine: str) -> str:
    return f"the shop's profile does not list the machine type {machine}"


def by_the_clock(minutes: float) -> str:
    return f"By the clock: {minutes:.0f} min, pauses left out."
