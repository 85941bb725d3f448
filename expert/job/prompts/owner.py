"""What a kind of prompt provides: who takes its line, what is said about it, who answers when nobody is there."""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Iterable
from dataclasses import dataclass, field

from expert.job.answers.reading import NotAnAnswer
from expert.job.sentences import answers as say
from expert.job.state.job import CouldNot, Given, Job, Prompt, Turn
from expert.language.model import Question
from expert.language.model.job_answers import JobAnswers


@dataclass
class Unattended:
    """What a job is answered from when nobody is at the keyboard. `tried`: repairs said to be done, in order."""

    answers: JobAnswers
    tried: list[str] = field(default_factory=list)


class Owner(ABC):
    """One kind of prompt. It keeps nothing: all that is known stands in the job.

    `lead` stands before the prompt wherever it is shown or told, as in an audit. `takes_commands`: the words of the
    commands may be typed here. `takes_question_mark`: a `?` alone is an answer here, and no wish for help.
    `offers_at_once`: what may be typed is offered while typing, and not on Tab only. `drops_typed_ahead`: safety hangs
    on it, so it is answered only by what is typed after it is on the screen. `is_stop`: the job stopped here, and is
    left only by what was done for safety. `puts_work`: work at the machine is put, which is chosen anew when what may
    be done here changes.
    """

    lead = ""
    takes_commands = True
    takes_question_mark = False
    offers_at_once = False
    drops_typed_ahead = False
    is_stop = False
    puts_work = False

    # ------------------------------------------------------------ taking its line

    @abstractmethod
    def take(self, turn: Turn, line: str) -> None:
        """Take the technician's line; where no other prompt is put, the job goes on. Raises NotAnAnswer."""

    @abstractmethod
    def unattended(self, job: Job, at_hand: Unattended) -> list[str]:
        """The lines that are typed here when nobody is at the keyboard."""

    def taken_back(self, job: Job, taken: Given | CouldNot) -> None:  # noqa: B027 - most prompts keep nothing
        """What of this prompt's no longer holds after an answer or a can't was taken back."""

    def put_again(self, job: Job, recorded: Prompt) -> Prompt | None:
        """The prompt that a record says was put, for this job; None when these rules know nothing of it."""
        return recorded

    # ------------------------------------------------------------ what is said about it

    @abstractmethod
    def why(self, job: Job) -> tuple[str, ...]:
        """Why the job waits here."""

    def why_more(self, job: Job) -> tuple[str, ...]:
        """The same in numbers, where there are any."""
        return self.why(job)

    def why_in_audit(self) -> str:
        """Why it was put, where the record of it gives no reasons of its own; '' when there is nothing to say."""
        return ""

    def how(self, job: Job) -> tuple[str, ...]:
        """How to do what is wanted here, cautions first."""
        return (say.NO_TEST,)

    def test(self, job: Job) -> Question | None:
        """The question whose answer is wanted, where a test is put."""
        return None

    # ------------------------------------------------------------ beside the line

    def offers(self, job: Job) -> Iterable[tuple[str, str]]:
        """What may be typed, each with its meaning ('' when the word says it all)."""
        return ((choice, "") for choice in job.prompt.choices)

    def offers_for(self, job: Job, begun: str) -> Iterable[tuple[str, str]]:
        """What else fits the words typed so far."""
        return ()

    def part_typed(self, begun: str) -> str:
        """The part of the line that is completed."""
        return begun

    def meaning(self, job: Job, line: str) -> str:
        """What a line would be taken for, in words, or ''. Changes nothing. Raises NotAnAnswer."""
        turn = Turn(job.copy())
        self.take(turn, line)
        return self.what_changed(turn)

    def what_changed(self, turn: Turn) -> str:
        """What the line just taken changed, where a number or a few words stand for something with a name."""
        return ""


class Nobody(Owner):
    """No prompt: the job goes on by itself, or is closed."""

    def take(self, turn: Turn, line: str) -> None:
        raise NotAnAnswer(say.NOTHING_ASKED)

    def why(self, job: Job) -> tuple[str, ...]:
        return (say.NOTHING_ASKED,)

    def unattended(self, job: Job, at_hand: Unattended) -> list[str]:
        return []


NOBODY = Nobody()
