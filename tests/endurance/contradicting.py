"""Contradictions on purpose: two rules that exclude each other are made to fire, and the conflict is cleared again."""

from __future__ import annotations

import random
from collections.abc import Sequence
from dataclasses import dataclass

from expert.desk.opening import shop_of
from expert.engine.knowledge import Knowledge
from expert.job.state.job import Job
from expert.trace.records import Conflict, PromptPut, Record
from tests.safety.cheap_search import AnyQuestion
from tests.safety.playing import play
from tests.safety.readings import CANNOT_TELL, Readings
from tests.safety.seeking import Collision, complaints_in, questions_in
from tests.safety.technicians import Aim, Technician

WAYS = ("the best", "another", "can't tell", "take back", "pause first", "the same again")
MOST_LINES = 250
MOST_CONFLICTS = 25


@dataclass(slots=True)
class Contrary(Technician):
    """Answers as sought until a contradiction is put, then clears it in its way."""

    way: str = "can't tell"
    cleared: int = 0
    paused: bool = False
    anything_else: bool = False

    def line(self, job: Job, put: PromptPut) -> str:
        if job.prompt.kind == "take back":
            return "yes"
        if put.prompt == "conflict":
            return self._clear(job)
        return Technician.line(self, job, put)

    def _clear(self, job: Job) -> str:
        self.cleared += 1
        self.anything_else = self.way != "the same again"
        numbers = job.prompt.choices
        if self.cleared > MOST_CONFLICTS // 2 or not numbers:
            return CANNOT_TELL
        match self.way:
            case "the best" | "the same again":
                return numbers[0]
            case "another":
                return numbers[-1]
            case "take back":
                return f"take back {self.chance.choice(numbers)}"
            case "pause first" if not self.paused:
                self.paused = True
                return "pause"
        return CANNOT_TELL

    def _answer(self, job: Job, put: PromptPut) -> str:
        question = self.base.questions[put.question]
        if self.anything_else and put.question in self.aim.outcomes:
            # Repeated, it comes out otherwise, or nobody can tell any more.
            others = tuple(o for o in question.outcomes if o not in self.aim.outcomes[put.question])
            return self.readings.text(self.chance, job, question, others) if others else CANNOT_TELL
        return Technician._answer(self, job, put)


@dataclass(frozen=True, slots=True)
class Contradicted:
    """What came of one: how many conflicts were put, whether the job ended, and the lines typed."""

    conflicts: int
    ended: bool
    lines: tuple[str, ...]


def contradict(knowledge: Knowledge, readings: Readings, collision: Collision, way: str, number: int) -> Contradicted:
    """Play one job that runs into this collision, if the bench lets it come so far."""
    chance = random.Random(f"contradiction {number}")
    outcomes = questions_in(knowledge.base, collision.answers)
    technician = Contrary(
        chance,
        knowledge.base,
        readings,
        Aim(collision.fact, outcomes, complaints_in(collision.answers)),
        cannot_tell=chance.choice((0.0, 0.1)),
        unsound=0,
        silly=0,
        back=0,
        cannot_move=0,
        leave=0,
        keen=1,
        insists=0,
        qualified=True,
        way=way,
    )
    conflicts: list[Conflict] = []

    def hear(batch: Sequence[Record]) -> None:
        conflicts.extend(record for record in batch if isinstance(record, Conflict))

    played = play(
        knowledge, shop_of(knowledge), technician, hear, AnyQuestion(chance, tuple(outcomes), 1.0), MOST_LINES
    )
    return Contradicted(len(conflicts), played.ended, played.lines)
