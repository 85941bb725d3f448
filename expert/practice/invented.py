"""A season of invented jobs: simulated machines with hidden faults, through the real dialogue, marked as invented.

So that a newcomer sees sums and reports before the shop has jobs of its own. From one seed, the same on every computer.
"""

from __future__ import annotations

import os
import random
from collections.abc import Callable, Iterator
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from functools import cache
from multiprocessing import get_context
from pathlib import Path

from expert.desk.opening import shop_of
from expert.desk.pinning import pin_rules
from expert.desk.session import Session
from expert.desk.unattended import with_machine
from expert.engine.knowledge import Knowledge, knowledge_of
from expert.job.state.job import Phase
from expert.language.load import load_rules
from expert.language.model import RuleBase
from expert.language.shipped import shipped
from expert.language.worked.machine_text import machine_text
from expert.machine import FAULTS, PLATES, SENSORS, Build, Fault, brought_in, sound_machine
from expert.trace.places import SUFFIX, job_path
from expert.witness.playing import Played, fitted, play_on
from expert.witness.table import Table, load_table

TABLE = "simulated/heat_exchanger_lever_tank.yaml"
PEOPLE = ("Ines (invented)", "Tomo (invented)", "Ada (invented)")
QUALIFIED = PEOPLE[:1]
OPENS = datetime(2026, 3, 2, 8, 0, tzinfo=UTC)
# How many jobs of each sort come in (common practice, no source).
SEEN = {"common": 12, "occasional": 3, "rare": 1}
SOUND_SHARE, TWO_SHARE = 0.08, 0.06
A_LINE = timedelta(seconds=45)
Progress = Callable[[int, int], object]


@dataclass(frozen=True, slots=True)
class Brought:
    """A machine that is brought in: its faults by name, what its owner says, when, and who takes it."""

    number: str
    faults: tuple[str, ...]
    complaint: str
    plate: str
    sensor: str
    technician: str
    at: datetime
    seed: int


@cache
def _world() -> tuple[Knowledge, Table]:
    folder = Path(shipped("rules"))
    return knowledge_of(load_rules(folder)), load_table(folder / TABLE)


def invent(folder: Path, jobs: int, seed: int, progress: Progress) -> int:
    """Play a season into a folder that has no jobs yet; gives how many there are. Raises FileExistsError, OSError."""
    folder.mkdir(parents=True, exist_ok=True)
    if any(folder.glob(f"*{SUFFIX}")):
        raise FileExistsError(f"{folder} holds jobs already: a season is made in a folder of its own")
    knowledge, table = _world()
    pin_rules(Path(shipped("rules")), folder, knowledge.base.digest)
    season = tuple(brought(knowledge.base, table, jobs, seed))
    with ProcessPoolExecutor(os.cpu_count(), get_context("spawn")) as pool:
        for _ in pool.map(_play, ((str(folder), one) for one in season), chunksize=2):
            progress(1, len(season))
    return len(season)


def brought(base: RuleBase, table: Table, jobs: int, seed: int) -> Iterator[Brought]:
    """What comes in during a season, from the seed alone."""
    chance = random.Random(f"season {seed}")
    known = [fault for fault in FAULTS if _told_of(base, table, fault.name)]
    weights = [SEEN[base.faults[table.faults[fault.name][0]].seen] for fault in known]
    at = OPENS
    for number in range(1, jobs + 1):
        at += timedelta(hours=chance.choice((3, 5, 8, 20, 27)), minutes=chance.randrange(60))
        faults: list[Fault] = []
        if chance.random() >= SOUND_SHARE:
            faults = chance.choices(known, weights)
            if chance.random() < TWO_SHARE:
                faults.append(chance.choice([other for other in known if other.part != faults[0].part]))
        told = _told_of(base, table, faults[0].name) if faults else _normal(base)
        yield Brought(
            f"{number:04d}",
            tuple(fault.name for fault in faults),
            chance.choice(told),
            chance.choice([plate for plate in PLATES if plate.startswith("230")] or list(PLATES)),
            SENSORS[0],
            chance.choice(PEOPLE),
            at,
            chance.randrange(1_000_000),
        )


def _told_of(base: RuleBase, table: Table, fault: str) -> tuple[str, ...]:
    """What an owner complains of: what the rules' fault explains."""
    ids = [id_ for id_ in table.faults.get(fault, ()) if id_ in base.faults]
    return tuple(complaint for id_ in ids[:1] for complaint in base.faults[id_].explains)


def _normal(base: RuleBase) -> tuple[str, ...]:
    """Complaints that a sound machine can give rise to."""
    named = {c for rule in base.rules.values() for said in rule.then for c in getattr(said, "complaints", ())}
    return tuple(complaint for complaint in base.complaints if complaint in named)


def _play(task: tuple[str, Brought]) -> str:
    """One job: played on the machine, then typed at a desk so that its trace is written as every trace is."""
    folder, one = Path(task[0]), task[1]
    knowledge, table = _world()
    build = Build(PLATES[one.plate], one.sensor, altitude=0.0)
    faults = [fault for fault in FAULTS if fault.name in one.faults]
    machine = brought_in(build, faults, one.seed) if faults else sound_machine(build, one.seed)
    played = play_on(knowledge, table, machine, (one.complaint,), one.technician in QUALIFIED)
    _type_again(knowledge, table, build, played, one, folder)
    return one.number


def _type_again(knowledge: Knowledge, table: Table, build: Build, played: Played, one: Brought, folder: Path) -> None:
    type_ = fitted(knowledge.base.machines[table.machine], build)
    own = "" if type_ == knowledge.base.machines[table.machine] else machine_text(type_)
    moment = one.at

    def clock() -> datetime:
        nonlocal moment
        moment += A_LINE
        return moment

    session, _ = Session.open(
        with_machine(knowledge, type_), shop_of(knowledge), job_path(folder, one.number), one.number, clock,
        machine_file=own, purpose="invented",
    )  # fmt: skip
    try:
        for position, line in enumerate(played.typed):
            session.say(one.technician if position == 0 else line)
        if session.job.phase is not Phase.DONE:
            session.say("pause")
    finally:
        session.close()
