"""How people type: numbers for words, other units, the word of a round, questions back, and commands in between.

By dice of their own, so that a job without habits goes as it went before there were any.
"""

from __future__ import annotations

import random
import re
from dataclasses import dataclass

from expert.job.state.job import Job
from expert.trace.records import PromptPut
from expert.trade.quantities.units import KINDS

READING = re.compile(r"(-?[0-9.]+(?:e[-+]?[0-9]+)?) (\S+)")
# What tells and changes nothing, what corrects what was said at intake, and what people type of whom nobody thought.
ASKING = ("why", "why more", "how", "suspects", "answers", "help", "?", "what if", "what if yes", "what if can't tell")
CORRECTING = ("complaints", "take back complaint", "name", "plate", "qualified", "take back qualified", "take back")
CHANGING = ("not qualified", "convinced", "convinced 1", "convinced 2", "note: lime in the tank", "figure", "undo")
ROUND = (
    "{all} sound",
    "{all} sound",
    "{all} sound",
    "{all} Sound.",
    "not 2",
    "not {all}",
    "not 1",
    "{more} sound",
    "sound",
)


@dataclass(slots=True)
class Habits:
    """What one person makes of the line that would be typed. Shares of the prompts at which each thing is done."""

    chance: random.Random
    asks: float
    corrects: float
    changes: float
    numbers: float
    units: float
    rounds: float
    taken_on: float

    @classmethod
    def of(cls, number: int) -> Habits:
        """Those of the technician of a job: some type what stands on the screen and nothing else."""
        chance = random.Random(f"habits {number}")
        return cls(
            chance,
            asks=chance.choice((0.0, 0.0, 0.03, 0.2)),
            corrects=chance.choice((0.0, 0.0, 0.02, 0.05)),
            changes=chance.choice((0.0, 0.0, 0.02, 0.05)),
            numbers=chance.choice((0.0, 0.3, 0.9)),
            units=chance.choice((0.0, 0.4)),
            rounds=chance.choice((0.0, 0.5, 0.9)),
            taken_on=chance.choice((0.0, 0.5)),
        )

    def takes_it_on(self, still_time: bool) -> bool:
        """Whether a job that was handed over is taken up again, by whoever says so."""
        return still_time and self.chance.random() < self.taken_on

    def typed(self, job: Job, put: PromptPut, line: str) -> str:
        """What is really typed at a prompt. `line`: what would do."""
        chance = self.chance
        if put.prompt != "intake" and job.prompt.kind != "take back":
            for share, lines in ((self.asks, ASKING), (self.corrects, CORRECTING), (self.changes, CHANGING)):
                if chance.random() < share:
                    return chance.choice(lines)
        if job.round_put and put.question == job.round_put[0] and chance.random() < self.rounds:
            looks = len(job.round_put)
            return chance.choice(ROUND).format(all=looks, more=looks + 1)
        if line in job.prompt.choices and job.prompt.kind in ("question", "proof") and chance.random() < self.numbers:
            return self._numbered(job, line)
        if put.prompt in ("question", "proof") and chance.random() < self.units:
            return self._in_another_unit(job, put.question, line)
        return line

    def _numbered(self, job: Job, line: str) -> str:
        if job.prompt.choices == ("yes", "no"):
            return self.chance.choice((line[0], line[0].upper(), {"yes": "ja", "no": "nein"}[line]))
        return str(job.prompt.choices.index(line) + 1)

    def _in_another_unit(self, job: Job, question: str, line: str) -> str:
        """The same reading in any unit that its kind is read in."""
        measure, said = job.base.questions[question].measure, READING.fullmatch(line)
        if measure is None or said is None:
            return line
        kind = KINDS[measure.kind]
        if said[2] != kind.base:
            return line
        unit = self.chance.choice(list(kind.units))
        factor, offset = kind.units[unit]
        return f"{(float(said[1]) - offset) / factor:.9g} {unit}"
