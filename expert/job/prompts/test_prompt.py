"""What the prompts that put a test have in common: a question of the search, and a proof."""

from __future__ import annotations

from abc import abstractmethod
from collections.abc import Iterable

from expert.job.answers.putting import typed_answers
from expert.job.answers.reading import CANNOT_TELL, read_answer
from expert.job.answers.sound import sound_answer
from expert.job.answers.taking import cannot_tell
from expert.job.prompts.owner import Owner, Unattended
from expert.job.sentences import search as say
from expert.job.state.job import Given, Job, Prompt, Turn
from expert.job.wording.explaining import answer_in_words, last_answer
from expert.job.wording.readings import how_to, understood
from expert.language.model import Question

UNABLE = "can't tell"


class TestPrompt(Owner):
    """A test whose answer is wanted."""

    takes_question_mark = True
    puts_work = True

    @abstractmethod
    def take_given(self, turn: Turn, given: Given) -> None:
        """Take an answer that was understood."""

    @abstractmethod
    def leave(self, turn: Turn, question: str) -> None:
        """It cannot be answered; what follows from that besides."""

    def take(self, turn: Turn, line: str) -> None:
        job = turn.job
        if unable := CANNOT_TELL.fullmatch(line.strip()):
            cannot_tell(turn, job.prompt.subject, unable.group(1) or "")
            self.leave(turn, job.prompt.subject)
        else:
            self.take_given(turn, read_answer(job, self.test(job), line))

    def test(self, job: Job) -> Question:
        return job.base.questions[job.prompt.subject]

    def put_again(self, job: Job, recorded: Prompt) -> Prompt | None:
        question = job.base.questions.get(recorded.subject)
        return Prompt(recorded.kind, question.id, typed_answers(question)) if question else None

    def how(self, job: Job) -> tuple[str, ...]:
        question = self.test(job)
        return (*cautions_again(job, question.cautions), *how_to(job, question))

    def unattended(self, job: Job, at_hand: Unattended) -> list[str]:
        return [unattended_answer(job, at_hand, self.test(job))]

    def offers(self, job: Job) -> Iterable[tuple[str, str]]:
        question = self.test(job)
        if not job.prompt.choices and (last := last_answer(job, question.id)):
            yield last.text, say.last_reading(answer_in_words(job, last))
        for choice in job.prompt.choices:
            label = question.label(choice)
            yield choice, "" if label == choice else label

    def meaning(self, job: Job, line: str) -> str:
        if CANNOT_TELL.fullmatch(line):
            return say.LEFT_UNANSWERED
        question = self.test(job)
        given = read_answer(job, question, line)
        if given.quantity is not None:
            return understood(job, question, given)[0]
        return question.label(given.outcomes[0])


def unattended_answer(job: Job, at_hand: Unattended, question: Question) -> str:
    """What is typed for a test when nobody is at the keyboard."""
    answers = at_hand.answers
    after = answers.after_repair or {}
    if at_hand.tried and question.id in after:
        return after[question.id]
    mended = [name for name in at_hand.tried if question.id in answers.after.get(name, {})]
    if mended:
        return answers.after[mended[-1]][question.id]
    given = answers.answers.get(question.id)
    # An answer that described the machine before the repair no longer tells anything.
    overtaken = at_hand.tried and any(g.question == question.id and not g.holds for g in job.given.values())
    # Where it is told what each repair changes, all else is as it was: a wrong repair mends nothing.
    if given is not None and (not overtaken or answers.after):
        return given
    return sound_answer(job, question) if answers.rest == "sound" else UNABLE


def cautions_again(job: Job, cautions: tuple[str, ...]) -> list[str]:
    """Cautions come before the steps, also when these are told again."""
    return [f"! {job.base.cautions[caution].text}" for caution in cautions]


def numbered_steps(steps: tuple[str, ...]) -> list[str]:
    return [f"{number}. {step}" for number, step in enumerate(steps, 1)]
