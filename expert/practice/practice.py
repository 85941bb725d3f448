"""One practice: the machine with its hidden fault, what the junior has done so far, and what is waited for."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from expert.engine.knowledge import Knowledge
from expert.job.state.job import Job, Turn
from expert.machine import Machine
from expert.practice import sentences as say
from expert.practice.scenario import Scenario
from expert.trace.records import HazardOpened, HazardReleased, Record
from expert.witness.table import Table


@dataclass(frozen=True)
class World:
    """The rules, and the table by which the simulated machine answers their questions."""

    knowledge: Knowledge
    table: Table


@dataclass(frozen=True, slots=True)
class Offer:
    """Something that can be chosen: a test, setting one up, a bench move, a fault to be named; or leaving."""

    kind: Literal["test", "set up", "move", "fault", "leave"]
    id: str = ""


@dataclass(frozen=True, slots=True)
class Seen:
    """A test that was made: question, and what was to be seen."""

    question: str
    text: str


@dataclass(frozen=True)
class Practice:
    """A practice as it stands. Immutable; `step` gives the next one.

    `job`: what a technician would know by the same tests, with the real gates; never changed in place. `began`: its
    minutes when the intake was over. `offers`: what a number chooses. `waiting`: what a word is to confirm. `found`:
    the machine's faults named rightly; `named`: the rules' faults named, right or wrong; `wrong`: sound parts named.
    `unsafe`: what was refused, in words.
    """

    scenario: Scenario
    world: World
    complaints: tuple[str, ...]
    job: Job
    machine: Machine
    began: float
    offers: tuple[Offer, ...] = ()
    waiting: Offer | None = None
    seen: tuple[Seen, ...] = ()
    found: tuple[str, ...] = ()
    named: tuple[str, ...] = ()
    wrong: tuple[str, ...] = ()
    unsafe: tuple[str, ...] = ()
    hints: int = 0
    over: bool = False

    @property
    def minutes(self) -> float:
        """Minutes at the bench so far."""
        return self.job.minutes - self.began

    @property
    def missed(self) -> tuple[str, ...]:
        """The machine's faults that were not named."""
        return tuple(fault.name for fault in self.scenario.faults if fault.name not in self.found)


Stepped = tuple[Practice, tuple[str, ...]]
"""The practice after a line, and what is said."""


def now_forbidden(turn: Turn) -> list[str]:
    """What the records of a turn say about dangers: what is forbidden from now on, what no longer is."""
    said: list[str] = []
    for record in turn.records:
        said += _danger_in(turn.job, record)
    return said


def _danger_in(job: Job, record: Record) -> list[str]:
    match record:
        case HazardOpened(name=name, until=until, forbids=forbids):
            acts = ", ".join(job.base.acts[act].say for act in forbids if not job.base.acts[act].left)
            return [say.a_danger(name, acts, until)] if acts else []
        case HazardReleased(hazard=hazard):
            return [say.no_longer_a_danger(job.base.hazards[hazard].name)]
        case _:
            return []
