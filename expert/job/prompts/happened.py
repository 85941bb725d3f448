"""Something dangerous just happened: said at any prompt, recorded as an observation, and made safe first."""

from __future__ import annotations

from collections.abc import Iterable

from expert.job.answers.putting import typed_answers
from expert.job.answers.reading import NO, NotAnAnswer, read_answer
from expert.job.answers.taking import take_answer
from expert.job.prompts.ending import Ending
from expert.job.prompts.owner import Owner, Unattended
from expert.job.sentences import safety as say
from expert.job.state.complaints_now import raise_what_is_seen
from expert.job.state.job import NO_PROMPT, Job, Phase, Prompt, Turn
from expert.job.state.situation import reopen
from expert.language.model import Question
from expert.trace.records import PromptPut

LEAST_ALIKE = 4  # letters at its beginning by which a word is known again: trip, smel, smok


def something_happened(turn: Turn, rest: str) -> None:
    """The word danger at any prompt: with what it was, or else that is asked. Raises NotAnAnswer."""
    job = turn.job
    if job.phase is Phase.INTAKE or not job.bench or job.left_at is not None or not job.base.bench.danger_met:
        raise NotAnAnswer(say.HAPPENED_BEFORE_THE_BENCH)
    question = job.base.questions[job.base.bench.danger_met]
    if rest:
        take_what_happened(turn, question, rest)
        return
    turn.tell(say.HAPPENED_FIRST)
    choices = (
        say.happened_choice(number, question.label(outcome)) for number, outcome in enumerate(question.outcomes, 1)
    )
    turn.add(PromptPut("happened", question.id, "\n".join((say.what_happened(question.ask), *choices))))
    job.prompt = Prompt("happened", question.id, typed_answers(question))


def take_what_happened(turn: Turn, question: Question, line: str) -> None:
    """Record the observation; what it forbids and the way out follow as from every other. Raises NotAnAnswer."""
    job = turn.job
    words = meant(question, line)
    take_answer(turn, read_answer(job, question, words[0] if len(words) == 1 else line))
    job.choice = None
    if raise_what_is_seen(turn):
        # What the bench has just met is looked for as if it had been brought in for it.
        reopen(job)
    # An ending that was chosen before was chosen for a machine without this danger.
    job.closing.pop(Ending.name, None)
    job.prompt = NO_PROMPT


def meant(question: Question, line: str) -> tuple[str, ...]:
    """The dangers that a line speaks of, by the beginnings of its words: "smoke at the lead" is burnt."""
    said = {word.strip(".,;:!?").casefold()[:LEAST_ALIKE] for word in line.split()}
    said = {word for word in said if len(word) == LEAST_ALIKE}
    return tuple(
        outcome
        for outcome in question.outcomes
        if outcome not in question.sound
        and said & {word.strip(".,;:").casefold()[:LEAST_ALIKE] for word in (outcome, *question.label(outcome).split())}
    )


def with_danger_meant(job: Job, message: str, line: str) -> str:
    """The message that refuses a line; where it speaks of a danger, with how to say so in front."""
    name = job.base.bench.danger_met
    if not name or not job.bench:
        return message
    words = meant(job.base.questions[name], line)
    return say.if_it_happened(words[0], message) if words else message


class Happened(Owner):
    """What happened: one of the dangers, or a mistake."""

    offers_at_once = True

    def take(self, turn: Turn, line: str) -> None:
        job = turn.job
        if line.strip().casefold() in NO:
            job.prompt = NO_PROMPT  # nothing happened: what was put is put again
            return
        take_what_happened(turn, self.test(job), line)

    def test(self, job: Job) -> Question:
        return job.base.questions[job.prompt.subject]

    def put_again(self, job: Job, recorded: Prompt) -> Prompt | None:
        question = job.base.questions.get(recorded.subject)
        return Prompt(recorded.kind, question.id, typed_answers(question)) if question else None

    def unattended(self, job: Job, at_hand: Unattended) -> list[str]:
        return ["no"]

    def why(self, job: Job) -> tuple[str, ...]:
        return (say.WHY_HAPPENED,)

    def how(self, job: Job) -> tuple[str, ...]:
        return (say.HAPPENED_FIRST, self.test(job).how)

    def offers(self, job: Job) -> Iterable[tuple[str, str]]:
        question = self.test(job)
        return ((choice, question.label(choice)) for choice in job.prompt.choices)
