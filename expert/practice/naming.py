"""Naming a part and its failure: it is repaired, and the machine shows whether that was it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from expert.job.state.hazards import watch
from expert.job.state.job import Turn
from expert.practice import sentences as say
from expert.practice.practice import Offer, Practice, Stepped
from expert.witness.consequences import consequences
from expert.witness.playing import repaired


def ask_whether(practice: Practice, name: str) -> Stepped:
    """Have the part and its failure confirmed before they count."""
    waiting = replace(practice, waiting=Offer("fault", name), offers=())
    return waiting, (say.you_name(practice.job.fault_name(name)),)


def name_it(practice: Practice, name: str) -> Stepped:
    """What comes of naming a fault of the rules. The practice is over once every fault was named."""
    practice = replace(practice, waiting=None)
    job = practice.job
    fault = job.base.faults[name]
    called = job.fault_name(name)
    if name in practice.named:
        return practice, (say.named_before(called),)
    table = practice.world.table
    ids = {one.name: table.faults.get(one.name, ()) for one in practice.scenario.faults}
    right = [one for one, names in ids.items() if name in names and one not in practice.found]
    parts = {job.base.faults[one].part for names in ids.values() for one in names if one in job.base.faults}
    practice = replace(practice, named=(*practice.named, name))
    if right:
        return _right(practice, name, right)
    if fault.result or fault.part in consequences(practice.machine):
        practice = _mended(practice, name)
        return practice, (say.put_right(called),)
    practice = _mended(practice, name) if fault.part not in parts else practice
    if fault.part in parts:
        return practice, (say.not_that_and_near(called),)
    minutes = say.minutes_for_nothing(fault.repair.minutes)
    practice = replace(practice, wrong=(*practice.wrong, called))
    return practice, (say.sound_part_repaired(called, minutes),)


def _right(practice: Practice, name: str, right: Sequence[str]) -> Stepped:
    called = practice.job.fault_name(name)
    practice = replace(_mended(practice, name, costs=False), found=(*practice.found, *right))
    if not practice.missed:
        return replace(practice, over=True), (f"RIGHT: {called}.",)
    return practice, (say.right_and_not_all(called),)


def _mended(practice: Practice, name: str, costs: bool = True) -> Practice:
    """The repair is done. What a repair of the true fault takes is not counted: the expert's is not either."""
    turn = Turn(practice.job.copy())
    job = turn.job
    fault = job.base.faults[name]
    job.minutes += fault.repair.minutes if costs else 0.0
    job.repaired[name] = None
    job.repaired_at[name] = job.next_number
    watch(turn)
    machine = repaired(practice.machine, practice.world.table, fault.part, name)
    return replace(practice, job=job, machine=machine)
