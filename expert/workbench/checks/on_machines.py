"""The rules held against the simulated machines: a fault confirmed that is not there, and one cleared that is; what an
owner notices and the fault does not explain; what a fault is said to show and no machine with it does; what a sound
machine answers and does not count as sound.

Everything is answered on each machine of the record, and a rule fires or not. What is known to differ, and why, stands
beside the record and is not told again.
"""

from __future__ import annotations

from collections.abc import Iterator

from expert.language.feeding import faults_meant
from expert.language.model import Fault, Narrow, Question, Rule
from expert.language.problems import Problem
from expert.witness.record import Shown
from expert.workbench.index import Index
from expert.workbench.seen import Mask, SeenMachines
from expert.workbench.sentences import faults as say

CODES = {
    "confirmed-on-machine": say.CONFIRMED_ON_MACHINE,
    "cleared-on-machine": say.CLEARED_ON_MACHINE,
    "noticed-on-machine": say.NOTICED_ON_MACHINE,
    "unsound-on-machine": say.UNSOUND_ON_MACHINE,
    "shows-otherwise-on-machine": say.SHOWS_OTHERWISE_ON_MACHINE,
}
NO_FAULT = "no fault"  # what stands for a sound machine in the file of known differences


def check(index: Index) -> Iterator[Problem]:
    """Rule by rule, fault by fault and question by question, on the machines of each record."""
    for seen in index.seen:
        for rule in index.base.rules.values():
            for said in rule.then:
                if isinstance(said, Narrow) and said.fact in index.base.faults and seen.fires[rule.id]:
                    yield from _on(seen, rule, said)
        for fault in index.base.faults.values():
            yield from _noticed(seen, fault)
            yield from _shown_otherwise(seen, fault)
        for question in index.base.questions.values():
            yield from _unsound(seen, question)


def _noticed(seen: SeenMachines, fault: Fault) -> Iterator[Problem]:
    """What is noticed on every machine with a fault of the same name, and not explained by the rules' fault."""
    by_name: dict[str, list[Shown]] = {}
    for row in seen.record.shown:
        if row.ids == (fault.id,):
            by_name.setdefault(row.fault, []).append(row)
    for name, rows in by_name.items():
        for word in rows[0].noticed:
            named = seen.record.complains.get(word, ())
            known = [one for one in named if one in seen.base.complaints]
            if not known or set(known) & set(fault.explains) or word in seen.record.differs.get(fault.id, {}):
                continue
            if all(word in row.noticed for row in rows):
                message = say.owner_notices(seen.type.id, name, word, fault.id)
                yield Problem(fault.at, f"{message} {' and no '.join(known)}", "noticed-on-machine")


def _shown_otherwise(seen: SeenMachines, fault: Fault) -> Iterator[Problem]:
    """What the fault is said to bring about and no machine that has it shows, though each can be asked."""
    for question, outcomes in fault.shows.items():
        if question in seen.record.differs.get(fault.id, {}):
            continue
        there = seen.only(fault.id)
        if not there or there & ~(seen.told(question) & seen.put(question)):
            continue
        answers = [left for left, mask in seen.answers[question].items() if mask & there]
        if not any(set(left) & set(outcomes) for left in answers):
            others = " or ".join(sorted({outcome for left in answers for outcome in left}))
            message = say.shown_otherwise(seen.type.id, fault.id, question, " or ".join(outcomes), others)
            yield Problem(fault.at, message, "shows-otherwise-on-machine")


def _unsound(seen: SeenMachines, question: Question) -> Iterator[Problem]:
    if not question.sound or NO_FAULT in seen.record.differs.get(question.id, {}):
        return
    for left, machines in seen.answers.get(question.id, {}).items():
        if machines & seen.sound & seen.put(question.id) and not set(left) & set(question.sound):
            message = say.sound_machine_answers(
                seen.type.id, question.id, " or ".join(left), " or ".join(question.sound)
            )
            yield Problem(question.at, message, "unsound-on-machine")


def _on(seen: SeenMachines, rule: Rule, said: Narrow) -> Iterator[Problem]:
    if said.fact in seen.record.differs.get(rule.id, {}):
        return
    if said.word == "confirm" and (wrong := _condemned(seen, rule, said.fact)):
        message = say.confirms_on_sound_part(rule.id, said.fact, seen.type.id, seen.names(wrong))
        yield Problem(said.at, message, "confirmed-on-machine")
    elif said.word == "clear" and (wrong := seen.fires[rule.id] & seen.only(said.fact)):
        message = say.clears_what_is_there(rule.id, said.fact, seen.type.id, seen.names(wrong))
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
