"""Worked readings held against the limits: what a number means on the machine that the question is put on."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace

from expert.language.model import Machine, Question, RuleBase
from expert.language.problems import Problem
from expert.language.worked.readings import WorkedReading
from expert.workbench.readings import NotRead, Readings
from expert.workbench.sentences import cases as say


def misread(base: RuleBase, readings: Iterable[WorkedReading]) -> Iterator[Problem]:
    """The worked readings that the limits read otherwise, each at its place."""
    machines: dict[str, Machine | None] = {}
    for worked in readings:
        question = base.questions[worked.question]
        if question.id not in machines:
            machines[question.id] = machine_for(base, question)
        machine = machines[question.id]
        if machine is None:
            continue
        try:
            found = " or ".join(Readings(base, machine, {}).outcomes(question, worked.typed))
        except NotRead as problem:
            found = f"nothing: {problem}"
        if found != worked.outcome:
            message = say.reading_means_otherwise(worked.typed, question.id, found, machine.id, worked.outcome)
            yield Problem(worked.at, message, "case-reading")


def machine_for(base: RuleBase, question: Question) -> Machine | None:
    """The first machine that the question is put on; where there is none, the first of all, made to fit."""
    wanted = {fact.removeprefix("machine."): values for fact, values in question.applies.items()}
    for machine in base.machines.values():
        if all(machine.features.get(feature) in values for feature, values in wanted.items()):
            return machine
    first = next(iter(base.machines.values()), None)
    made = {feature: values[0] for feature, values in wanted.items() if values}
    return None if first is None else replace(first, features={**first.features, **made})
