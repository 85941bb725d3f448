"""Where a case that failed left its path.

What cleared a fault that it should have found, or confirmed one that it should not; and where nothing did either, what
the rule that should have confirmed it still waits for.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from expert.engine.knowledge import Knowledge, atoms_of
from expert.job.state.job import Job
from expert.language.model import Rule
from expert.trace.records import Answered, Narrowed, Record
from expert.workbench.sentences import cases as say

_MOST = 3  # rules that are told of


def where_it_left(knowledge: Knowledge, job: Job, records: Sequence[Record], wanted: Iterable[str]) -> Iterator[str]:
    """One clause for each fault that should have been found and was not, or was and should not."""
    wanted = set(wanted)
    confirmed = {
        r.fact for r in records if isinstance(r, Narrowed) and r.after == ("present",)
    } & job.base.faults.keys()
    for fault in sorted(wanted - confirmed):
        yield _cleared(records, fault) or _waiting(knowledge, job, fault)
    for fault in sorted(confirmed - wanted):
        yield _at(records, fault, "present", "confirmed")


def _cleared(records: Sequence[Record], fault: str) -> str:
    return _at(records, fault, "absent", "cleared")


def _at(records: Sequence[Record], fault: str, outcome: str, word: str) -> str:
    """By which rule, and after which answer, a fault came to this; '' when it never did."""
    last: Answered | None = None
    for record in records:
        match record:
            case Answered():
                last = record
            case Narrowed(fact=fact, after=after, because=because) if fact == fault and after == (outcome,):
                after_what = say.after_answer(last.number, last.question, last.text) if last else ""
                return say.confirmed_or_cleared_by(fault, word, ", ".join(because) or "an answer", after_what)
    return ""


def _waiting(knowledge: Knowledge, job: Job, fault: str) -> str:
    """What the rules that could confirm the fault lack, the nearest first."""
    rules = [knowledge.base.rules[name] for name in knowledge.confirming.get(fault, ())]
    if not rules:
        return say.nothing_confirms(fault)
    lacking = sorted((_lacking(job, rule) for rule in rules), key=len)[:_MOST]
    told = [say.waits_for(rule, ", ".join(tests)) if tests else f"{rule} has fired" for rule, *tests in lacking]
    return say.was_not_confirmed(fault, "; ".join(told))


def _lacking(job: Job, rule: Rule) -> list[str]:
    """The rule, then each of its tests that the answers do not meet, with what is possible instead."""
    found = [rule.id]
    for test in atoms_of(rule.when):
        possible = job.state.possible(test.fact)
        if not set(possible) <= set(test.outcomes):
            known = job.base.questions.get(test.fact)
            asked = known is None or len(possible) < len(known.outcomes)
            found.append(f"{test.fact} {'/'.join(test.outcomes)} ({'/'.join(possible) if asked else 'not answered'})")
    return found
