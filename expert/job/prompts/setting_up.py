"""Setting up a test in a bench state of its own, before the test itself."""

from __future__ import annotations

from expert.engine.bench import after
from expert.job.answers.taking import cannot_tell
from expert.job.bench.moves import PREPARE, SET_UP
from expert.job.prompts.move import confirmed, why_moved
from expert.job.prompts.owner import Owner, Unattended
from expert.job.prompts.test_prompt import numbered_steps
from expert.job.sentences import safety as say
from expert.job.state.job import Job, Prompt, Turn
from expert.language.model import Question
from expert.trace.records import Moved


class SettingUp(Owner):
    drops_typed_ahead = True

    def take(self, turn: Turn, line: str) -> None:
        """With its word the test is set up; with a no the question is left. Raises NotAnAnswer."""
        job = turn.job
        question = question_prepared(job)
        if confirmed(line, SET_UP):
            job.bench = after(job.bench, question.prepare.leaves if question.prepare else {})
            job.prepared.add(question.id)
            turn.add(Moved(job.prompt.subject, dict(job.bench), 0.0))
        else:
            cannot_tell(turn, question.id, say.COULD_NOT_BE_SET_UP)
            job.choice = None

    def put_again(self, job: Job, recorded: Prompt) -> Prompt | None:
        question = job.base.questions.get(recorded.subject.removeprefix(PREPARE))
        return Prompt(recorded.kind, recorded.subject, ("yes", "no")) if question and question.prepare else None

    def unattended(self, job: Job, at_hand: Unattended) -> list[str]:
        return [SET_UP]

    def why(self, job: Job) -> tuple[str, ...]:
        return (why_moved(job), say.WHY_MOVES_ARE_CONFIRMED)

    def how(self, job: Job) -> tuple[str, ...]:
        preparation = question_prepared(job).prepare
        return (*numbered_steps(preparation.steps if preparation else ()), say.IS_THAT_DONE)


def question_prepared(job: Job) -> Question:
    """The question that is set up."""
    return job.base.questions[job.prompt.subject.removeprefix(PREPARE)]
