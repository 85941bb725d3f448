"""Advice on a rule base that loads: what is allowed, and yet is probably not what its author meant.

One idea, one function, one code; each is a function `(RuleBase) -> Iterable[Problem]` in `ADVICE`. Nothing here
refuses a rule base: `expert.language` has done that already.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from types import MappingProxyType

from expert.language.checks.rule_cycles import facts_in
from expert.language.model import Condition, Evidence, Is, Narrow, Normal, Not, Question, RuleBase, Say, Suspect
from expert.language.problems import Problem

Advice = Callable[[RuleBase], Iterable[Problem]]

CODES: Mapping[str, str] = MappingProxyType(
    {
        "never-confirmed": "No rule confirms the fault: it can only be left over.",
        "never-cleared": "No rule clears the fault: it stays a suspect to the end.",
        "unused-question": "No rule, condition, formula or proof uses the question.",
        "unexplained-complaint": "No fault explains the complaint and no rule calls it normal.",
        "no-proof": "No question proves the repair of the fault.",
        "proof-without-sound": "A question is meant to prove a repair, but has no `sound`.",
        "live-without-caution": "A question with mains on and covers off has no caution.",
        "danger-not-told": "No rule about a dangerous fault stops the work or gives a caution.",
        "unused-outcome": "No rule uses one of a question's outcomes (only a note).",
    }
)


def advice(base: RuleBase) -> tuple[Problem, ...]:
    """Everything that deserves a second look, sorted by place."""
    return tuple(sorted(problem for check in ADVICE for problem in check(base)))


def never_confirmed(base: RuleBase) -> Iterator[Problem]:
    """A fault that no rule confirms."""
    confirmed = {fault for fault, word in _narrowed(base) if word == "confirm"}
    for fault in base.faults.values():
        if fault.id not in confirmed:
            yield Problem(fault.at, f"no rule confirms {fault.id}", "never-confirmed")


def never_cleared(base: RuleBase) -> Iterator[Problem]:
    """A fault that no rule clears."""
    cleared = {fault for fault, word in _narrowed(base) if word == "clear"}
    for fault in base.faults.values():
        if fault.id not in cleared:
            yield Problem(fault.at, f"no rule clears {fault.id}", "never-cleared")


def unused_question(base: RuleBase) -> Iterator[Problem]:
    """A question whose answer changes nothing."""
    used = (
        {test.fact for test in _tests(base)}
        | set(base.bench.service)
        | set(base.bench.after_opening)
        | _in_formulas(base)
    )
    used.update(question for fault in base.faults.values() for question in fault.prove)
    for question in base.questions.values():
        if question.id not in used:
            yield Problem(question.at, f"nothing uses the answer to {question.id}", "unused-question")


def unexplained_complaint(base: RuleBase) -> Iterator[Problem]:
    """A complaint that leads nowhere."""
    led_on = {complaint for fault in base.faults.values() for complaint in fault.explains}
    for rule in base.rules.values():
        led_on.update(name for said in rule.then if isinstance(said, Normal) for name in said.complaints)
    for complaint in base.complaints.values():
        if complaint.id not in led_on:
            message = f"no fault explains {complaint.id}, and no rule calls it normal"
            yield Problem(complaint.at, message, "unexplained-complaint")


def no_proof(base: RuleBase) -> Iterator[Problem]:
    """A fault whose repair nothing proves."""
    for fault in base.faults.values():
        if not fault.prove:
            yield Problem(fault.at, f"no question proves the repair of {fault.id}", "no-proof")


def proof_without_sound(base: RuleBase) -> Iterator[Problem]:
    """A proof that cannot be passed: nobody said what a sound machine shows."""
    provers: dict[str, str] = {}
    for fault in base.faults.values():
        for question in fault.prove:
            provers.setdefault(question, f"the repair of {fault.id}")
    for question in base.bench.service:
        provers.setdefault(question, "the return to service")
    for question in base.bench.after_opening:
        provers.setdefault(question, "the return of an opened machine")
    for name, what in provers.items():
        question_record = base.questions[name]
        if not question_record.sound:
            message = f"{name} is to prove {what}, but does not say which outcome is sound"
            yield Problem(question_record.at, message, "proof-without-sound")


def live_without_caution(base: RuleBase) -> Iterator[Problem]:
    """A question put to somebody in front of bare live parts, with no word of warning."""
    for question in base.questions.values():
        if not question.cautions and question.bench.get("mains") == "on" and question.bench.get("covers") == "off":
            message = f"{question.id} is put with mains on and covers off, and has no caution"
            yield Problem(question.at, message, "live-without-caution")


def danger_not_told(base: RuleBase) -> Iterator[Problem]:
    """A dangerous fault about which no rule says stop or take care."""
    warned: set[str] = set()
    for rule in base.rules.values():
        if any(isinstance(said, Say) and said.word in ("stop_work", "caution") for said in rule.then):
            warned.update(_faults_in(rule.when, base), *(_faults_of(said) for said in rule.then))
    for fault in base.faults.values():
        if fault.dangerous and fault.id not in warned:
            message = f"{fault.id} is dangerous, but no rule about it stops the work or gives a caution"
            yield Problem(fault.at, message, "danger-not-told")


def unused_outcome(base: RuleBase) -> Iterator[Problem]:
    """An outcome of a question with more than two that no condition, no fault's `shows` and no `sound` mentions."""
    used: dict[str, set[str]] = {question.id: set(question.sound) for question in base.questions.values()}
    tested = set()
    for test in _tests(base):
        used.setdefault(test.fact, set()).update(test.outcomes)
        tested.add(test.fact)
    for fault in base.faults.values():
        for question, outcomes in fault.shows.items():
            used.setdefault(question, set()).update(outcomes)
            tested.add(question)
    for record in base.questions.values():
        if record.id in tested and len(record.outcomes) > 2:
            for outcome in _idle(record, used[record.id]):
                yield Problem(record.at, f"note: no rule uses '{outcome}' of {record.id}", "unused-outcome")


