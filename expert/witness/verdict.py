"""What a played job came to, held against what was truly wrong with the machine."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from expert.engine.knowledge import Knowledge
from expert.machine import Fault
from expert.machine.faults.change import Set
from expert.trace.records import Answered, CannotTell, Found, SearchEnded
from expert.witness.playing import Played
from expert.witness.table import Table

SHORT = 5  # so many suspects make a list that a bench can work through
NAMED = ("found", "left_by_elimination", "repaired")


@dataclass(frozen=True, slots=True)
class Verdict:
    """One job. `found`, `listed`, `missed`: the machine's faults by name. `condemned`: rules' faults named or repaired
    whose part is sound. `slipped`: faults still in the machine that was handed back as repaired or as normal."""

    found: tuple[str, ...]
    listed: tuple[str, ...]
    missed: tuple[str, ...]
    condemned: tuple[str, ...]
    slipped: tuple[str, ...]
    ending: str
    outcome: str
    questions: int
    minutes: float


def verdict_on(knowledge: Knowledge, table: Table, faults: Sequence[Fault], played: Played) -> Verdict:
    """What the job came to. `faults`: what is truly wrong, in the machine's words."""
    named = named_in(played)
    listed = [fault for fault, standing in played.job.found.items() if standing == "narrowed"][:SHORT]
    truth = {fault.name: table.faults.get(fault.name, ()) for fault in faults}
    answered = {one.name for one in faults if is_answered(one, truth[one.name], faults, played)}
    found = tuple(name for name, ids in truth.items() if set(ids) & set(named) or name in answered)
    on_list = tuple(name for name, ids in truth.items() if name not in found and set(ids) & set(listed))
    known = knowledge.base.faults
    wrong_parts = {known[id_].part for ids in truth.values() for id_ in ids if id_ in known}
    wrong_parts |= played.happened
    # A result, as a limit that tripped or a board that locked itself, blames no part.
    condemned = tuple(f for f in named if known[f].part not in wrong_parts and not known[f].result)
    ending = played.job.closing.get("ending", "") or played.job.outcome
    still_in = tuple(fault.name for fault in faults if fault.name not in answered and is_there(fault, played))
    return Verdict(
        found,
        on_list,
        tuple(name for name in truth if name not in (*found, *on_list)),
        condemned,
        still_in if ending in ("repaired", "normal") else (),
        ending,
        played.job.outcome,
        sum(isinstance(record, Answered | CannotTell) for record in played.records),
        round(float(played.job.minutes), 1),
    )


def is_answered(fault: Fault, ids: Sequence[str], faults: Sequence[Fault], played: Played) -> bool:
    """Whether the job says of what is no fault of the machine that it is none: a complaint ended as normal, then or
    later; or, beside another fault, the bench has set it right and the machine went back with its work proved."""
    if not _no_fault_of_the_machine(fault, ids):
        return False
    ends = {record.outcome for record in played.records if isinstance(record, SearchEnded)}
    set_right = fault.stored and len(faults) > 1 and played.job.closing.get("ending") == "repaired"
    return "normal" in ends or set_right


def is_there(fault: Fault, played: Played) -> bool:
    """Whether a fault is still in the machine: nobody repaired its part, and no test put its state right, as priming
    does that of a pump that is air-locked."""
    states = [one for one in fault.changes if isinstance(one, Set) and one.path.startswith("state.")]
    return fault.part not in played.mended and all(one.apply(played.machine) == played.machine for one in states)


def _no_fault_of_the_machine(fault: Fault, ids: Sequence[str]) -> bool:
    """Whether "nothing is wrong with the machine" is the true answer: the supply of the house, or what the bench sets
    right by itself when it fills the tank or closes a tap."""
    return not fault.of_a_part and (fault.stored or not ids)


def named_in(played: Played) -> tuple[str, ...]:
    """The faults that the job called found or left by elimination, or had repaired."""
    named = [record.fault for record in played.records if isinstance(record, Found) and record.standing in NAMED]
    return tuple(dict.fromkeys([*named, *played.job.repaired]))
