"""What rules conclude on the simulated machines: a fault confirmed that is not there, and one cleared that is.

Everything is answered on each machine of the record, and a rule fires or not. What is known to differ, and why, stands
beside the record and is not told again.
"""

from __future__ import annotations

from collections.abc import Iterator

from expert.language.feeding import faults_meant
from expert.language.model import Narrow, Rule
from expert.language.problems import Problem
from expert.workbench.index import Index
from expert.workbench.seen import Mask, SeenMachines

CODES = {
    "confirmed-on-machine": "On a simulated machine the rule confirms the fault although the part is in order.",
    "cleared-on-machine": "On a simulated machine the rule clears the fault that is there.",
}


def check(index: Index) -> Iterator[Problem]:
    """Rule by rule, on the machines of each record."""
    for seen in index.seen:
        for rule in index.base.rules.values():
            for said in rule.then:
                if isinstance(said, Narrow) and said.fact in index.base.faults and seen.fires[rule.id]:
                    yield from _on(seen, rule, said)


def _on(seen: SeenMachines, rule: Rule, said: Narrow) -> Iterator[Problem]:
    if said.fact in seen.record.differs.get(rule.id, {}):
        return
    if said.word == "confirm" and (wrong := _condemned(seen, rule, said.fact)):
        message = (
            f"{rule.id} confirms {said.fact} on {seen.type.id} with {seen.names(wrong)}, where the part is in order"
        )
        yield Problem(said.at, message, "confirmed-on-machine")
    elif said.word == "clear" and (wrong := seen.fires[rule.id] & seen.only(said.fact)):
        message = f"{rule.id} clears {said.fact} on {seen.type.id} with {seen.names(wrong)}, which is just that"
        yield Problem(said.at, message, "cleared-on-machine")


def _condemned(seen: SeenMachines, rule: Rule, fault: str) -> Mask:
    """The machines on which the rule fires though the part is in order, and on which no rival or cause holds it up.

    A result blames no part. Of faults that the rules have no name for nothing can be held up.
    """
    base = seen.base
    record = base.faults[fault]
    if record.result:
        return 0
    excused = (*faults_meant(rule.rivals, base.parts, base.feeds, base.faults), *record.caused_by)
    judged = seen.having(base.faults) | seen.sound
    return seen.fires[rule.id] & judged & ~seen.touching(record.part) & ~seen.having(excused)
