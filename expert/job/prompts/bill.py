"""What the bill and the next person need: parts used, minutes spent, a note."""

from __future__ import annotations

from expert.job.answers.mistyped import is_slip
from expert.job.answers.reading import NO, NotAnAnswer
from expert.job.prompts.closing_prompt import ClosingPrompt
from expert.job.prompts.ending import ENDINGS
from expert.job.prompts.owner import Unattended
from expert.job.sentences import closing as say
from expert.job.state.job import Job, Turn
from expert.trade.quantities.units import echo

LONGEST_PART = 80
LONGEST_NOTE = 2000
MOST_MINUTES = 10_000
BACK = "back"


class Parts(ClosingPrompt):
    name = "parts"
    because = say.WHY_PARTS

    def text(self, job: Job) -> tuple[str, tuple[str, ...]]:
        planned = ", ".join(job.parts_used) or "none"
        return say.parts_used(planned), ("ok", "none")

    def settled(self, job: Job, text: str) -> str:
        if is_slip(text):
            raise NotAnAnswer(say.names_no_part(echo(text)))
        if text.casefold() == "none":
            job.parts_used = ()
        elif text.casefold() not in {"ok", ""}:
            job.parts_used = tuple(part.strip()[:LONGEST_PART] for part in text.split(",") if part.strip())
        return "ok"


class Minutes(ClosingPrompt):
    name = "minutes"
    because = say.WHY_MINUTES

    def text(self, job: Job) -> tuple[str, tuple[str, ...]]:
        return say.minutes_spent(job.minutes), ("ok",)

    def settled(self, job: Job, text: str) -> str:
        job.minutes = round(job.minutes) if text.casefold() in {"ok", ""} else _minutes(text)
        return f"{job.minutes:g}"


def _minutes(text: str) -> float:
    try:
        minutes = float(text.replace(",", "."))
    except ValueError:
        minutes = -1.0
    if not 0 <= minutes <= MOST_MINUTES:
        raise NotAnAnswer(say.no_number_of_minutes(echo(text)))
    return minutes


class Note(ClosingPrompt):
    name = "note"
    because = say.WHY_NOTE

    def text(self, job: Job) -> tuple[str, tuple[str, ...]]:
        ending = job.closing.get("ending", "")
        follows = say.WITH_THAT_HANDED_OVER if ending == "handed_over" else say.with_that_closed(ENDINGS[ending])
        return say.anything_to_note(follows), ("no", BACK)

    def take(self, turn: Turn, line: str) -> None:
        if line.strip().casefold() == BACK:
            turn.job.closing.clear()
        else:
            super().take(turn, line)

    def settled(self, job: Job, text: str) -> str:
        # The job is sealed after it: a mistyped command must not end it.
        if is_slip(text):
            raise NotAnAnswer(say.no_remark(echo(text)))
        return "" if text.casefold() in {*NO, "ok", ""} else text[:LONGEST_NOTE]

    def unattended(self, job: Job, at_hand: Unattended) -> list[str]:
        return ["no"]
