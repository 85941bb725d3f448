"""Faults that rules, repairs or proofs leave hanging."""

from __future__ import annotations

from collections.abc import Iterator

from expert.engine.knowledge import atoms_of
from expert.language.model import Fault, Normal, Say
from expert.language.problems import Problem
from expert.workbench.index import Applies, Index
from expert.workbench.sentences import faults as say
from expert.workbench.uses import faults_spoken_for
from expert.workbench.ways import Way

CODES = {
    "never-confirmed": say.NEVER_CONFIRMED,
    "never-cleared": say.NEVER_CLEARED,
    "explains-nothing": say.EXPLAINS_NOTHING,
    "cleared-by-its-sign": say.CLEARED_BY_ITS_SIGN,
    "cleared-by-a-stranger": say.CLEARED_BY_A_STRANGER,
    "no-repair": say.NO_REPAIR,
    "no-bench-state": say.NO_BENCH_STATE,
    "no-caution": say.NO_CAUTION,
    "no-proof": say.NO_PROOF,
    "proof-cannot-fail": say.PROOF_CANNOT_FAIL,
    "proof-sees-nothing": say.PROOF_SEES_NOTHING,
    "proof-not-there": say.PROOF_NOT_THERE,
    "proof-without-sound": say.PROOF_WITHOUT_SOUND,
    "danger-not-told": say.DANGER_NOT_TOLD,
    "unexplained-complaint": say.UNEXPLAINED_COMPLAINT,
}


def check(index: Index) -> Iterator[Problem]:
    """Fault by fault, then what proofs lack, then complaints that lead nowhere."""
    told = _dangers_told(index)
    for fault in index.base.faults.values():
        if fault.id not in index.confirming:
            yield Problem(fault.at, say.nothing_confirms(fault.id), "never-confirmed")
        if fault.id not in index.clearing:
            yield Problem(fault.at, say.nothing_clears(fault.id), "never-cleared")
        if not fault.explains and not fault.result and not _led_to(index, fault):
            yield Problem(fault.at, say.explains_no_complaint(fault.id), "explains-nothing")
        if not fault.repair.steps:
            yield Problem(fault.at, say.repair_without_steps(fault.id), "no-repair")
        if fault.repair.steps and not fault.repair.bench:
            message = say.repair_without_bench(fault.id)
            yield Problem(fault.at, message, "no-bench-state")
        if fault.repair.steps and not fault.repair.cautions:
            yield Problem(fault.at, say.repair_without_caution(fault.id), "no-caution")
        if fault.dangerous and fault.id not in told:
            message = say.danger_without_a_stop(fault.id)
            yield Problem(fault.at, message, "danger-not-told")
        yield from _own_signs(index, fault)
        yield from _strangers(index, fault)
        yield from _proofs(index, fault)
    yield from _provers(index)
    yield from _complaints(index)


def _led_to(index: Index, fault: Fault) -> bool:
    """Whether a rule, another fault or an unsound answer brings the fault up."""
    brought = {"check", "suspect", "points_to", "caused_by"}
    return any(use.role in brought for use in index.uses.get(fault.id, ()))


def _dangers_told(index: Index) -> set[str]:
    """The faults that a rule with a stop or a caution speaks of, in its condition or in its conclusions."""
    told: set[str] = set()
    for hazard in index.base.hazards.values():
        told |= {atom.fact for atom in atoms_of(hazard.holds)} | set(hazard.suspected)
    for rule in index.base.rules.values():
        if any(isinstance(said, Say) and said.word in ("stop_work", "caution") for said in rule.then):
            told |= faults_spoken_for(rule, index.base)
    return told


