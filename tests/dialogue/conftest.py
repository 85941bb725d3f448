"""Helpers for tests of the dialogue: typing lines into a job and reading what it says."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

import pytest

from expert.engine.knowledge import Knowledge
from expert.job.beginning import begin
from expert.job.state.job import Job
from expert.job.steps import step
from expert.job.wording.records import lines_of
from expert.trace.records import Record
from tests.dialogue.command_line import AT_THE_PUMP, Shop
from tests.dialogue.small_rules import small_knowledge, small_shop
from tests.dialogue.terminals import at_size  # noqa: F401

INTAKE = ("Ann", "1", "ok", "no fill", "ok", "no", "1")


class Desk:
    """A job at a desk: `type` lines, read `said`."""

    def __init__(self, knowledge: Knowledge | None = None) -> None:
        self.job, records = begin(knowledge or small_knowledge(), small_shop(), "7")
        self.records: list[Record] = list(records)
        self.said: list[str] = []

    def type(self, *lines: str) -> list[str]:
        """Type the lines; what the last of them was answered with, as plain text."""
        said: list[str] = []
        for line in lines:
            self.job, records = step(self.job, line)
            self.records += records
            said = spoken(self.job, records)
        self.said = said
        return said


def spoken(job: Job, records: Iterable[Record]) -> list[str]:
    """The plain text of records."""
    return [text for record in records for _, text in lines_of(job, record)]


@pytest.fixture
def desk() -> Desk:
    """A job that has not been told anything."""
    return Desk()


@pytest.fixture
def filling(desk: Desk) -> Desk:
    """A job on a cold machine whose boiler does not fill, intake done."""
    desk.type(*INTAKE)
    return desk


@pytest.fixture
def shop(tmp_path: Path) -> Shop:
    """A folder of small rules and a folder of jobs."""
    return Shop.at(tmp_path)


@pytest.fixture
def at_the_pump(shop: Shop) -> Shop:
    """A shop with job 7, left when the pump was asked about."""
    assert shop.bench(AT_THE_PUMP).code == 0
    return shop
