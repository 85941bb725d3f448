"""What came up in the worked cases, and what of the rules never did."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from expert.language.model import RuleBase
from expert.trace.records import Answered, CautionShown, Fired, Found, Proved, Record, Repaired
from expert.workbench.sentences import cases as say


@dataclass(frozen=True, slots=True)
class CameUp:
    """Ids that came up while a case was played; outcomes as `question: outcome`."""

    rules: frozenset[str] = frozenset()
    faults: frozenset[str] = frozenset()
    outcomes: frozenset[str] = frozenset()
    cautions: frozenset[str] = frozenset()
    repairs: frozenset[str] = frozenset()
    proofs: frozenset[str] = frozenset()

    def __or__(self, other: CameUp) -> CameUp:
        return CameUp(*(getattr(self, name) | getattr(other, name) for name in SORTS))


SORTS = ("rules", "faults", "outcomes", "cautions", "repairs", "proofs")
NOTHING = CameUp()


def came_up_in(records: Iterable[Record]) -> CameUp:
    """What came up in one case."""
    found: dict[str, set[str]] = {sort: set() for sort in SORTS}
    for record in records:
        match record:
            case Fired(rule=rule):
                found["rules"].add(rule)
            case Found(fault=fault):
                found["faults"].add(fault)
            case Answered(question=question, outcomes=outcomes):
                found["outcomes"].update(f"{question}: {outcome}" for outcome in outcomes)
            case CautionShown(caution=caution):
                found["cautions"].add(caution)
            case Repaired(fault=fault):
                found["repairs"].add(fault)
            case Proved(question=question):
                found["proofs"].add(question)
    return CameUp(*(frozenset(found[sort]) for sort in SORTS))


def all_there_is(base: RuleBase) -> CameUp:
    """What could come up."""
    return CameUp(
        rules=frozenset(base.rules),
        faults=frozenset(base.faults),
        outcomes=frozenset(f"{q.id}: {outcome}" for q in base.questions.values() for outcome in q.outcomes),
        cautions=frozenset(base.cautions),
        repairs=frozenset(base.faults),
        proofs=frozenset(name for fault in base.faults.values() for name in fault.prove),
    )


def coverage(base: RuleBase, found: CameUp) -> Iterator[str]:
    """A line for each sort: how many came up, and those that did not."""
    there = all_there_is(base)
    for sort in SORTS:
        every: frozenset[str] = getattr(there, sort)
        never = sorted(every - getattr(found, sort))
        yield say.came_up(sort, len(every) - len(never), len(every))
        yield from (f"  never: {name}" for name in never)
