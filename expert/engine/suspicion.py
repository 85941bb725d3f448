"""Who is under suspicion, how strongly, and what is not accounted for yet.

Weights are decibans: ten times the logarithm of the odds, so that evidence adds up (I. J. Good, Probability and the
Weighing of Evidence, 1950). How often a fault is seen sets the start, fired rules add their evidence.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import field

from expert.engine.knowledge import Knowledge
from expert.engine.proving import confirmed_in
from expert.engine.state import State
from expert.language.model import Rule, Suspect
from expert.trade.frozen import dataclass

START = {"common": 10, "occasional": 5, "rare": 0}
"""Decibans by how often a fault is seen (common practice, no source)."""

UNEXPLAINED = -6
"""Decibans for each reported complaint that a fault does not account for: it would need a second fault beside it."""


NAMED = 10
"""Decibans for a fault that a rule confirms and that waits for its rivals."""


@dataclass(frozen=True, slots=True)
class Weighed:
    """An open suspect with its weight in decibans and what brought it under suspicion."""

    fault: str
    decibans: int
    reasons: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Picture:
    """What one state of knowledge says of the job.

    `complaints_open` and `observations_open` are those that no confirmed fault and no normal behaviour accounts for;
    `causes_wanted` are confirmed faults whose cause has not been found. `suspects` come heaviest first. `held`: faults
    that rules confirm and that are not proved yet, with the rivals they wait for; they are suspects like their rivals.
    """

    confirmed: tuple[str, ...]
    normal: tuple[str, ...]
    complaints_open: tuple[str, ...]
    observations_open: tuple[str, ...]
    causes_wanted: tuple[str, ...]
    suspects: tuple[Weighed, ...]
    held: Mapping[str, tuple[str, ...]] = field(default_factory=dict)

    @property
    def settled(self) -> bool:
        """Everything is accounted for."""
        return not (self.complaints_open or self.observations_open or self.causes_wanted)


def accounted_by_results(knowledge: Knowledge, confirmed: Iterable[str]) -> dict[str, tuple[str, ...]]:
    """The complaints that a confirmed result accounts for, each with the causes it may have.

    A limit that has tripped is why the boiler is cold: what else leaves a boiler cold is no suspect then, what trips
    limits is. Another fault beside it shows itself in the proof.
    """
    faults = knowledge.base.faults
    found: dict[str, tuple[str, ...]] = {}
    for fault in confirmed:
        if faults[fault].result:
            for complaint in faults[fault].explains:
                found[complaint] = (*found.get(complaint, ()), *faults[fault].caused_by)
    return found


def is_open(state: State, fault: str) -> bool:
    """Neither confirmed nor cleared."""
    return len(state.possible(fault)) == 2


def take_picture(
    knowledge: Knowledge,
    state: State,
    complaints: Iterable[str],
    answered: Iterable[str],
    mended: Iterable[str] = (),
    accounted: Iterable[str] = (),
) -> Picture:
    """The picture of a job: its complaints, its answered questions, and what the engine makes of them.

    `mended`: faults that were found and repaired; `accounted`: complaints that they account for though they are gone.
    """
    base = knowledge.base
    reported = tuple(complaints)
    fired = [base.rules[rule] for rule in base.rules if rule in state.fired]
    named = confirmed_in(knowledge, state)
    confirmed = named.proved
    # What a mended fault accounts for was no normal behaviour, though the machine behaves normally now.
    mended = tuple(mended)
    was_fault = frozenset(accounted)
    normal = tuple(
        c
        for c in reported
        if c not in was_fault and any(rule in state.fired for rule in knowledge.normal_rules.get(c, ()))
    )
    explaining = [fault for fault in confirmed if not _only_a_result(knowledge, fault, confirmed, mended)]
    explained = {c for fault in explaining for c in base.faults[fault].explains} | set(normal) | was_fault
    complaints_open = tuple(c for c in reported if c not in explained)
    observations_open = tuple(
        question
        for question in unsound(knowledge, state, answered)
        if not _accounted(knowledge, state, question, confirmed, fired)
    )
    causes_wanted = tuple(fault for fault in confirmed if _cause_is_wanted(knowledge, state, fault, confirmed))
    settled_by_a_result = accounted_by_results(knowledge, confirmed)
    unexplained = tuple(c for c in complaints_open if c not in settled_by_a_result)
    reasons = _reasons(knowledge, state, unexplained, observations_open, causes_wanted, fired)
    reasons = _with_held(base.faults, reasons, named.held)
    evidence = evidence_of(knowledge, state.fired)
    weighed = (
        Weighed(fault, weight_of(knowledge, fault, reported, evidence) + NAMED * (fault in named.held), tuple(why))
        for fault, why in reasons.items()
    )
    suspects = tuple(sorted(weighed, key=lambda suspect: -suspect.decibans))
    return Picture(confirmed, normal, complaints_open, observations_open, causes_wanted, suspects, named.held)


def unsound(knowledge: Knowledge, state: State, answered: Iterable[str]) -> tuple[str, ...]:
    """Answered questions that certainly did not come out as on a sound machine."""
    return tuple(
        question
        for question in answered
        if (sound := knowledge.base.questions[question].sound)
        and (left := state.possible(question))
        and not set(sound) & set(left)
    )


def evidence_of(knowledge: Knowledge, rules: Iterable[str]) -> dict[str, int]:
    """The decibans that these rules give for or against each fault."""
    total: dict[str, int] = {}
    for rule in rules:
        for fault, decibans in knowledge.evidence[rule]:
            total[fault] = total.get(fault, 0) + decibans
    return total


def weight_of(knowledge: Knowledge, fault: str, complaints: tuple[str, ...], evidence: dict[str, int]) -> int:
    """The weight of a fault in decibans."""
    record = knowledge.base.faults[fault]
    left_over = sum(complaint not in record.explains for complaint in complaints)
    return START[record.seen] + evidence.get(fault, 0) + UNEXPLAINED * left_over


def _accounted(
    knowledge: Knowledge, state: State, question: str, confirmed: tuple[str, ...], fired: list[Rule]
) -> bool:
    """Whether a confirmed fault shows this outcome, or a fired rule leads from it to a confirmed fault or to normal."""
    left = set(state.possible(question))
    if any(left & set(knowledge.base.faults[fault].shows.get(question, ())) for fault in confirmed):
        return True
    guilty = set(confirmed)
    normal = {rule for rules in knowledge.normal_rules.values() for rule in rules}
    return any(
        question in knowledge.rule_questions[rule.id] and (rule.id in normal or knowledge.named[rule.id] & guilty)
        for rule in fired
    )


def _cause_is_wanted(knowledge: Knowledge, state: State, fault: str, confirmed: tuple[str, ...]) -> bool:
    """Damage whose cause is not found, while at least one possible cause is still open."""
    causes = knowledge.base.faults[fault].caused_by
    if any(cause in confirmed for cause in causes):
        return False
    return any("present" in state.possible(cause) for cause in causes)


def _only_a_result(knowledge: Knowledge, fault: str, confirmed: tuple[str, ...], mended: tuple[str, ...]) -> bool:
    """A state that something else brought about, whose cause nobody has found: it accounts for nothing by itself."""
    record = knowledge.base.faults[fault]
    return record.result and not any(cause in confirmed or cause in mended for cause in record.caused_by)


def _with_held(
    faults: Iterable[str], reasons: dict[str, list[str]], held: Mapping[str, tuple[str, ...]]
) -> dict[str, list[str]]:
    """The suspects with the faults that are held back and the rivals they wait for, in the rule base's order."""
    for fault, rivals in held.items():
        reasons.setdefault(fault, []).append(fault)
        for rival in rivals:
            reasons.setdefault(rival, []).append(fault)
    return {fault: reasons[fault] for fault in faults if fault in reasons}


