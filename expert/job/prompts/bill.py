"""What the bill and the next person need: parts used, minutes spent, a note."""

from __future__ import annotations

from expert.job.answers.mistyped import is_slip
from expert.job.answers.reading import NO, NotAnAnswer
from expert.job.prompts.closing_prompt import ClosingPrompt
from expert.job.prompts.owner import Unattended
from expert.job.state.job import Job
from expert.trade.quantities.units import echo

LONGEST_PART = 80
LONGEST_NOTE = 2000
MOST_MINUTES = 10_000


class Parts(ClosingPrompt):
    name = "parts"
    because = "The record says which parts were used. The bill rests on it."

    def text(self, job: Job) -> tuple[str, tuple[str, ...]]:
        planned = ", ".join(job.parts_used) or "none"
        return f"Parts used: {planned}. Type ok, or the list as it really was.", ("ok", "none")

    def settled(self, job: Job, text: str) -> str:
        if is_slip(text):
            raise NotAnAnswer(f"{echo(text)} names no part. Type ok, none, or the parts, separated by commas.")
        if text.casefold() == "none":
            job.parts_used = ()
        elif text.casefold() not in {"ok", ""}:
            job.parts_used = tuple(part.strip()[:LONGEST_PART] for part in text.split(",") if part.strip())
        return "ok"


class Minutes(ClosingPrompt):
    name = "minutes"
    because = "The record says how long the job took. The bill rests on it."

    def text(self, job: Job) -> tuple[str, tuple[str, ...]]:
        return f"Minutes spent: about {job.minutes:.0f} by the book. Type ok, or the real number.", ("ok",)

    def settled(self, job: Job, text: str) -> str:
        job.minutes = round(job.minutes) if text.casefold() in {"ok", ""} else _minutes(text)
        return f"{job.minutes:g}"


def _minutes(text: str) -> float:
    try:
        minutes = float(text.replace(",", "."))
    except ValueError:
        minutes = -1.0
    if not 0 <= minutes <= MOST_MINUTES:
        raise NotAnAnswer(f"{echo(text)} is no number of minutes. Type one such as 45, or ok.")
    return minutes


class Note(ClosingPrompt):
    name = "note"
    because = "What the record does not say otherwise, the next person will not know."

    def text(self, job: Job) -> tuple[str, tuple[str, ...]]:
        return "Anything the next person should know? Type it, or no.", ("no",)

    def settled(self, job: Job, text: str) -> str:
        # The job is sealed after it: a mistyped command must not end it.
        if is_slip(text):
            raise NotAnAnswer(f"{echo(text)} is no remark. Type it in a few more words, or no.")
        return "" if text.casefold() in {*NO, "ok", ""} else text[:LONGEST_NOTE]

    def unattended(self, job: Job, at_hand: Unattended) -> list[str]:
        return ["no"]