def _own_signs(index: Index, fault: Fault) -> Iterator[Problem]:
    """A rule that clears the fault on answers of which every one is what the fault shows.

    Together they may still be more than the fault can give: then no simulated machine that has it gives them.
    """
    for rule in index.clearing.get(fault.id, ()):
        if any(seen.having([fault.id]) and not seen.having([fault.id]) & seen.fires[rule.id] for seen in index.seen):
            continue
        for way in index.ways[rule.id]:
            signs = [fact for fact in way if fact in fault.shows]
            others = [f for f in way if f not in fault.shows and not f.startswith(("machine.", "complaint."))]
            if signs and not others and all(way[fact] & set(fault.shows[fact]) for fact in signs):
                seen = ", ".join(f"{fact}: {'/'.join(sorted(way[fact] & set(fault.shows[fact])))}" for fact in signs)
                message = say.clears_on_its_sign(rule.id, fault.id, seen)
                yield Problem(rule.at, message, "cleared-by-its-sign")
                break


def _strangers(index: Index, fault: Fault) -> Iterator[Problem]:
    """A rule that clears the fault on answers of which no other rule, sign or proof of the same part speaks."""
    part = index.base.parts[fault.part]
    names = {other.id for other in part.faults}
    known = {question for other in part.faults for question in (*other.shows, *other.prove)}
    speaking = {use.id for name in names for use in index.uses.get(name, ()) if use.sort == "rule"}
    for rule in index.clearing.get(fault.id, ()):
        others = speaking - {rule.id}
        for way in index.ways[rule.id]:
            asked = {fact for fact in way if fact in index.base.questions}
            if asked and not asked & known and not any(asked & set(w) for other in others for w in index.ways[other]):
                message = say.clears_on_a_stranger(rule.id, fault.id, ", ".join(sorted(asked)), part.id)
                yield Problem(rule.at, message, "cleared-by-a-stranger")
                break


def _proofs(index: Index, fault: Fault) -> Iterator[Problem]:
    if not fault.prove:
        yield Problem(fault.at, say.nothing_proves(fault.id), "no-proof")
        return
    base = index.base
    applies = base.parts[fault.part].applies
    for name in fault.prove:
        if not _on_one_machine(applies, base.questions[name].applies):
            message = say.proof_applies_nowhere(name, fault.id)
            yield Problem(fault.at, message, "proof-not-there")
    if not any(_would_fail(index, fault, name) for name in fault.prove):
        message = say.no_proof_would_show(fault.id, ", ".join(fault.prove))
        yield Problem(fault.at, message, "proof-sees-nothing")


def _on_one_machine(one: Applies, other: Applies) -> bool:
    return all(set(values) & set(other.get(feature, values)) for feature, values in one.items())


def _would_fail(index: Index, fault: Fault, question: str) -> bool:
    """Whether the question comes out unsound with the fault there: by its `shows`, or by a rule that confirms it so."""
    sound = set(index.base.questions[question].sound)
    if set(fault.shows.get(question, ())) - sound:
        return True
    ways: list[Way] = [way for rule in index.confirming.get(fault.id, ()) for way in index.ways[rule.id]]
    return any(question in way and way[question] - sound for way in ways)


def _provers(index: Index) -> Iterator[Problem]:
    base = index.base
    provers: dict[str, str] = {}
    for fault in base.faults.values():
        for name in fault.prove:
            provers.setdefault(name, say.the_repair_of(fault.id))
    for name in base.bench.service:
        provers.setdefault(name, say.THE_RETURN)
    for name in base.bench.after_opening:
        provers.setdefault(name, say.THE_RETURN_OPENED)
    for name, what in provers.items():
        question = base.questions[name]
        if not question.sound:
            message = say.proof_without_a_sound_answer(name, what)
            yield Problem(question.at, message, "proof-without-sound")
        elif set(question.sound) == set(question.outcomes):
            message = say.proof_with_every_answer_sound(name, what)
            yield Problem(question.at, message, "proof-cannot-fail")


def _complaints(index: Index) -> Iterator[Problem]:
    base = index.base
    led_on = {complaint for fault in base.faults.values() for complaint in fault.explains}
    for rule in base.rules.values():
        led_on.update(name for said in rule.then if isinstance(said, Normal) for name in said.complaints)
    for complaint in base.complaints.values():
        if complaint.id not in led_on:
            message = say.nothing_explains(complaint.id)
            yield Problem(complaint.at, message, "unexplained-complaint")
