"""What an edit changes on the simulated machines: rules that fire with other faults, or say something else there.

Worked cases judge an edit; this only tells it, so that its author can see whether it did what was meant.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from expert.language.model import NOWHERE, Position, RuleBase
from expert.language.problems import Problem
from expert.workbench.case_runs.content import digest_of
from expert.workbench.index import Index
from expert.workbench.seen import Mask, SeenMachines

Meanings = Mapping[str, tuple[str, str]]
"""By rule, the machines on which it fires (as a number in hexadecimal) and the digest of what it says there."""


def meanings_in(base: RuleBase) -> dict[str, tuple[str, str]]:
    """What every rule means on the machines of the records; nothing where there is no record of a machine type."""
    index = Index(base)
    return {
        rule.id: (
            ",".join(f"{seen.fires[rule.id]:x}" for seen in index.seen),
            digest_of((rule.then, rule.rivals, rule.despite_shows)),
        )
        for rule in base.rules.values()
        if index.seen
    }


def changed_meanings(base: RuleBase, before: Meanings) -> Iterator[Problem]:
    """One note for each rule that means something else than before, that is new, or that is gone."""
    now, index = meanings_in(base), Index(base)
    for name, (machines, says) in now.items():
        at = base.rules[name].at
        if name not in before:
            yield _note(at, f"{name} is new; it fires {_where(index, name)}")
        elif machines != before[name][0]:
            yield _note(at, f"{name} {_moved(index, name, before[name][0])}")
        elif says != before[name][1]:
            yield _note(at, f"{name} says something else; it fires {_where(index, name)}")
    for name in before.keys() - now.keys():
        yield _note(NOWHERE, f"{name} is gone")


def _note(at: Position, message: str) -> Problem:
    return Problem(at, f"note: {message}", "means-otherwise")


def _where(index: Index, rule: str) -> str:
    return " and ".join(_with(seen, seen.fires[rule]) for seen in index.seen)


def _with(seen: SeenMachines, machines: Mask) -> str:
    found = machines & seen.everywhere
    return f"on {found.bit_count()} simulated machines ({seen.names(found)})" if found else "on no simulated machine"


def _moved(index: Index, rule: str, before: str) -> str:
    told = []
    for seen, was in zip(index.seen, (int(mask or "0", 16) for mask in before.split(",")), strict=False):
        more, fewer = seen.fires[rule] & ~was, was & ~seen.fires[rule]
        told += [f"fires {_with(seen, more)} where it did not"] if more else []
        told += [f"no longer fires {_with(seen, fewer)}"] if fewer else []
    return ", and ".join(told) or "was judged by other records before"
