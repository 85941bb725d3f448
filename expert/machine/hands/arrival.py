"""Machines as a customer brings them: with their faults, and with what using them so has left behind."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from functools import lru_cache

from expert.machine.bench import actions as a
from expert.machine.build.plate import Build
from expert.machine.faults.fault import Fault
from expert.machine.hands.do import do
from expert.machine.hands.sound import sound_machine
from expert.machine.running.instant import instant
from expert.machine.running.machine import Machine
from expert.machine.running.state import Ledger

_ROUND: tuple[a.Action, ...] = (
    a.Flush(8.0),
    a.Tap("steam", 1.0),
    a.Wait(50.0),
    a.Tap("steam", 0.0),
    a.Wait(200.0),
)
_LAST_USE: tuple[a.Action, ...] = (a.Plug(True), a.HeatUp(minutes=18.0, settle=3.0), *_ROUND, *_ROUND)
_NIGHT: tuple[a.Action, ...] = (a.CoolDown(0.0), a.Wait(6 * 3600.0), a.Plug(False))
_DAYS_BEFORE = 8
_TAKEN_FOR_WET = 5.0  # s for which the board takes the probe for wet although the water is below it
_LEAST_LEFT = 0.12


def with_faults(build: Build, faults: Iterable[Fault], seed: int = 0) -> Machine:
    """A machine with faults, cold, as if they had come about a moment ago and nobody had used it since."""
    machine = sound_machine(build, seed)
    for fault in faults:
        machine = fault.into(machine)
    return machine


def brought_in(build: Build, faults: Iterable[Fault], seed: int = 0) -> Machine:
    """A machine with faults after its owner's last use: half an hour hot, two flushes, steam twice, a night's rest.

    What follows from the faults has happened: fuses blown, limits tripped, the boiler low or overfull, an element
    burnt. Faults of storage come after that. The tank is as full as it came out.
    """
    return _brought_in(build, tuple(faults), seed)


@lru_cache(maxsize=256)
def _brought_in(build: Build, faults: tuple[Fault, ...], seed: int) -> Machine:
    machine = with_faults(build, [fault for fault in faults if not fault.stored], seed)
    before = machine.state.boiler_water
    machine = _doing(machine, _LAST_USE)
    lost, now = before - machine.state.boiler_water, instant(machine)
    unseen = now.space.water < machine.parts.water.boiler.probe_tip and machine.state.board.wet_for > _TAKEN_FOR_WET
    if unseen and now.inputs.powered:
        # What one day took and nothing made good nor complained of, the days before took as well.
        left = max(machine.state.boiler_water - lost * _DAYS_BEFORE, _LEAST_LEFT)
        machine = replace(machine, state=replace(machine.state, boiler_water=left))
        machine = _doing(machine, (a.Wait(600.0),))
    machine = _doing(machine, _NIGHT)
    for fault in faults:
        machine = fault.into(machine) if fault.stored else machine
    return replace(machine, state=replace(machine.state, clock=0.0, ledger=Ledger(), rcd_tripped=False))


def _doing(machine: Machine, actions: Iterable[a.Action]) -> Machine:
    for action in actions:
        machine = do(machine, action)
    return machine
