"""Whatever is answered, the shipped rules keep the technician safe, and every job comes to an end."""

from __future__ import annotations

import random
from collections.abc import Mapping

import pytest

from expert.desk.opening import shop_of
from expert.desk.unattended import sound_answer
from expert.engine.bench import satisfies
from expert.engine.knowledge import Knowledge, knowledge_of
from expert.job.beginning import begin
from expert.job.state.job import Job, Phase
from expert.job.steps import step
from expert.language.load import load_rules
from expert.language.model import Question
from expert.language.shipped import shipped
from expert.trace.records import CautionShown, Moved, PromptPut, Record, Stopped

MOST_STEPS = 400


@pytest.fixture(scope="module")
def knowledge() -> Knowledge:
    return knowledge_of(load_rules(shipped("rules")))


@pytest.mark.parametrize("seed", range(60))
def test_any_answers_keep_the_technician_safe(seed: int, knowledge: Knowledge) -> None:
    chance = random.Random(seed)
    job, records = begin(knowledge, shop_of(knowledge), "7")
    cautions: set[str] = set()
    for line in intake(chance, knowledge):
        job, records = step(job, line)
    judge(job, records, cautions)
    for _ in range(MOST_STEPS):
        if job.phase is Phase.DONE:
            break
        before = job
        job, records = step(job, typed(chance, job))
        for record in records:
            if isinstance(record, Moved):
                covers_stay_on_under_pressure(before, record)
        judge(job, records, cautions)
    assert job.phase is Phase.DONE, "the job never ends"


def intake(chance: random.Random, knowledge: Knowledge) -> list[str]:
    complaints = chance.sample(list(knowledge.base.complaints), chance.choice((1, 1, 2)))
    return [
        "Ann",
        "1",
        "ok",
        ", ".join(complaints),
        "ok",
        chance.choice(("qualified", "no")),
        chance.choice(("1", "2", "3")),
    ]


def typed(chance: random.Random, job: Job) -> str:
    """A line that a technician might type at the present prompt."""
    prompt = job.prompt
    match prompt.kind:
        case "move":
            return "can't" if chance.random() < 0.05 else prompt.choices[0]
        case "question" | "proof":
            return answer(chance, job, job.base.questions[prompt.subject])
        case "danger":
            return chance.choice(("dealt with by Bo", "hand over"))
        case "conflict":
            return chance.choice((*prompt.choices, "can't tell"))
        case "repair":
            return chance.choice(("done", "done", "no"))
        case "going on":
            return chance.choice(("go on", "end"))
        case _:
            return "1" if prompt.subject == "ending" else "ok"


def answer(chance: random.Random, job: Job, question: Question) -> str:
    if chance.random() < 0.15:
        return "can't tell"
    if question.measure is None:
        return chance.choice(question.outcomes)
    if chance.random() < 0.5:
        return sound_answer(job, question)
    if question.measure.kind == "resistance" and chance.random() < 0.4:
        return "OL"
    low, high = question.measure.believable or (None, None)
    if low is None or high is None:
        return sound_answer(job, question)
    return f"{chance.uniform(low.value, min(high.value, low.value + 1e6)):.4g}"


def stands_on(job: Job, caution: str, state: Mapping[str, str]) -> bool:
    """Whether a caution that was read stands as long as the machine stands so."""
    lasts = job.base.cautions[caution].lasts if caution in job.base.cautions else {}
    return bool(lasts) and all(state[name] in states for name, states in lasts.items())


def judge(job: Job, records: tuple[Record, ...], cautions: set[str]) -> None:
    """Every question stands in a bench state that it allows, its cautions read before it in this state."""
    for record in records:
        match record:
            case Moved(move=move):
                if not move.startswith(("prepare ", "test ")):
                    lasting = {name for name in cautions if stands_on(job, name, record.state)}
                    cautions &= lasting
            case CautionShown(caution=caution):
                cautions.add(caution)
            case PromptPut(prompt="question" | "proof", question=name):
                question = job.base.questions[name]
                assert satisfies(job.bench, question.bench), f"{name} needs {question.bench}, bench is {job.bench}"
                assert set(question.cautions) <= cautions, f"{name}: cautions not shown before it"
                live = dict(job.bench)["mains"] == "on" and dict(job.bench)["covers"] == "off"
                assert job.qualified or not live, f"{name} is a live test for the unqualified"
            case Stopped():
                assert not any(isinstance(other, PromptPut) and other.prompt == "question" for other in records)


def covers_stay_on_under_pressure(before: Job, moved: Moved) -> None:
    """Covers come off only with the plug out and no pressure in the boiler."""
    state = dict(before.bench)
    if moved.move == "covers_off":
        assert (state["mains"], state["pressure"]) == ("isolated", "none")
