"""What an edit changes: rules that fire with other faults of the simulated machines, and records that say otherwise.

Worked cases judge an edit; this only tells it, so that its author can see whether it did what was meant.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from expert.language.model import NOWHERE, Position, RuleBase
from expert.language.problems import Problem
from expert.workbench.case_runs.statements import records_of, statements
from expert.workbench.index import Index
from expert.workbench.seen import Mask, SeenMachines
from expert.workbench.sentences import cases as say

Meanings = Mapping[str, Sequence[str]]
"""By kind and id of a record, all that it says; for a rule, first on which machines it fires, in hexadecimal."""
_FIRES = "fires on "
_MOST = 3  # statements told of one record


def meanings_in(base: RuleBase) -> dict[str, tuple[str, ...]]:
    """What every record means; of a rule also the machines of the records on which it fires."""
    seen = Index(base).seen
    found = {}
    for key, record in records_of(base).items():
        kind, _, name = key.partition(" ")
        fires = (_FIRES + ",".join(f"{one.fires[name]:x}" for one in seen),) if kind == "rule" else ()
        found[key] = (*fires, *statements(base, record))
    return found


def changed_meanings(base: RuleBase, before: Meanings) -> Iterator[Problem]:
    """One note for each record that means something else than before, that is new, or that is gone."""
    now, index, records = meanings_in(base), Index(base), records_of(base)
    for key, says in now.items():
        at, name = _place(base, records[key]), key.removeprefix("rule ")
        if key not in before:
            yield _note(at, f"{name} is new" + (say.it_fires(_where(index, name)) if name != key else ""))
        elif clauses := [*_moved(index, name, says, before[key]), *_otherwise(says, before[key])]:
            yield _note(at, f"{name} {', and '.join(clauses)}")
    for key in before.keys() - now.keys():
        yield _note(NOWHERE, f"{key.removeprefix('rule ')} is gone")


def _place(base: RuleBase, record: object) -> Position:
    """Where the record stands; the bench is the whole of its file."""
    at = getattr(record, "at", NOWHERE)
    return Position(base.bench.moves[0].at.path, 1, 1) if record is base.bench and base.bench.moves else at


def _note(at: Position, message: str) -> Problem:
    return Problem(at, f"note: {message}", "means-otherwise")


def _where(index: Index, rule: str) -> str:
    return " and ".join(_with(seen, seen.fires[rule]) for seen in index.seen) or say.ON_NO_SIMULATED_MACHINE


def _with(seen: SeenMachines, machines: Mask) -> str:
    found = machines & seen.everywhere
    return say.on_simulated_machines(found.bit_count(), seen.names(found)) if found else say.ON_NO_SIMULATED_MACHINE


def _moved(index: Index, rule: str, now: Sequence[str], before: Sequence[str]) -> Iterator[str]:
    """On which simulated machines a rule fires that did not before, and the other way round."""
    was, there = _fires(before), _fires(now)
    for seen, old, new in zip(index.seen, was, there, strict=False):
        if more := new & ~old:
            yield say.fires_anew(_with(seen, more))
        if fewer := old & ~new:
            yield say.fires_no_longer(_with(seen, fewer))


def _fires(says: Sequence[str]) -> list[Mask]:
    first = says[0] if says else ""
    return [int(mask, 16) for mask in first.removeprefix(_FIRES).split(",") if mask] if first.startswith(_FIRES) else []


def _otherwise(now: Sequence[str], before: Sequence[str]) -> Iterator[str]:
    """What a record no longer says and what it says now, or that it says the same in another order."""
    now, before = ([said for said in says if not said.startswith(_FIRES)] for says in (now, before))
    gone = [f"'{said}'" for said in before if said not in now]
    new = [f"'{said}'" for said in now if said not in before]
    for said, words in ((gone, "no longer says"), (new, "says now")):
        if said:
            more = f" and {len(said) - _MOST} more" if len(said) > _MOST else ""
            yield f"{words} {', '.join(said[:_MOST])}{more}"
    if now != before and not gone and not new:
        first = next(one for one, other in zip(now, before, strict=False) if one != other)
        yield say.said_in_another_order(first)
