"""Tests of the proof that are made together: looks that one word confirms, readings that are typed in one line."""

from __future__ import annotations

import re
from collections.abc import Callable

from expert.job.answers.putting import put_question, show_cautions
from expert.job.answers.reading import CANNOT_TELL, NotAnAnswer, read_answer
from expert.job.answers.taking import cannot_tell
from expert.job.prompts.proving import answer_proof, cannot_prove
from expert.job.sentences import repair as say
from expert.job.state.job import Job, Turn
from expert.job.wording.rounds import looks_listed, readings_listed
from expert.language.model import Measure, Question
from expert.trace.why import Why

LOOKS = re.compile(r"(?i)(?:all\s+)?(?P<all>\d{1,3})\s*s(?:o|ou|oun|ound)?|not\s+(?P<first_not>\d{1,3})")
BETWEEN = re.compile(r"\s*;\s*|,\s+")  # a comma with no blank after it is a decimal comma

Answers = tuple[tuple[Question, str], ...]
"""Tests of a round, each with what is typed for it; "" for a look that is put by itself now."""


def put_round(turn: Turn, tests: tuple[Question, ...]) -> None:
    """Put a proof; where others are made with it, all of them are listed and may be answered by one line."""
    job = turn.job
    first = tests[0]
    if isinstance(first.form, Measure) and set(job.round_put).issuperset(test.id for test in tests):
        tests = (first,)  # whoever types one by one has read them
    for test in tests:
        show_cautions(turn, test.cautions)
    if len(tests) > 1 and isinstance(first.form, Measure):
        turn.tell(say.readings_in_one_round(len(tests)), *readings_listed(job, tests))
        turn.tell(say.how_to_answer_readings(len(tests)))
    elif len(tests) > 1:
        turn.tell(say.looks_in_one_round(len(tests)), *looks_listed(tests), say.how_to_answer_a_round(len(tests)))
    put_question(turn, first, "proof", Why(aim=first.id))
    job.round_put = tuple(test.id for test in tests) if len(tests) > 1 else ()


def answers_of_round(job: Job, line: str) -> Answers | None:
    """What the line says of the tests that were listed, from the first on; None where it is an answer of another sort.

    Raises NotAnAnswer where it names another number of looks, or has a reading that is none.
    """
    tests = [job.base.questions[name] for name in job.round_put]
    if not tests or tests[0].id != job.prompt.subject:
        return None
    return _readings(job, tests, line) if isinstance(tests[0].form, Measure) else _looks(tests, line)


def _looks(looks: list[Question], line: str) -> Answers | None:
    said = LOOKS.fullmatch(line.strip())
    if said is None:
        return None
    number = int(said["all"] or said["first_not"])
    if (said["all"] and number != len(looks)) or (said["first_not"] and not 1 <= number <= len(looks)):
        raise NotAnAnswer(say.not_that_many(len(looks)))
    sound = tuple((look, look.sound[0]) for look in looks[: number if said["all"] else number - 1])
    return sound if said["all"] else (*sound, (looks[number - 1], ""))


def _readings(job: Job, tests: list[Question], line: str) -> Answers | None:
    parts = BETWEEN.split(line.strip())
    if len(parts) == 1:
        return None
    if len(parts) > len(tests):
        raise NotAnAnswer(say.more_than_were_listed(len(parts), len(tests)))
    for question, part in zip(tests, parts, strict=False):
        if not CANNOT_TELL.fullmatch(part):
            try:
                read_answer(job, question, part)
            except NotAnAnswer as problem:
                if CANNOT_TELL.fullmatch(line.strip()):  # the comma stands in the reason
                    return None
                raise NotAnAnswer(say.not_a_reading(question.ask, str(problem))) from None
    return tuple(zip(tests, parts, strict=False))


def take_round(turn: Turn, answers: Answers) -> None:
    """Take what was typed for each test; a look that is not as written is put by itself."""
    for question, typed in answers:
        if not typed:
            put_question(turn, question, "proof", Why(aim=question.id))
        elif unable := CANNOT_TELL.fullmatch(typed):
            cannot_tell(turn, question.id, unable.group(1) or "")
            cannot_prove(turn, question.id)
        else:
            answer_proof(turn, read_answer(turn.job, question, typed))


def line_for_round(job: Job, answer: Callable[[Question], str]) -> str:
    """The line that says of the tests put what is answered to each: all readings; or that all looks are sound, or the
    first that is not. Where one test is put by itself, its answer."""
    tests = [job.base.questions[name] for name in job.round_put or (job.prompt.subject,)]
    if len(tests) == 1 or tests[0].id != job.prompt.subject:
        return answer(job.base.questions[job.prompt.subject])
    if isinstance(tests[0].form, Measure):
        return "; ".join(answer(test) for test in tests)
    for number, look in enumerate(tests, 1):
        typed = answer(look)
        if CANNOT_TELL.fullmatch(typed) or not set(read_answer(job, look, typed).outcomes) <= set(look.sound):
            return typed if number == 1 else f"not {number}"
    return f"{len(tests)} sound"
