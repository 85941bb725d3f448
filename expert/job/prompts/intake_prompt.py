"""What the prompts of the intake have in common: each is put until it is settled, then the next one comes."""

from __future__ import annotations

from abc import abstractmethod

from expert.job.answers.reading import CANNOT_TELL, NotAnAnswer
from expert.job.prompts.owner import Owner
from expert.job.sentences import intake as say
from expert.job.state.job import Job, Prompt, Turn
from expert.trace.records import Put


class IntakePrompt(Owner):
    """A prompt of the intake. `not_known`: what to do when the technician cannot tell."""

    name: str
    not_known: str
    because: str

    @abstractmethod
    def text(self, job: Job) -> tuple[str, tuple[str, ...]]:
        """What is asked, and what may be typed."""

    @abstractmethod
    def settle(self, turn: Turn, text: str) -> bool:
        """Take the text; False when the same is to be asked again, for more. Raises NotAnAnswer."""

    def put(self, turn: Turn) -> None:
        """Ask; the job waits."""
        text, choices = self.text(turn.job)
        turn.add(Put("intake", self.name, text))
        turn.job.prompt = Prompt("intake", self.name, choices)

    def take(self, turn: Turn, line: str) -> None:
        if CANNOT_TELL.fullmatch(line.strip()):
            raise NotAnAnswer(self.not_known)
        if self.settle(turn, line.strip()):
            turn.job.intake_settled = (*turn.job.intake_settled, self.name)
        else:
            self.put(turn)

    def put_again(self, job: Job, recorded: Prompt) -> Prompt | None:
        return Prompt("intake", self.name, self.text(job)[1])

    def why(self, job: Job) -> tuple[str, ...]:
        return (self.because,)


def pick(text: str, ids: list[str]) -> str | None:
    """The id meant by itself or by its number in the list."""
    word = text.strip().casefold()
    if word in ids:
        return word
    if word.isdecimal() and len(word) < 4 and 1 <= int(word) <= len(ids):
        return ids[int(word) - 1]
    return None


def numbers_up_to(count: int) -> str:
    return "1" if count == 1 else say.number_up_to(count)


def numbered_meant(listed: list[tuple[str, str]], meant: list[str]) -> str:
    """The entries that were likely meant, each with its number in the list; '' when there is none."""
    names = [f"{number} {name}" for number, (key, name) in enumerate(listed, 1) if key in meant]
    return say.meant_one_of(", or ".join(names)) if names else ""
