"""Which of the faults that rules confirm are proved: whether anything else could have given the same answers.

A rule names its `rivals`. A fault that only such rules confirm is held back as long as one of their rivals is possible:
it is named, and neither found nor repaired. Pure.
"""

from __future__ import annotations

from collections.abc import Mapping

from expert.engine.knowledge import Knowledge
from expert.engine.state import State
from expert.trade.frozen import dataclass


@dataclass(frozen=True, slots=True)
class Confirmed:
    """The faults that the rules confirm: those that are proved, and those held back with the rivals they wait for."""

    proved: tuple[str, ...]
    held: Mapping[str, tuple[str, ...]]


def confirmed_in(knowledge: Knowledge, state: State) -> Confirmed:
    """Every fault that can only be present, proved or held back."""
    proved: list[str] = []
    held: dict[str, tuple[str, ...]] = {}
    for fault in knowledge.base.faults:
        if state.possible(fault) == ("present",):
            waits_for = _waits_for(knowledge, state, fault)
            if waits_for:
                held[fault] = waits_for
            else:
                proved.append(fault)
    # Where a rival is proved, it accounts for the answers: what waited for it is no suspect any more.
    waiting = {fault: rivals for fault, rivals in held.items() if not set(rivals) & set(proved)}
    return Confirmed(tuple(proved), waiting)


def _waits_for(knowledge: Knowledge, state: State, fault: str) -> tuple[str, ...]:
    """The rivals still possible of the confirming rule that has fewest of them; none when one rule has none left."""
    left = [
        tuple(rival for rival in knowledge.rivals.get(rule, ()) if "present" in state.possible(rival))
        for rule in knowledge.confirming.get(fault, ())
        if rule in state.fired
    ]
    return min(left, key=len, default=())
