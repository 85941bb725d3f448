"""What the engine changed, written down with its reasons."""

from __future__ import annotations

from collections.abc import Iterable

from expert.engine.state import Change
from expert.job.state.job import Job, Turn
from expert.language.model import Narrow, Normal, Rule, Say
from expert.trace.records import CautionShown, Fired, Narrowed, Unfired


def conclude(turn: Turn, change: Change) -> None:
    """Record rules that fired or no longer hold, and the findings and faults they narrowed, each with its reason."""
    job = turn.job
    for rule_id in change.unfired:
        turn.add(Unfired(rule_id))
    for rule_id in change.fired:
        rule = job.base.rules[rule_id]
        sources: set[str] = set()
        for reason in job.state.reason_for_rule(rule_id):
            sources |= reason.sources()
        told = _tells(turn.job, rule, change)
        turn.add(Fired(rule_id, tuple(sorted(sources, key=_by_number)), rule.because, told))
    for fact, (before, after) in change.narrowed.items():
        if fact in job.base.faults or fact in job.base.findings:
            turn.add(Narrowed(fact, before, after, tuple(_rules_on(turn, fact))))
    for rule_id in change.fired:
        for said in job.base.rules[rule_id].then:
            if isinstance(said, Say):
                _speak(turn, rule_id, said)


def _tells(job: Job, rule: Rule, change: Change) -> bool:
    """Whether the technician hears of a rule: it clears a suspect, confirms a fault or calls something normal."""
    suspects = {fault for complaint in (*job.complaints, *job.raised) for fault in job.knowledge.explainers[complaint]}
    for said in rule.then:
        match said:
            case Normal() | Narrow(word="confirm"):
                return True
            case Narrow(word="clear", fact=fault) if fault in suspects and fault in change.narrowed:
                return True
    return False


def show_caution(turn: Turn, name: str, text: str) -> None:
    """A caution, once in a state of the bench. Whoever has read it in full is told the same in a few words.

    `name`: the caution's, or that of the rule whose own sentence it is.
    """
    job = turn.job
    if name in job.cautions_read:
        return
    again = job.base.cautions[name].again if name in job.base.cautions and name in job.cautions_told else ""
    job.cautions_read.add(name)
    job.cautions_told.add(name)
    turn.add(CautionShown(name, again or text))


def _speak(turn: Turn, rule_id: str, said: Say) -> None:
    if said.word == "caution":
        known = (caution.id for caution in turn.job.base.cautions.values() if caution.text == said.text)
        show_caution(turn, next(known, rule_id), said.text)
    elif said.word == "advise":
        # A second reading of the same does not make it news.
        if rule_id not in turn.job.advised:
            turn.job.advised.add(rule_id)
            turn.tell(f"Advice: {said.text}")
    else:
        # Met anew, it stops the work anew, also when it was dealt with before.
        turn.job.dangers_met[rule_id] = said.text
        turn.job.dangers_cleared.discard(rule_id)
        turn.job.dangers_told.discard(rule_id)


def _rules_on(turn: Turn, fact: str) -> Iterable[str]:
    """The fired rules that narrow a fact, in the rule base's order."""
    for rule_id in turn.job.knowledge.concluding.get(fact, ()):
        if rule_id in turn.job.state.fired:
            rule = turn.job.base.rules[rule_id]
            if any(isinstance(said, Narrow) and said.fact == fact for said in rule.then):
                yield rule_id


def _by_number(source: str) -> tuple[int, str]:
    number = source.rpartition(" ")[2]
    return (int(number) if number.isdecimal() else 0, source)
