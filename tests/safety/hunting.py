"""Jobs that seek the dangers: for each number a technician, an aim and an order of questions, always the same."""

from __future__ import annotations

import random
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field

from expert.desk.opening import shop_of
from expert.engine.knowledge import Knowledge
from expert.language.model import RuleBase
from expert.trace.records import Record
from tests.safety.cheap_search import AnyQuestion
from tests.safety.habits import Habits
from tests.safety.judge import Judge
from tests.safety.playing import Played, play
from tests.safety.readings import Readings
from tests.safety.seeking import Answers, Seeker, complaints_in, questions_in, quiet_ways
from tests.safety.technicians import Aim, Technician

SINCE = ("question", "question", "question", "repair", "proof", "close")
# The rarest of the long runs: they are seen only when it heats, or by a test that is seldom put.
SELDOM_MET = ("controller_cannot_switch_off", "set_too_high", "insulation_is_low_when_hot")
RARE = (
    *SELDOM_MET,
    *("part_leaks_to_the_body", "fuse_is_blown", "probe_is_loose", "wiring_is_burnt", "relay_cannot_switch_off"),
    *("limit_has_acted", "valve_cannot_blow_off", "insulation_is_low_when_hot"),
)
UNSTEADY_EVERY = 4  # of so many who seek what is seen at work, one errs like the others
RARE_EVERY = 3  # of so many jobs one seeks a rare danger
WITH_PLANNER = 50  # every so many jobs one is led by the real planner


@dataclass(slots=True)
class Hunt:
    """Plays jobs by their number. `judging`: what the judge knows, where it is not what is played with."""

    knowledge: Knowledge
    judging: RuleBase | None = None
    readings: Readings = field(default_factory=Readings)
    ways: dict[str, list[Answers]] = field(init=False)
    seldom: list[str] = field(init=False)
    rare: list[str] = field(init=False)
    quiet: dict[str, list[Answers]] = field(init=False)

    def __post_init__(self) -> None:
        base = self.knowledge.base
        seeker = Seeker(base, next(iter(base.machines)), random.Random("ways"))
        self.ways = {hazard.id: seeker.ways_to_open(hazard) for hazard in (self.judging or base).hazards.values()}
        self.seldom = [name for name in SELDOM_MET if self.ways.get(name)]
        self.rare = [name for name in RARE if self.ways.get(name)]
        hazards = (self.judging or base).hazards
        self.quiet = {name: quiet_ways(base, next(iter(base.machines)), hazards[name]) for name in {*self.rare}}

    def job(
        self,
        number: int,
        hear: Callable[[Judge, list[Record]], object] = lambda judge, batch: None,
        habits: bool = True,
    ) -> Caught:
        """Play one job under a judge. Without `habits` only what stands on the screen is typed, word for word."""
        chance = random.Random(f"job {number}")
        aim = self.aim(chance, number, rare_too=habits)
        judge = Judge(self.judging or self.knowledge.base)
        search = None if number % WITH_PLANNER == 0 else AnyQuestion(chance, tuple(aim.outcomes))

        def listen(batch: list[Record]) -> None:
            judge.hear(batch)
            hear(judge, batch)

        technician = Technician.of(chance, self.knowledge.base, self.readings, aim)
        if habits and number % UNSTEADY_EVERY and self._is_seen_at_work(aim):
            technician.be_steady()
        typing = Habits.of(number) if habits else None
        shop = shop_of(self.knowledge)
        return Caught(number, play(self.knowledge, shop, technician, listen, search, habits=typing), judge)

    def jobs(self, numbers: range) -> Iterator[Caught]:
        return map(self.job, numbers)

    def _is_seen_at_work(self, aim: Aim) -> bool:
        """Whether what is sought is only met on a machine that was heated or switched on: all else has to be sound."""
        questions = self.knowledge.base.questions
        benches = [questions[name].bench for name in aim.outcomes]
        return any(bench.get("mains") == "on" or bench.get("boiler") == "hot" for bench in benches)

    def aim(self, chance: random.Random, number: int, *, rare_too: bool = False) -> Aim:
        """Each hazard in its turn, by one of its ways; now and then none.

        Where nothing need be sought (it stands from the start) the turn goes to one that is seldom met. `rare_too`:
        some turns more for those.
        """
        names = list(self.ways)
        name = names[number % len(names)] if names else ""
        if rare_too and self.rare and number % RARE_EVERY == 0:
            name = self.rare[number // RARE_EVERY % len(self.rare)]
        elif self.seldom and not self.ways.get(name):
            name = self.seldom[number // len(names) % len(self.seldom)]
        if not self.ways.get(name) or chance.random() < 0.1:
            return Aim()
        is_rare = rare_too and name in self.rare and chance.random() < 0.8
        if is_rare:
            answers = chance.choice(self.quiet[name])
            return Aim(name, questions_in(self.knowledge.base, answers), complaints_in(answers))
        answers = chance.choice(self.ways[name])
        return Aim(name, questions_in(self.knowledge.base, answers), complaints_in(answers), chance.choice(SINCE))


@dataclass(frozen=True, slots=True)
class Caught:
    """A job that was played, and the judge who heard it."""

    number: int
    played: Played
    judge: Judge
