"""Asking the simulated machine everything, fault by fault: how a record is made."""

from __future__ import annotations

from collections.abc import Mapping
from hashlib import sha256
from types import MappingProxyType

from expert.job.answers.sound import CANNOT_TELL
from expert.language.model import Question, RuleBase
from expert.machine import FAULTS, PLATES, Build, Fault, Machine, brought_in, complaints, sound_machine
from expert.witness.answering import answer
from expert.witness.consequences import consequences
from expert.witness.playing import HOT, brought_to, fitted, plate_lines
from expert.witness.record import MachineRecord, Place, Shown
from expert.witness.table import Line, Table

# Two machines as unlike as the layout allows: mains, sensor, height.
BUILDS: Mapping[str, Build] = MappingProxyType(
    {
        "230 V, NTC, sea level": Build(),
        "120 V, platinum, 2200 m": Build(plate=PLATES["120/60"], sensor="pt1000", altitude=2200.0),
    }
)
KNOWN: Mapping[str, Fault] = MappingProxyType({fault.name: fault for fault in FAULTS})
HEATED = {"mains": "on", "covers": "on", "boiler": "hot"}
ALL: tuple[tuple[str, str], ...] = tuple((place, fault) for place in BUILDS for fault in ("", *KNOWN))
"""Every machine of the record: where, and with which fault ('' for none)."""


def record_of(base: RuleBase, table: Table, shown: tuple[Shown, ...]) -> MachineRecord:
    """The record made of what was seen."""
    type_ = base.machines[table.machine]
    places = tuple(
        Place(name, plate_lines(build), {"sensor": fitted(type_, build).features["sensor"]})
        for name, build in BUILDS.items()
    )
    lines = {name: digest_of(line) for name, line in table.lines.items()}
    return MachineRecord(table.machine, places, shown, lines, table.complains)


def digest_of(line: Line) -> str:
    """What tells whether a question is still answered as when the record was made."""
    return sha256(repr(line).encode()).hexdigest()[:12]


def show(base: RuleBase, table: Table, place: str, fault: str) -> Shown:
    """One machine, asked every question that the table has a line for, each by itself."""
    machine = as_brought_in(place, fault)
    typed = {name: said for name in base.questions if (said := said_of(base, table, machine, name)) != CANNOT_TELL}
    parts = tuple(sorted(consequences(machine)))
    return Shown(place, fault, table.faults.get(fault, ()), parts, typed, complaints(machine))


def as_brought_in(place: str, fault: str) -> Machine:
    """The machine as its owner brings it, cold and unplugged."""
    build = BUILDS[place]
    return brought_in(build, [KNOWN[fault]]) if fault else sound_machine(build)


def said_of(base: RuleBase, table: Table, machine: Machine, question: str) -> str:
    """What would be typed at this question, the machine brought into the state in which it is put."""
    asked: Question = base.questions[question]
    if question not in table.lines:
        return CANNOT_TELL
    stands = standing_for(machine, asked.bench)
    return CANNOT_TELL if stands is None else answer(stands, asked, table.lines[question]).text


def standing_for(machine: Machine, wanted: Mapping[str, str]) -> Machine | None:
    """The machine in a bench state; None where it never gets hot and nobody would say that it is.

    What is to be hot with its plug out is heated before.
    """
    if wanted.get("boiler") != "hot":
        return brought_to(machine, dict(wanted), {})
    machine = brought_to(machine, HEATED, {})
    return brought_to(machine, dict(wanted), HEATED) if machine.state.boiler >= HOT else None