def _reasons(
    knowledge: Knowledge,
    state: State,
    complaints_open: tuple[str, ...],
    observations_open: tuple[str, ...],
    causes_wanted: tuple[str, ...],
    fired: list[Rule],
) -> dict[str, list[str]]:
    """Every open suspect with what it might account for, in the rule base's order."""
    base = knowledge.base
    open_observations = set(observations_open)
    found: dict[str, list[str]] = {}
    for complaint in complaints_open:
        for fault in knowledge.explainers[complaint]:
            found.setdefault(fault, []).append(f"complaint.{complaint}")
    for record in base.faults.values():
        for question in sorted(record.shows.keys() & open_observations):
            if set(state.possible(question)) & set(record.shows[question]):
                found.setdefault(record.id, []).append(question)
    for rule in fired:
        # A suspicion is followed while something is unexplained that it might explain.
        unexplained = open_observations & knowledge.rule_questions[rule.id]
        for conclusion in rule.then:
            if isinstance(conclusion, Suspect):
                for name in conclusion.faults:
                    if unexplained or set(base.faults[name].explains) & set(complaints_open):
                        found.setdefault(name, []).append(rule.id)
    for effect in causes_wanted:
        for cause in base.faults[effect].caused_by:
            found.setdefault(cause, []).append(effect)
    return {fault: found[fault] for fault in base.faults if fault in found and is_open(state, fault)}
