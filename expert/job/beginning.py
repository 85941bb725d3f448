"""A new job and its first prompt, apart from the steps that follow: those are loaded while the question is read."""

from __future__ import annotations

from expert.engine.knowledge import Knowledge
from expert.engine.state import State
from expert.job.prompts.intake import intake_on, take_what_is_known
from expert.job.state.job import Job, Turn
from expert.job.state.shop import Shop
from expert.job.wording.values import spelt_out_all
from expert.trace.records import Record


def begin(knowledge: Knowledge, shop: Shop, number: str) -> tuple[Job, tuple[Record, ...]]:
    """A new job and its first prompt: who works here is asked whatever else is known."""
    turn = Turn(Job(knowledge, shop, number, State(knowledge.network)))
    take_what_is_known(turn)
    intake_on(turn)
    return turn.job, spelt_out_all(turn)
