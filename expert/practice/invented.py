"""A season of invented jobs: simulated machines with hidden faults, through the real dialogue, marked as invented.

So that a newcomer sees sums and reports before the shop has jobs of its own. From one seed, the same on every computer.
Now and then a machine comes back, with the fault that was left in it or with another.
"""

from __future__ import annotations

import os
import random
from collections.abc import Callable, Iterator
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from functools import cache
from hashlib import sha256
from multiprocessing import get_context
from pathlib import Path
from typing import Literal

from expert.desk.opening import shop_of
from expert.desk.pinning import pin_rules
from expert.desk.serials import DIGITS
from expert.desk.session import Session
from expert.desk.unattended import with_machine
from expert.engine.knowledge import Knowledge, knowledge_of
from expert.job.prompts.plate import SERIAL_KEY
from expert.job.state.job import Phase
from expert.language.load import load_rules
from expert.language.model import RuleBase
from expert.language.shipped import shipped
from expert.language.worked.machine_text import machine_text
from expert.machine import FAULTS, PLATES, SENSORS, Build, Fault, brought_in, sound_machine
from expert.practice import sentences as say
from expert.trace.places import SUFFIX, job_path
from expert.witness.playing import Played, fitted, play_on
from expert.witness.table import Table, load_table
from expert.witness.verdict import verdict_on

TABLE = "simulated/heat_exchanger_lever_tank.yaml"
PEOPLE = ("Ines (invented)", "Tomo (invented)", "Ada (invented)")
QUALIFIED = PEOPLE[:1]
OPENS = datetime(2026, 3, 2, 8, 0, tzinfo=UTC)
# How many jobs of each sort come in (common practice, no source).
SEEN = {"common": 12, "occasional": 3, "rare": 1}
SOUND_SHARE, TWO_SHARE = 0.08, 0.06
BACK_SHARE, SAME_SHARE = 0.12, 0.5
SURELY_BACK = (4, 9)  # so that whoever makes a short season sees what a come-back looks like in the sums
AMONG_THE_LAST = 30  # jobs that a machine may come back from
A_LINE = timedelta(seconds=45)
Progress = Callable[[int, int], object]


@dataclass(frozen=True, slots=True)
class Brought:
    """A machine that is brought in: its faults by name, what its owner says, when, and who takes it.

    `serial`: the machine's serial number, as the key that stands in a trace.
    """

    number: str
    serial: str
    faults: tuple[str, ...]
    complaint: str
    plate: str
    sensor: str
    technician: str
    at: datetime
    seed: int


@dataclass(frozen=True, slots=True)
class Truth:
    """What was truly so in an invented job: how good its end was, and the fault by the rules' id ('' for none)."""

    number: str
    verdict: Literal["right", "wrong"]
    fault: str


@cache
def _world() -> tuple[Knowledge, Table]:
    folder = Path(shipped("rules"))
    return knowledge_of(load_rules(folder)), load_table(folder / TABLE)


def invent(folder: Path, jobs: int, seed: int, progress: Progress) -> tuple[Truth, ...]:
    """Play a season into a folder that has no jobs yet; gives the truth about each. Raises FileExistsError, OSError."""
    folder.mkdir(parents=True, exist_ok=True)
    if any(folder.glob(f"*{SUFFIX}")):
        raise FileExistsError(say.holds_jobs_already(folder))
    knowledge, table = _world()
    pin_rules(Path(shipped("rules")), folder, knowledge.base.digest)
    season = tuple(brought(knowledge.base, table, jobs, seed))
    with ProcessPoolExecutor(os.cpu_count(), get_context("spawn")) as pool:
        truths: list[Truth] = []
        for truth in pool.map(_play, ((str(folder), one) for one in season), chunksize=2):
            truths.append(truth)
            progress(1, len(season))
    return tuple(truths)


def brought(base: RuleBase, table: Table, jobs: int, seed: int) -> Iterator[Brought]:
    """What comes in during a season, from the seed alone."""
    chance = random.Random(f"season {seed}")
    known = [fault for fault in FAULTS if _told_of(base, table, fault.name)]
    weights = [SEEN[base.faults[table.faults[fault.name][0]].seen] for fault in known]
    at, last = OPENS, list[Brought]()
    for number in range(1, jobs + 1):
        at += timedelta(hours=chance.choice((3, 5, 8, 20, 27)), minutes=chance.randrange(60))
        faults: list[Fault] = []
        if chance.random() >= SOUND_SHARE:
            faults = chance.choices(known, weights)
            if chance.random() < TWO_SHARE:
                faults.append(chance.choice([other for other in known if other.part != faults[0].part]))
        is_back = chance.random() < BACK_SHARE or number in SURELY_BACK
        back = chance.choice(last) if last and is_back else None
        if back is not None and back.faults and chance.random() < SAME_SHARE:
            faults = [fault for fault in known if fault.name in back.faults]
        told = _told_of(base, table, faults[0].name) if faults else _normal(base)
        one = Brought(
            f"{number:04d}",
            back.serial if back else sha256(f"invented {seed} {number}".encode()).hexdigest()[:DIGITS],
            tuple(fault.name for fault in faults),
            chance.choice(told),
            back.plate if back else chance.choice([p for p in PLATES if p.startswith("230")] or list(PLATES)),
            SENSORS[0],
            chance.choice(PEOPLE),
            at,
            chance.randrange(1_000_000),
        )
        last = [*last, one][-AMONG_THE_LAST:]
        yield one


def _told_of(base: RuleBase, table: Table, fault: str) -> tuple[str, ...]:
    """What an owner complains of: what the rules' fault explains."""
    ids = [id_ for id_ in table.faults.get(fault, ()) if id_ in base.faults]
    return tuple(complaint for id_ in ids[:1] for complaint in base.faults[id_].explains)


def _normal(base: RuleBase) -> tuple[str, ...]:
    """Complaints that a sound machine can give rise to."""
    named = {c for rule in base.rules.values() for said in rule.then for c in getattr(said, "complaints", ())}
    return tuple(complaint for complaint in base.complaints if complaint in named)


def _play(task: tuple[str, Brought]) -> Truth:
    """One job: played on the machine, then typed at a desk so that its trace is written as every trace is."""
    folder, one = Path(task[0]), task[1]
    knowledge, table = _world()
    build = Build(PLATES[one.plate], one.sensor, altitude=0.0)
    faults = [fault for fault in FAULTS if fault.name in one.faults]
    machine = brought_in(build, faults, one.seed) if faults else sound_machine(build, one.seed)
    played = play_on(knowledge, table, machine, (one.complaint,), one.technician in QUALIFIED)
    _type_again(knowledge, table, build, played, one, folder)
    came_to = verdict_on(knowledge, table, faults, played)
    is_wrong = came_to.condemned or came_to.slipped or (came_to.missed and not came_to.listed)
    ids = [id_ for fault in faults[:1] for id_ in table.faults.get(fault.name, ()) if id_ in knowledge.base.faults]
    return Truth(one.number, "wrong" if is_wrong else "right", ids[0] if ids else "")


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
        is_told = False
        for position, line in enumerate(played.typed):
            if session.job.prompt.subject == "plate" and not is_told:
                is_told = True
                session.say(f"serial {SERIAL_KEY}{one.serial}")
            session.say(one.technician if position == 0 else line)
        if session.job.phase is not Phase.DONE:
            session.say("pause")
    finally:
        session.close()
