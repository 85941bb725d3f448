"""Every kind of prompt with its owner. A kind without one is a fault that the type checker finds."""

from __future__ import annotations

from typing import assert_never

from expert.job.bench.moves import PREPARE
from expert.job.prompts import closing, intake
from expert.job.prompts.as_left import AsLeft
from expert.job.prompts.conflict import Contradiction
from expert.job.prompts.danger import DangerStop
from expert.job.prompts.going_on import GoingOn
from expert.job.prompts.happened import Happened
from expert.job.prompts.move import BenchMove
from expert.job.prompts.owner import NOBODY, Owner
from expert.job.prompts.proof import Proof
from expert.job.prompts.question import SearchQuestion
from expert.job.prompts.repair import Repair
from expert.job.prompts.setting_up import SettingUp
from expert.job.prompts.take_back import TakeBack
from expert.job.state.job import Job, PromptName

AS_LEFT = AsLeft()
CONTRADICTION = Contradiction()
DANGER_STOP = DangerStop()
BENCH_MOVE = BenchMove()
SETTING_UP = SettingUp()
QUESTION = SearchQuestion()
GOING_ON = GoingOn()
HAPPENED = Happened()
REPAIR = Repair()
PROOF = Proof()
_RECORDED: tuple[Owner, ...] = (
    *intake.INTAKE,
    AS_LEFT,
    DANGER_STOP,
    CONTRADICTION,
    BENCH_MOVE,
    SETTING_UP,
    QUESTION,
    GOING_ON,
    HAPPENED,
    REPAIR,
    PROOF,
    *closing.CLOSING,
)
TAKE_BACK = TakeBack(_RECORDED)
OWNERS = (*_RECORDED, TAKE_BACK)


def owner_at(job: Job) -> Owner:
    """Who takes the next line of the job."""
    return owner_of(*job.prompt.at)


def owner_of(kind: PromptName, subject: str) -> Owner:
    """Who takes the line at a prompt, and says what there is to say about it."""
    match kind:
        case "intake":
            return intake.BY_NAME.get(subject, NOBODY)
        case "standing":
            return AS_LEFT
        case "danger":
            return DANGER_STOP
        case "conflict":
            return CONTRADICTION
        case "move":
            return SETTING_UP if subject.startswith(PREPARE) else BENCH_MOVE
        case "question":
            return QUESTION
        case "going on":
            return GOING_ON
        case "happened":
            return HAPPENED
        case "repair":
            return REPAIR
        case "proof":
            return PROOF
        case "close":
            return closing.BY_NAME.get(subject, NOBODY)
        case "take back":
            return TAKE_BACK
        case "" | "done":
            return NOBODY
        case _:
            assert_never(kind)
