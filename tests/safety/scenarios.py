"""Jobs with the answers given, through the real dialogue and the real planner: what dangers do in one place."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from expert.desk.opening import shop_of
from expert.job.answers.sound import sound_answer
from expert.job.beginning import begin
from expert.job.state.job import Job, Phase
from expert.job.steps import step
from expert.trace.records import Answered, CannotTell, Closed, Moved, PromptPut, Record, Said
from tests.dialogue.shipped_desk import shipped_knowledge
from tests.safety.judge import Judge
from tests.safety.leading import Violation
from tests.safety.playing import last_put, taken_up

CANNOT_TELL = "can't tell"
MOST_LINES = 300


@dataclass
class Scenario:
    """What is typed. What is not answered is as on a sound machine (`rest` "sound") or nobody can tell.

    `again`: answers after a repair. `cannot`: moves that cannot be made. `plate`: lines typed at the plate prompt.
    """

    complaints: Sequence[str]
    answers: Mapping[str, str] = field(default_factory=dict)
    rest: str = CANNOT_TELL
    arrives: str = "cold"
    qualified: bool = False
    repairs: bool = True
    again: Mapping[str, str] = field(default_factory=dict)
    cannot: Sequence[str] = ()
    plate: Sequence[str] = ()
    repaired: bool = False

    def line(self, job: Job, put: PromptPut) -> str:
        """What is typed at this prompt."""
        match put.prompt:
            case "intake" | "standing":
                return self._person(job, put.question)
            case "question" | "proof":
                return self._answer(job, put.question)
            case "move":
                return "no" if put.question in self.cannot else job.prompt.choices[0]
            case "danger":
                return "dealt with by Dee"
            case "repair":
                self.repaired = self.repaired or self.repairs
                return "done" if self.repairs else "no"
            case "conflict":
                return CANNOT_TELL
            case "close":
                return "1" if put.question == "ending" else "ok"
        return job.prompt.choices[-1]

    def _person(self, job: Job, subject: str) -> str:
        match subject:
            case "technician":
                return "Ann"
            case "machine":
                return "1"
            case "plate":
                return "ok"
            case "complaints":
                return "ok" if job.complaints else ", ".join(self.complaints)
            case "qualified":
                return job.prompt.choices[0 if self.qualified else -1]
            case "arrives":
                return self.arrives
        return job.prompt.choices[0] if job.prompt.choices else "no"

    def _answer(self, job: Job, question: str) -> str:
        if self.repaired and question in self.again:
            return self.again[question]
        if question in self.answers:
            return self.answers[question]
        return sound_answer(job, job.base.questions[question]) if self.rest == "sound" else CANNOT_TELL


@dataclass(frozen=True)
class Story:
    """What came of it."""

    records: tuple[Record, ...]
    violations: tuple[Violation, ...]
    job: Job

    @property
    def ending(self) -> str:
        return next((record.outcome for record in reversed(self.records) if isinstance(record, Closed)), "")

    def answered(self) -> dict[str, int]:
        """Questions with the place of their last answer."""
        return {r.question: n for n, r in enumerate(self.records) if isinstance(r, Answered)}

    def place_of(self, question: str) -> int:
        """Where a question was first answered, or could not be."""
        places = (
            n for n, r in enumerate(self.records) if isinstance(r, Answered | CannotTell) and r.question == question
        )
        return next(places)

    def states(self, since: int = 0) -> list[Mapping[str, str]]:
        """How the bench stood after each move from there on, but for how the machine arrived."""
        moves = [r for r in self.records[since:] if isinstance(r, Moved) and not r.move.startswith("arrives")]
        return [moved.state for moved in moves]

    def before_energising(self) -> set[str]:
        """What had been answered when the machine was first switched on; everything, if it never was."""
        known: set[str] = set()
        for record in self.records:
            match record:
                case Answered(question=question):
                    known.add(question)
                case Moved(move=move, state=state) if state["mains"] == "on" and not move.startswith("arrives"):
                    break
        return known


def play(scenario: Scenario, pause_at: str = "") -> Story:
    """Play it to its end. `pause_at`: a question at which the job is left and taken up again, once."""
    knowledge = shipped_knowledge()
    judge = Judge(knowledge.base)
    job, first = begin(knowledge, shop_of(knowledge), "7")
    records: list[Record] = list(first)
    judge.hear(first)
    put = last_put(first)
    plate = list(scenario.plate)
    for _ in range(MOST_LINES):
        if job.phase is Phase.DONE:
            break
        line = plate.pop(0) if put.question == "plate" and plate else scenario.line(job, put)
        if pause_at and put.question == pause_at:
            line, pause_at = "pause", ""
        job, replies = step(job, line)
        batch: list[Record] = [Said(line), *replies]
        if job.paused:
            job, again = taken_up(job, knowledge)
            batch += again
        judge.hear(batch)
        records += batch
        put = last_put(batch) or put
    assert not pause_at, f"{pause_at} was never put, and the job was not left there"
    return Story(tuple(records), tuple(judge.found), job)
