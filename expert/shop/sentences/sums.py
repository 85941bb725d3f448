"""Sums over many jobs."""

from __future__ import annotations

# ------------------------------------------------------------ totals

ABOUT_MINUTES = "Minutes and questions are those of closed jobs: the middle one, and what nine of ten stay under."
MINUTES_OF_MOST = "minutes 9 in 10"
QUESTIONS_OF_MOST = "questions 9 in 10"
ABOUT_ENDINGS = "Closed jobs by how they ended, the others by how they stand."
ABOUT_DAYS = "By the day of opening, UTC."
MENDED_FIRST_TIME = "Mended the first time"


def about_first_time(days: int) -> str:
    return (
        f"Closed jobs with a repair: no proof failed, and the machine was not back within {days} days, as far as its "
        "serial number is known."
    )


COLUMN_MENDED_FIRST_TIME = "mended the first time"
ABOUT_FAULTS = "As reviewed, else as found; the running share (a dot) shows how few faults make most of the work."
ABOUT_PARTS = "The same by part."
FROM_COMPLAINT_TO_FAULT = "From complaint to fault"
ABOUT_COMPLAINTS = "How often each fault stood behind a complaint; a job with several counts in each."
OF_THE_COMPLAINTS_JOBS = "of the complaint's jobs"
ABOUT_QUESTIONS = "The worst first: what is often taken back, contradicted or left open may be badly worded."
ABOUT_RULES = "Reviewed jobs only: how often a rule took part in a job of each verdict."
ABOUT_VERDICTS = "The last verdict on each reviewed job."
ABOUT_STOPS = "Jobs in which the rule stopped the work."
ABOUT_LIVE_TESTS = "Tests with the covers off and the mains on, by whom."
ABOUT_TECHNICIANS = "Jobs by whoever had them last."
ABOUT_PARTS_USED = "As stated when the job was closed."
ABOUT_COSTS = "Closed jobs of a shop whose profile names a currency; parts without a price in its list are not in it."
CAME_BACK = "Machines that came back"


def about_coming_back(days: int) -> str:
    return f"Within {days} days, by the key of the serial number."


ABOUT_LEFT_OUT = (
    "Jobs that are not in these sums: practice and invented ones, and traces that were changed or cannot be read."
)

# ------------------------------------------------------------ words

INVENTED_JOBS = "INVENTED JOBS: nothing here happened."
PRACTICE_JOBS = "PRACTICE: machines that were simulated."


def and_more(count: int) -> str:
    return f"  ... and {count} more: --all"
