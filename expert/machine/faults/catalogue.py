"""All faults of layout A together, found by name, and what putting a part right means."""

from __future__ import annotations

from expert.machine.faults.boiler import BOILER_FAULTS
from expert.machine.faults.brew import BREW_FAULTS
from expert.machine.faults.circumstances import CIRCUMSTANCES
from expert.machine.faults.fault import Fault
from expert.machine.faults.fill import FILL_FAULTS
from expert.machine.faults.heat import HEAT_FAULTS
from expert.machine.faults.mains import MAINS_FAULTS
from expert.machine.running.machine import Machine

FAULTS = (*MAINS_FAULTS, *HEAT_FAULTS, *BOILER_FAULTS, *FILL_FAULTS, *BREW_FAULTS, *CIRCUMSTANCES)
BY_NAME = {fault.name: fault for fault in FAULTS}
PARTS = tuple(dict.fromkeys(fault.part for fault in FAULTS))


def fault(part: str, mode: str) -> Fault:
    """The fault of that part and mode. KeyError names what was asked for.

    >>> fault("element", "open circuit").grade
    'common'
    """
    return BY_NAME[f"{part}: {mode}"]


def mended(machine: Machine, sound: Machine, part: str) -> Machine:
    """The machine with one part as in the sound machine: every parameter that any fault of that part changes.

    KeyError if no fault of the catalogue is of that part.
    """
    if part not in PARTS:
        raise KeyError(part)
    for known in FAULTS:
        if known.part == part:
            for change in known.changes:
                machine = change.undo(machine, sound)
    return machine
