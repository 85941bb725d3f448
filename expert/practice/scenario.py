"""One machine to practise on, made from a level and a seed and nothing else, so that a whole class has the same."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import TypeVar

from expert.machine import PLATES, SENSORS, Build, Fault, Machine, brought_in, complaints
from expert.machine.build.parts import chance
from expert.practice import sentences as say
from expert.practice.levels import LEVELS, faults_of

T = TypeVar("T")
Fits = Callable[["Scenario"], bool]
_TRIES = 60
# Most benches stand low; one in five of the machines comes from the mountains.
_ALTITUDES = (0.0, 0.0, 0.0, 0.0, 2200.0)


@dataclass(frozen=True, slots=True)
class Scenario:
    """A machine with hidden faults. told: what the customer complains of, worst first, in the machine's words."""

    level: str
    seed: int
    build: Build
    faults: tuple[Fault, ...]
    machine: Machine
    told: tuple[str, ...]


class NoSuchMachine(LookupError):
    """No machine of the level does what was asked for; says what was asked for."""


def scenario(level: str, seed: int, build: Build | None = None, fits: Fits | None = None) -> Scenario:
    """The machine of a level and seed. build: None draws plate, sensor and altitude as well.

    fits: what else is asked of it, for instance a complaint; the first that fits in the seed's own order is taken. A
    machine that its owner would not complain of is never chosen. KeyError for a level that is none; NoSuchMachine if
    none of sixty fits.
    """
    if level not in LEVELS:
        raise KeyError(level)
    for attempt in range(_TRIES):
        found = _drawn(level, seed, attempt, build)
        if found.told and (fits is None or fits(found)):
            return found
    raise NoSuchMachine(say.no_such_machine(level, seed))


def _drawn(level: str, seed: int, attempt: int, build: Build | None) -> Scenario:
    def pick(choices: Sequence[T], what: str) -> T:
        return choices[int(chance(seed, level, attempt, what) * len(choices))]

    made = build or Build(
        PLATES[pick(sorted(PLATES), "plate")],
        pick(SENSORS, "sensor"),
        pick(_ALTITUDES, "altitude"),
    )
    choices = faults_of(level)
    faults = [pick(choices, "fault")]
    if level == "two":
        faults.append(pick([fault for fault in choices if fault.part != faults[0].part], "second fault"))
    machine = brought_in(made, faults, seed)
    return Scenario(level, seed, made, tuple(faults), machine, complaints(machine))
