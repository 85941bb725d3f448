"""Values in an answers file or a worked case that the prompt would refuse: all of them, before anything is played."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from expert.desk.sentences import jobs as say
from expert.engine.knowledge import Knowledge
from expert.job.answers.command_words import command_in
from expert.job.answers.reading import CANNOT_TELL, NotAnAnswer, refuse_silly
from expert.job.beginning import begin
from expert.job.prompts.plate import set_machine, take_plate
from expert.job.state.job import Job, Turn
from expert.job.state.shop import Shop
from expert.language.model.job_answers import JobAnswers
from expert.language.problems import Problem, RulesRefused
from expert.trade.quantities.units import echo

CODE = "not-an-answer"


def refuse_silly_answers(knowledge: Knowledge, shop: Shop, jobs: Iterable[JobAnswers]) -> None:
    """Pass when every value would be taken at its prompt. Raises RulesRefused with each that would not."""
    problems = [problem for answers in jobs for problem in silly_answers(knowledge, shop, answers)]
    if problems:
        raise RulesRefused(problems)


def silly_answers(knowledge: Knowledge, shop: Shop, answers: JobAnswers) -> Iterator[Problem]:
    """Each value that the prompt would refuse, at its place, in the words of the prompt."""
    turn = Turn(begin(knowledge, shop, "check")[0])
    set_machine(turn, answers.machine_type)
    for name, text in answers.plate.items():
        try:
            take_plate(turn, f"{name} {text}")
        except NotAnAnswer as problem:
            yield Problem(answers.place("plate", name), str(problem), CODE)
    told = {"answers": answers.answers, "after_repair": answers.after_repair or {}, **answers.after}
    for part, typed in told.items():
        for question, text in typed.items():
            if refusal := _refusal(turn.job, question, text):
                yield Problem(answers.place(part, question), f"{question}: {refusal}", CODE)


def _refusal(job: Job, question: str, text: str) -> str:
    """Why this is no answer to the question, or ''."""
    if CANNOT_TELL.fullmatch(text):
        return ""
    # Typed at the prompt it would be obeyed, and the question would still wait.
    if command_in(text):
        return say.is_a_command(echo(text))
    try:
        refuse_silly(job, job.base.questions[question], text)
    except NotAnAnswer as problem:
        return str(problem)
    return ""
