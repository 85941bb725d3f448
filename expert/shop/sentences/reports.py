"""Reports, slips and copies."""

from __future__ import annotations

# ------------------------------------------------------------ redacting


def there_already(target: object) -> str:
    return f"{target} is there already: name a folder of its own"


NOTHING_IN_IT = "there is nothing in it"

# ------------------------------------------------------------ circuit view


def faults_cleared(cleared: int, faults: int, by: str) -> str:
    return f"{cleared} of {faults} faults cleared{by}"


OWN_JUDGEMENT = "THE TECHNICIAN'S OWN JUDGEMENT"

# ------------------------------------------------------------ job view

RULES_MISSING = "The rules of this job are not at hand, so its circuits and readings are not drawn."
RULES_DIFFER = "This job does not come out the same with the program and rules at hand, so nothing is drawn from them."
TRACE_CHANGED = "The trace was changed, so nothing is drawn from it."


def answer_cannot_tell(reason: str) -> str:
    return f"Answer: can't tell {reason}"


NO_ANSWER = "No answer was given."


def qualified_for_live_work(name: str, live: str) -> str:
    return f"{name} (qualified for live work: {live})"


# ------------------------------------------------------------ making


def changed_and_no_slip(path: object) -> str:
    return f"{path} was changed: no slip is made of it. See: expert audit {path}"


def no_slip_yet(path: object) -> str:
    return f"{path} has no slip yet: it is written when the job is closed"


# ------------------------------------------------------------ shop view


def jobs_closed_and_open(closed: object, still_open: object) -> str:
    return f"jobs, {closed:,} closed, {still_open:,} open"


def minutes_of_middle_job(most: str) -> str:
    return f"minutes for the middle job; nine of ten stay under {most}"


def questions_of_middle_job(most: str) -> str:
    return f"questions in the middle job; nine of ten stay under {most}"


def mended_first_time(fixed: object, repairs: object) -> str:
    return f"mended the first time: {fixed:,} of {repairs:,} repairs"
