"""A hand that knows the program and types no more than it must: numbers, first letters, readings without their unit."""

from __future__ import annotations

from dataclasses import replace

from expert.job.answers.reading import NotAnAnswer, read_answer
from expert.job.prompts.owner import Unattended
from expert.job.prompts.registry import owner_at
from expert.job.state.job import Job, Prompt
from expert.job.state.values import unit_at_prompt
from expert.language.model import Choice, Measure, Question, YesNo
from expert.trade.quantities.units import show

INTAKE = {"technician": "A", "machine": "1", "arrives": "1", "qualified": "n"}


def in_few_keys(job: Job, at_hand: Unattended, line: str, complaint: str) -> str:
    """What is typed instead of the line of an unattended run. `complaint`: in the customer's words."""
    prompt = job.prompt
    if prompt.kind == "intake":
        return complaint if line in job.base.complaints else INTAKE.get(prompt.subject, line)
    if prompt.kind == "move":
        return line[:3]
    if prompt.kind not in ("question", "proof"):
        return "" if prompt.kind == "close" and line in ("ok", "no") else line
    listed = [job.base.questions[name] for name in job.round_put]
    if not listed:
        return _answer(job, job.base.questions[prompt.subject], line)
    lines = [_line_at(job, at_hand, question) for question in listed]
    if isinstance(listed[0].form, Measure):
        return ", ".join(_answer(job, question, text) for question, text in zip(listed, lines, strict=True))
    if all(text in question.sound for question, text in zip(listed, lines, strict=True)):
        return f"{len(listed)}s"
    return _answer(job, listed[0], line)


def _line_at(job: Job, at_hand: Unattended, question: Question) -> str:
    there = replace(job, prompt=Prompt("proof", question.id), round_put=())
    return owner_at(there).unattended(there, at_hand)[0]


def _answer(job: Job, question: Question, line: str) -> str:
    match question.form:
        case YesNo():
            return line[0] if line in question.outcomes else "?"
        case Choice():
            return str(question.outcomes.index(line) + 1) if line in question.outcomes else "?"
        case Measure() as measure:
            return _reading(job, question, measure, line)


def _reading(job: Job, question: Question, measure: Measure, line: str) -> str:
    given = read_answer(job, question, line)
    assert given.quantity is not None
    number = show(given.quantity, unit_at_prompt(measure, job.shop.system) or None, job.shop.system).split()[0]
    short = number.rstrip("0").rstrip(".") if "." in number else number
    for text in (short.removeprefix("0"), short):
        try:
            if read_answer(job, question, text).outcomes == given.outcomes:
                return text
        except NotAnAnswer:
            continue
    return line
