"""Opening a practice: a machine from level and seed, what its customer says, and its intake done."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from expert.engine.knowledge import knowledge_of
from expert.job.state.bench import state_in_words
from expert.language.load import load_rules
from expert.language.shipped import shipped
from expert.machine import PLATES, SENSORS, Build
from expert.practice import sentences as say
from expert.practice.levels import LEVELS
from expert.practice.practice import Practice, Stepped, World
from expert.practice.scenario import Scenario, scenario
from expert.practice.told import in_the_rules, wanted_words
from expert.trade.counting import counted
from expert.trade.quantities.units import echo
from expert.witness.playing import take_in
from expert.witness.table import load_table

TABLE = "simulated/heat_exchanger_lever_tank.yaml"


class NoSuchBuild(ValueError):
    """A machine asked for that there is not; the message says what there is."""


@cache
def shipped_world() -> World:
    """The shipped rules and their table, loaded once. Raises RulesRefused, OSError."""
    folder = Path(shipped("rules"))
    return World(knowledge_of(load_rules(folder)), load_table(folder / TABLE))


def build_named(text: str) -> Build | None:
    """A machine by its mains and its sensor, such as "230/50" or "120/60 pt1000"; None for ''. Raises NoSuchBuild.

    >>> build_named("120/60 pt1000").sensor
    'pt1000'
    """
    plate, _, sensor = " ".join(text.casefold().split()).partition(" ")
    if not plate:
        return None
    if plate not in PLATES or (sensor and sensor not in SENSORS):
        there = say.what_a_plate_is(", ".join(PLATES), ", ".join(SENSORS))
        raise NoSuchBuild(say.no_machine_to_practise_on(echo(text), there))
    return Build(PLATES[plate], sensor or SENSORS[0])


def opened(
    world: World, level: str, seed: int, build: Build | None = None, complaint: str = "", qualified: bool = False
) -> Stepped:
    """A practice and its first lines. Raises NoSuchMachine and NoSuchComplaint; KeyError for a level that is none."""
    base = world.knowledge.base
    words = wanted_words(base, complaint) if complaint.strip() else None

    def fits(found: Scenario) -> bool:
        # What the rules have no name for could not be named by anybody.
        known = all(set(world.table.faults.get(fault.name, ())) & base.faults.keys() for fault in found.faults)
        return known and (words is None or bool(words & set(found.told)))

    return begun(world, scenario(level, seed, build, fits), qualified)


def begun(world: World, found: Scenario, qualified: bool = False) -> Stepped:
    """A practice on this machine, its intake done, and its first lines."""
    complaints = in_the_rules(found.told)
    job = take_in(world.knowledge, world.table, found.machine, complaints, qualified).job
    practice = Practice(found, world, complaints, job, found.machine, job.minutes)
    return practice, _first_lines(practice)


def _first_lines(practice: Practice) -> tuple[str, ...]:
    found, build = practice.scenario, practice.scenario.build
    plate = build.plate
    place = say.above_the_sea(build.altitude) if build.altitude else ""
    return (
        say.begins(found.level, LEVELS[found.level], found.seed),
        say.plate(plate.volts, plate.hertz, plate.watts, build.sensor, place),
        say.customer_says("; ".join(found.told)),
        say.stands_and_you_are(state_in_words(practice.job), "" if practice.job.qualified else "not "),
        say.find(counted(len(found.faults), "fault")),
    )
