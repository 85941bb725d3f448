"""A random technician: sound answers, dangerous ones, can't-tells, contradictions, take-backs, slips and nonsense.

Each is another character. Most seek one danger: they answer soundly until the job is in a certain phase, and from then
on, wherever a question bears on that danger, they answer so that it opens.
"""

from __future__ import annotations

import random
from collections.abc import Mapping
from dataclasses import dataclass, field

from expert.job.state.job import Job
from expert.language.model import RuleBase
from expert.trace.records import PromptPut
from tests.safety.readings import CANNOT_TELL, Readings

NONSENSE = (
    *("", "y", "ok", "done", "1", "-5", "99999999", "nonsense", "why", "how", "suspects", "answers"),
    *("note lime", "not qualified"),
)
NAMES = ("Ann", "Bo", "Cy")
SENIOR = "Dee"


@dataclass(frozen=True, slots=True)
class Aim:
    """A danger that is sought: the outcomes that open it, the complaints that do, and from which prompt on."""

    name: str = ""
    outcomes: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    complaints: tuple[str, ...] = ()
    since: str = "question"

    def missed(self, job: Job) -> list[int]:
        """The numbers of answers that were given otherwise than sought."""
        answers = [job.answer_to(question) for question in self.outcomes]
        return [a.number for a in answers if a is not None and not set(a.outcomes) & set(self.outcomes[a.question])]


@dataclass(slots=True)
class Technician:
    """Types one line for each prompt. `readings`: shared by all, so that limits are worked out once."""

    chance: random.Random
    base: RuleBase
    readings: Readings
    aim: Aim = Aim()
    cannot_tell: float = 0.1
    unsound: float = 0.3
    silly: float = 0.03
    back: float = 0.04
    cannot_move: float = 0.03
    leave: float = 0.02
    alarm: float = 0.01
    keen: float = 0.8
    insists: float = 0.2
    qualified: bool = False
    gives_up: float = 0.0
    moods: random.Random = field(default_factory=lambda: random.Random(0))
    reached: set[str] = field(default_factory=set)

    @classmethod
    def of(cls, chance: random.Random, base: RuleBase, readings: Readings, aim: Aim) -> Technician:
        """One of many characters: some never err, some contradict themselves, some cannot tell half of it."""
        return cls(
            chance,
            base,
            readings,
            aim,
            cannot_tell=chance.choice((0.0, 0.05, 0.15, 0.5)),
            unsound=chance.choice((0.05, 0.2, 0.5)),
            silly=chance.choice((0.0, 0.02, 0.1)),
            back=chance.choice((0.0, 0.03, 0.12)),
            cannot_move=chance.choice((0.0, 0.0, 0.05, 0.2)),
            leave=chance.choice((0.0, 0.01, 0.05)),
            alarm=chance.choice((0.0, 0.0, 0.02)) if base.bench.danger_met not in aim.outcomes else 0.3,
            qualified=chance.random() < 0.4,
        ).in_moods_of_its_own()

    def in_moods_of_its_own(self) -> Technician:
        """Some give the job away in the middle of it; by dice of their own, so that all else goes as without."""
        self.moods = random.Random(f"moods {self.chance.getstate()[1][:8]}")
        self.gives_up = self.moods.choice((0.0, 0.0, 0.0, 0.02))
        return self

    def be_steady(self) -> None:
        """Answer soundly and make every move, until what is sought is met."""
        self.cannot_tell, self.unsound, self.cannot_move, self.silly = 0.0, 0.02, 0.0, min(self.silly, 0.02)
        self.leave, self.gives_up, self.keen = min(self.leave, 0.01), 0.0, 0.95

    def line(self, job: Job, put: PromptPut) -> str:
        """What is typed at this prompt. `put`: the prompt as it stands in the trace."""
        chance = self.chance
        if job.prompt.kind == "take back":
            return chance.choice(("yes", "yes", "yes", "no", "maybe"))
        if put.prompt != "intake":
            self.reached.add(put.prompt)
            if chance.random() < self.silly:
                return chance.choice(NONSENSE)
            if (word := self._happened(job)) and chance.random() < self.alarm:
                return word
            if chance.random() < self.back and job.given:
                return f"take back {chance.choice(list(job.given))}"
            if self.aim.since in self.reached and chance.random() < self.insists and (missed := self.aim.missed(job)):
                return f"take back {chance.choice(missed)}"
            if self.moods.random() < self.gives_up:
                return "hand over"
        match put.prompt:
            case "intake":
                return self._intake(job, put.question)
            case "question" | "proof":
                return self._answer(job, put)
            case "move":
                return "can't" if chance.random() < self.cannot_move else self._confirmation(job)
            case "danger":
                return chance.choice((f"dealt with by {SENIOR}", f"dealt with by {SENIOR}", "go on", "hand over"))
            case "happened":
                return chance.choice((*job.prompt.choices, "no"))
            case "conflict":
                return chance.choice((*job.prompt.choices, CANNOT_TELL))
            case "repair":
                return "no" if chance.random() < 0.15 else "done"
            case "standing" if put.question == "technician":
                return chance.choice(NAMES)
            case "standing" if put.question == "qualified":
                return chance.choice(job.prompt.choices)
            case "standing":
                return "yes" if chance.random() < 0.6 else chance.choice((*job.prompt.choices, "no"))
            case "close":
                return chance.choice(("1", "1", "1", "2")) if put.question == "ending" else "ok"
            case _:
                return chance.choice(job.prompt.choices or ("ok",))

    def _happened(self, job: Job) -> str:
        """What may be typed at any prompt when something dangerous happens; the danger sought, if that is one."""
        name = self.base.bench.danger_met
        if not name:
            return ""
        sought = self.aim.outcomes.get(name)
        if sought and self.aim.since in self.reached and not job.answer_to(name):
            return f"danger {self.chance.choice(sought)}"
        return self.chance.choice(("danger", *(f"danger {outcome}" for outcome in self.base.questions[name].outcomes)))

    def _confirmation(self, job: Job) -> str:
        return job.prompt.choices[0] if job.prompt.choices else "yes"

    def _intake(self, job: Job, subject: str) -> str:
        chance = self.chance
        match subject:
            case "technician":
                return chance.choice(NAMES)
            case "machine":
                return "1"
            case "plate":
                return "ok"
            case "complaints":
                if job.complaints:
                    return "ok"
                some = chance.sample(
                    list(self.base.complaints), min(chance.choice((1, 1, 2)), len(self.base.complaints))
                )
                if self.aim.complaints and chance.random() < self.keen:
                    some = [*self.aim.complaints, *some[1:]]
                return ", ".join(some)
            case "qualified":
                return job.prompt.choices[0 if self.qualified else -1]
            case "arrives":
                return chance.choice(list(self.base.bench.arrives))
            case _:
                return chance.choice(job.prompt.choices or ("no",))

    def _answer(self, job: Job, put: PromptPut) -> str:
        question = self.base.questions[put.question]
        sought = self.aim.outcomes.get(question.id, ())
        if sought and self.aim.since in self.reached and self.chance.random() < self.keen:
            return self.readings.text(self.chance, job, question, sought)
        if self.chance.random() < self.cannot_tell:
            return CANNOT_TELL
        sound = question.sound if self.chance.random() >= self.unsound else ()
        return self.readings.text(self.chance, job, question, sound)
