"""What is no part's fault and still brings a machine to the bench: water, supply, settings, handling."""

from __future__ import annotations

from expert.machine.faults.change import Set
from expert.machine.faults.fault import COMMON, OCCASIONAL, RARE, Fault
from expert.machine.running.machine import Machine

PURE = 4.0  # uS/cm; distilled 0.5 to 5, after reverse osmosis below 20


def _low(machine: Machine) -> float:
    return machine.build.plate.volts * 0.84


def _high(machine: Machine) -> float:
    return machine.build.plate.volts * 1.12


def _circumstance(part: str, mode: str, grade: str, path: str, value: object, stored: bool = False) -> Fault:
    return Fault(part, mode, grade, (Set(path, value),), of_a_part=False, stored=stored)  # type: ignore[arg-type]


CIRCUMSTANCES = (
    Fault(
        "water",
        "too pure for the probe",
        OCCASIONAL,
        (
            Set("build.conductivity", PURE),
            Set("state.salts", lambda machine: PURE * machine.state.boiler_water),
        ),
        of_a_part=False,
    ),
    _circumstance("supply", "voltage low", OCCASIONAL, "build.supply_volts", _low),
    _circumstance("supply", "voltage high", RARE, "build.supply_volts", _high),
    _circumstance("tank", "empty", COMMON, "state.tank", 0.05, True),
    _circumstance("set point", "set too low", OCCASIONAL, "parts.mains.controller.set_point", 104.0),
    _circumstance("set point", "set too high", OCCASIONAL, "parts.mains.controller.set_point", 129.0),
    _circumstance("steam tap", "left open a little", OCCASIONAL, "bench.steam_tap", 0.1, True),
)
