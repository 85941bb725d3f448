"""What the prompts of the intake have in common: each is put until it is settled, then the next one comes."""

from __future__ import annotations

from abc import abstractmethod

from expert.job.answers.reading import CANNOT_TELL, NotAnAnswer
from expert.job.prompts.owner import Owner
from expert.job.sentences import intake as say
from expert.job.state.job import Job, Phase, Prompt, Turn
from expert.trace.records import PromptPut, TakenIn


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

    def corrected(self, turn: Turn) -> None:
        """What follows when it was settled again after the intake."""

    def put(self, turn: Turn) -> None:
        """Ask; the job waits."""
        text, choices = self.text(turn.job)
        turn.add(PromptPut("intake", self.name, text))
        turn.job.prompt = Prompt("intake", self.name, choices)

    def take(self, turn: Turn, line: str) -> None:
        if CANNOT_TELL.fullmatch(line.strip()):
            raise NotAnAnswer(self.not_known)
        if not self.settle(turn, line.strip()):
            self.put(turn)
            return
        turn.job.asked_back -= {self.name}
        if turn.job.phase is Phase.INTAKE:
            turn.job.intake_settled = (*turn.job.intake_settled, self.name)
        else:
            turn.add(taken_in(turn.job))
            self.corrected(turn)

    def put_again(self, job: Job, recorded: Prompt) -> Prompt | None:
        return Prompt("intake", self.name, self.text(job)[1])

    def why(self, job: Job) -> tuple[str, ...]:
        return (self.because,)


def taken_in(job: Job) -> TakenIn:
    """What the intake settled, or what was corrected of it since, for the record."""
    assert job.machine is not None
    return TakenIn(
        technician=job.technician,
        machine=job.machine.title,
        machine_key=job.machine.id,
        plate=job.plate_told,
        complaints=tuple(job.base.complaints[complaint].name for complaint in job.complaints),
        complaint_keys=job.complaints,
        qualified=job.qualified,
        serial_key=job.serial_key,
    )


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