ADVICE: tuple[Advice, ...] = (
    never_confirmed,
    never_cleared,
    unused_question,
    unexplained_complaint,
    no_proof,
    proof_without_sound,
    live_without_caution,
    danger_not_told,
    unused_outcome,
)


def _idle(question: Question, used: set[str]) -> tuple[str, ...]:
    return tuple(outcome for outcome in question.outcomes if outcome not in used)


def _narrowed(base: RuleBase) -> Iterator[tuple[str, str]]:
    for rule in base.rules.values():
        for said in rule.then:
            if isinstance(said, Narrow):
                yield said.fact, said.word


def _tests(base: RuleBase) -> Iterator[Is]:
    """Every test of a fact, in rules, in what must hold before a question, and in what bars a move."""
    for rule in base.rules.values():
        yield from _tests_in(rule.when)
    for question in base.questions.values():
        yield from _tests_in(question.only_if)
    for move in base.bench.moves:
        yield from _tests_in(move.unless)


def _tests_in(condition: Condition) -> Iterator[Is]:
    if isinstance(condition, Is):
        yield condition
    elif isinstance(condition, Not):
        yield from _tests_in(condition.part)
    else:
        for part in condition.parts:
            yield from _tests_in(part)


def _in_formulas(base: RuleBase) -> set[str]:
    limits = [
        limit
        for question in base.questions.values()
        if question.measure is not None
        for reading in question.measure.readings
        for limit in (reading.low, reading.high)
        if limit is not None
    ]
    formulas = [*limits, *(work_out.formula for work_out in base.work_outs.values())]
    return {name for formula in formulas for name in formula.names}


def _faults_in(condition: Condition, base: RuleBase) -> set[str]:
    return {fact for fact in facts_in(condition) if fact in base.faults}


def _faults_of(said: object) -> tuple[str, ...]:
    match said:
        case Narrow(fact, _, "confirm"):
            return (fact,)
        case Suspect(faults):
            return faults
        case Evidence(fault, decibans) if decibans > 0:
            return (fault,)
    return ()
