"""Levels of practice: which faults a machine may have. Own names; what is rare is common practice, no source."""

from __future__ import annotations

from expert.machine import FAULTS, Fault
from expert.machine.faults.fault import COMMON

LEVELS = {
    "common": "one fault, of the kinds seen every week",
    "rare": "one fault, of the kinds seen once a year",
    "two": "two faults in different parts",
    "misleading": "what the customer tells points to a part that is sound",
}

# Faults whose complaint leads away from them, and why.
MISLEADING = {
    "level probe: insulator cracked and wet": "the boiler ran low and its limit opened: looks like the heating",
    "level probe: touches the wall": "the boiler ran low and its limit opened: looks like the heating",
    "control board: probe input always wet": "the boiler ran low and its limit opened: looks like the heating",
    "fill solenoid: coil with shorted turns": "its fuse feeds the board and the pump as well",
    "temperature sensor: resistance in its plug": "right when cold, too low when hot: looks like the limit",
    "temperature sensor: out of its pocket": "the sensor is good, its place is not: looks like the limit",
    "temperature controller: set to another sensor": "every part is good: a setting",
    "temperature controller: offset set, reads high": "the display is right by its own lights",
    "tank: not seated": "the alarm speaks of the boiler",
    "suction filter: blocked": "the pump is loud and weak",
    "suction hose: draws air": "the pump is loud and weak",
    "vacuum valve: stuck closed": "pressure without temperature: looks like the controller",
    "boiler gauge: stuck at zero": "the machine is good, its gauge is not",
    "boiler gauge: capillary blocked": "the machine is good, its gauge is not",
    "boiler gauge: reads low": "the machine is good, its gauge is not",
    "pump gauge: reads low": "the pump is good, its gauge is not",
    "pump gauge: dead at zero": "the pump is good, its gauge is not",
    "brew non-return valve: leaks back": "steam at the group: looks like too hot a boiler",
    "heat exchanger: pinhole into the boiler": "little water at the group, and a boiler that rises",
    "fill solenoid: passes when closed": "little water at the group, and a boiler that rises",
    "group exhaust valve: leaks while brewing": "low pressure with a good pump",
    "water: too pure for the probe": "the alarm comes, and every part is good",
    "supply: voltage low": "slow to heat, and every part is good",
    "set point: set too low": "lukewarm, and every part is good",
}


def faults_of(level: str) -> tuple[Fault, ...]:
    """The faults that a machine of a level is chosen from. KeyError names a level that is none.

    >>> {fault.grade for fault in faults_of("common")}, faults_of("two") == faults_of("rare") + faults_of("common")
    ({'common'}, True)
    """
    if level not in LEVELS:
        raise KeyError(level)
    parts = tuple(fault for fault in FAULTS if fault.of_a_part)
    common = tuple(fault for fault in parts if fault.grade == COMMON)
    rare = tuple(fault for fault in parts if fault.grade != COMMON)
    misleading = tuple(fault for fault in FAULTS if fault.name in MISLEADING)
    return {"common": common, "rare": rare, "two": rare + common, "misleading": misleading}[level]
