"""Playing a job with no one at the keyboard: the answers stand in a file, the dialogue is the real one."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field, replace

from expert.desk.sentences import jobs as sentences
from expert.engine.knowledge import Knowledge
from expert.job.answers.sound import sound_answer as sound_answer
from expert.job.beginning import begin
from expert.job.prompts.owner import Unattended
from expert.job.prompts.registry import owner_at
from expert.job.state.job import Job, Phase
from expert.job.state.shop import Shop
from expert.job.steps import step
from expert.language.model import Machine
from expert.language.model.job_answers import JobAnswers
from expert.trace.records import Record, Told

MOST_STEPS = 2_000  # far more than any job has questions; a dialogue that goes round in circles must end


class CannotPlay(ValueError):
    """The answers file holds something that the dialogue does not take. The message names it."""


@dataclass
class Player:
    """Answers prompts from a file. `say` takes a line to the job and gives the job after it with its records."""

    at_hand: Unattended
    say: Callable[[str], tuple[Job, tuple[Record, ...]]]
    records: list[Record] = field(default_factory=list)

    def play(self, job: Job) -> Job:
        """Answer until the job is closed. Raises CannotPlay."""
        for _ in range(MOST_STEPS):
            if job.phase is Phase.DONE:
                return job
            for line in owner_at(job).unattended(job, self.at_hand):
                job = self._said(job, line)
        raise CannotPlay(sentences.did_not_end(MOST_STEPS))

    def _said(self, job: Job, line: str) -> Job:
        after, records = self.say(line)
        if after.prompt == job.prompt and len(records) == 1 and isinstance(records[0], Told):
            subject = job.prompt.subject or job.prompt.kind
            raise CannotPlay(f"{subject}: {records[0].text}")
        self.records += records
        return after


def play(knowledge: Knowledge, shop: Shop, answers: JobAnswers, number: str) -> tuple[Job, list[Record]]:
    """Play a job in memory, without a trace: the job at its end and all its records. Raises CannotPlay."""
    knowledge = with_machine(knowledge, answers.machine_type)
    job, opening = begin(knowledge, shop, number)
    now = [job]

    def say(line: str) -> tuple[Job, tuple[Record, ...]]:
        now[0], records = step(now[0], line)
        return now[0], records

    player = Player(Unattended(answers), say, list(opening))
    return player.play(job), player.records


def with_machine(knowledge: Knowledge, machine: Machine) -> Knowledge:
    """The knowledge with one more machine type, such as one from a file of its own."""
    if knowledge.base.machines.get(machine.id) == machine:
        return knowledge
    base = replace(knowledge.base, machines={**knowledge.base.machines, machine.id: machine})
    return replace(knowledge, base=base)
