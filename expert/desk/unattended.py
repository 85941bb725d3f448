"""Playing a job with no one at the keyboard: the answers stand in a file, the dialogue is the real one."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field, replace
from itertools import pairwise

from expert.engine.knowledge import Knowledge
from expert.job.answers.reading import CANNOT_TELL as UNABLE
from expert.job.answers.reading import NotAnAnswer, read_answer
from expert.job.state.job import Job, Phase, Prompt, Shop
from expert.job.state.values import bands_of
from expert.job.steps import begin, step
from expert.language.formulas.formula import CannotWorkOut, NotKnown
from expert.language.model import Machine, Question
from expert.language.worked.job_answers import JobAnswers
from expert.language.worked.plate_choices import conditions_behind_limits
from expert.trace.records import Record, Told
from expert.trade.quantities.units import KINDS

CANNOT_TELL = "can't tell"
MOST_STEPS = 2_000  # far more than any job has questions; a dialogue that goes round in circles must end


class CannotPlay(ValueError):
    """The answers file holds something that the dialogue does not take. The message names it."""


@dataclass
class Player:
    """Answers prompts from a file. `say` takes a line to the job and gives the job after it with its records."""

    answers: JobAnswers
    say: Callable[[str], tuple[Job, tuple[Record, ...]]]
    records: list[Record] = field(default_factory=list)
    tried: set[str] = field(default_factory=set)

    def play(self, job: Job) -> Job:
        """Answer until the job is closed. Raises CannotPlay."""
        for _ in range(MOST_STEPS):
            if job.phase is Phase.DONE:
                return job
            for line in self._lines_for(job):
                job = self._said(job, line)
        raise CannotPlay(f"the job did not end within {MOST_STEPS} steps")

    def _said(self, job: Job, line: str) -> Job:
        after, records = self.say(line)
        if after.prompt == job.prompt and len(records) == 1 and isinstance(records[0], Told):
            subject = job.prompt.subject or job.prompt.kind
            raise CannotPlay(f"{subject}: {records[0].text}")
        self.records += records
        return after

    def _lines_for(self, job: Job) -> list[str]:
        prompt = job.prompt
        match prompt.kind:
            case "intake":
                return self._intake(job, prompt.subject)
            case "move":
                return ["yes"]
            case "question" | "proof":
                return [self._answer(job, job.base.questions[prompt.subject])]
            case "conflict":
                return [CANNOT_TELL]
            case "danger":
                return ["hand over"]
            case "repair":
                return [self._repair(prompt)]
            case _:
                return [self._closing(job, prompt)]

    def _closing(self, job: Job, prompt: Prompt) -> str:
        if prompt.subject == "ending":
            # Of the open endings the first is the likeliest; but what a colleague must go on with is not returned.
            return "handed_over" if job.outcome == "handed_over" and "handed_over" in prompt.choices else "1"
        return "no" if prompt.subject == "note" else "ok"

    def _intake(self, job: Job, name: str) -> list[str]:
        answers = self.answers
        match name:
            case "technician":
                return ["unattended"]
            case "machine":
                return [answers.machine_type.id]
            case "plate":
                return [*(f"{name} {text}" for name, text in self._at_the_plate(job).items()), "ok"]
            case "complaints":
                return [", ".join(answers.complaints), "ok"]
            case "qualified":
                return ["yes" if answers.qualified_for_live_work else "no"]
            case _:
                return [answers.arrives or next(iter(job.base.bench.arrives))]

    def _at_the_plate(self, job: Job) -> dict[str, str]:
        """The plate's values, and what of the answers is told beside them, such as the altitude."""
        conditions = conditions_behind_limits(job.base)
        told = {name: text for name, text in self.answers.answers.items() if name in conditions}
        return {
            **self.answers.plate,
            **{name: text for name, text in told.items() if not UNABLE.fullmatch(text.strip())},
        }

    def _repair(self, prompt: Prompt) -> str:
        """Repairs count as done where the file says what holds afterwards; none is tried twice."""
        if self.answers.after_repair is None or prompt.subject in self.tried:
            return "no"
        self.tried.add(prompt.subject)
        return "done"

    def _answer(self, job: Job, question: Question) -> str:
        after = self.answers.after_repair or {}
        if self.tried and question.id in after:
            return after[question.id]
        given = self.answers.answers.get(question.id)
        # An answer that described the machine before the repair no longer tells anything.
        overtaken = self.tried and any(g.question == question.id and not g.holds for g in job.given.values())
        if given is not None and not overtaken:
            return given
        return sound_answer(job, question) if self.answers.rest == "sound" else CANNOT_TELL


def sound_answer(job: Job, question: Question) -> str:
    """What would be typed on a sound machine, or can't tell where the question knows no sound outcome.

    Of several sound outcomes the one that stands first.
    """
    if not question.sound:
        return CANNOT_TELL
    if question.measure is None:
        return question.sound[0]
    unit = KINDS[question.measure.kind].base
    try:
        bands = bands_of(job, question)
    except (NotKnown, CannotWorkOut):
        return CANNOT_TELL
    limits = sorted({limit.value for _, low, high in bands for limit in (low, high) if limit is not None})
    between = [(low + high) / 2 for low, high in pairwise(limits)]
    passing = []
    for value in (*between, limits[-1] * 1.5 + 1, limits[0] / 2, limits[0] - 1):
        text = f"{value:.3g} {unit}".strip()
        try:
            outcomes = read_answer(job, question, text).outcomes
        except NotAnAnswer:
            continue
        if outcomes == question.sound[:1]:
            return text
        if set(outcomes) <= set(question.sound):
            passing.append(text)
    return passing[0] if passing else CANNOT_TELL


def play(knowledge: Knowledge, shop: Shop, answers: JobAnswers, number: str) -> tuple[Job, list[Record]]:
    """Play a job in memory, without a trace: the job at its end and all its records. Raises CannotPlay."""
    knowledge = with_machine(knowledge, answers.machine_type)
    job, opening = begin(knowledge, shop, number)
    now = [job]

    def say(line: str) -> tuple[Job, tuple[Record, ...]]:
        now[0], records = step(now[0], line)
        return now[0], records

    player = Player(answers, say, list(opening))
    return player.play(job), player.records


def with_machine(knowledge: Knowledge, machine: Machine) -> Knowledge:
    """The knowledge with one more machine type, such as one from a file of its own."""
    if knowledge.base.machines.get(machine.id) == machine:
        return knowledge
    base = replace(knowledge.base, machines={**knowledge.base.machines, machine.id: machine})
    return replace(knowledge, base=base)
