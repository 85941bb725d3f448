"""Who is at the bench."""

from __future__ import annotations

from expert.job.answers.mistyped import is_squeezed_command
from expert.job.answers.reading import NotAnAnswer
from expert.job.prompts.intake_prompt import IntakePrompt
from expert.job.prompts.owner import Unattended
from expert.job.state.job import Job, Turn

LONGEST_NAME = 60


class Technician(IntakePrompt):
    name = "technician"
    not_known = "A name is needed for the record. Type your name or your initials."
    because = "The record says who worked at the machine."

    def text(self, job: Job) -> tuple[str, tuple[str, ...]]:
        return "Who is at the bench? Type your name.", ()

    def settle(self, turn: Turn, text: str) -> bool:
        # Anything with a letter may be a name, but for a command that only lacks its space.
        if not any(map(str.isalpha, text)) or is_squeezed_command(text):
            raise NotAnAnswer(self.not_known)
        turn.job.technician = text[:LONGEST_NAME]
        return True

    def unattended(self, job: Job, at_hand: Unattended) -> list[str]:
        return ["unattended"]
