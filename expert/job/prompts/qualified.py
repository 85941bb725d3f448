"""Whether the technician may do live work on mains."""

from __future__ import annotations

from expert.job.answers.reading import NO, YES, NotAnAnswer
from expert.job.prompts.intake_prompt import IntakePrompt
from expert.job.prompts.owner import Unattended
from expert.job.state.job import Job, Turn
from expert.trade.quantities.units import echo


class Qualified(IntakePrompt):
    name = "qualified"
    not_known = "In doubt, type no: then nothing is asked with the covers off and the mains on."
    because = "Tests on live parts are put only to those who may do them."

    def text(self, job: Job) -> tuple[str, tuple[str, ...]]:
        return (
            "Are you qualified for live work on mains, by your local rules? Type yes or no. "
            "With no, nothing is asked with the covers off and the mains on."
        ), ("yes", "no")

    def settle(self, turn: Turn, text: str) -> bool:
        word = text.casefold()
        if word not in YES | NO:
            raise NotAnAnswer(f"{echo(text)} is no answer here. Type yes or no; in doubt, no.")
        turn.job.qualified = word in YES
        return True

    def unattended(self, job: Job, at_hand: Unattended) -> list[str]:
        return ["yes" if at_hand.answers.qualified_for_live_work else "no"]
