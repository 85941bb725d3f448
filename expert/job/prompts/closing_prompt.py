"""What the prompts of the close have in common: each is put until it is settled, then the next one comes."""

from __future__ import annotations

from abc import abstractmethod

from expert.job.prompts.owner import Owner, Unattended
from expert.job.state.job import Job, Prompt, Turn
from expert.trace.records import PromptPut


class ClosingPrompt(Owner):
    """A prompt of the close; what it settles is kept in `job.closing` under its name."""

    name: str
    because: str

    @abstractmethod
    def text(self, job: Job) -> tuple[str, tuple[str, ...]]:
        """What is asked, and what may be typed."""

    @abstractmethod
    def settled(self, job: Job, text: str) -> str:
        """What the text settles. Raises NotAnAnswer."""

    def put(self, turn: Turn) -> None:
        """Ask; the job waits."""
        text, choices = self.text(turn.job)
        turn.add(PromptPut("close", self.name, text))
        turn.job.prompt = Prompt("close", self.name, choices)

    def take(self, turn: Turn, line: str) -> None:
        turn.job.closing[self.name] = self.settled(turn.job, line.strip())

    def put_again(self, job: Job, recorded: Prompt) -> Prompt | None:
        return Prompt("close", self.name, self.text(job)[1])

    def why(self, job: Job) -> tuple[str, ...]:
        return (self.because,)

    def unattended(self, job: Job, at_hand: Unattended) -> list[str]:
        return ["ok"]
