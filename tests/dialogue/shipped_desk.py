"""A job on the shipped rules for tests: lines typed in, what was said, and the limits that hold."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

from expert.desk.opening import shop_of
from expert.engine.knowledge import Knowledge, knowledge_of
from expert.job.beginning import begin
from expert.job.state.job import Job
from expert.job.state.values import bands_of
from expert.job.steps import step
from expert.job.wording.records import lines_of
from expert.language.load import load_rules
from expert.language.shipped import shipped
from expert.trace.records import PromptPut, Record

# What ends the dangers of a sound machine, unless a test says otherwise.
NO_DANGER = {
    "lead_looks": "sound",
    "told_of_danger": "nothing",
    "relay_output": "OL",
    "high_limit_bridged": "no",
    "sensor_seating": "seated",
    "safety_valve_outlet_free": "yes",
}


@cache
def shipped_knowledge() -> Knowledge:
    """The shipped rules, loaded once for all tests."""
    return knowledge_of(load_rules(shipped("rules")))


class ShippedDesk:
    """A job at a desk on the shipped rules. `system`: units shown; `without`: instruments that the shop lacks."""

    def __init__(self, system: str = "metric", without: tuple[str, ...] = ()) -> None:
        shop = shop_of(shipped_knowledge(), system)
        shop = replace(shop, instruments=shop.instruments - set(without))
        self.job: Job
        self.records: list[Record] = []
        self.job, records = begin(shipped_knowledge(), shop, "7")
        self.records += records

    def type(self, *lines: str) -> list[str]:
        """Type the lines; what the last of them was answered with, as plain text."""
        said: list[str] = []
        for line in lines:
            self.job, records = step(self.job, line)
            self.records += records
            said = [text for record in records for _, text in lines_of(self.job, record)]
        return said

    def intake(self, *plate: str, complaint: str = "no_heat", qualified: str = "no") -> ShippedDesk:
        """Opened in Germany for a machine whose plate prompt got these lines, up to the first thing to do."""
        may = "qualified" if qualified == "yes" else qualified
        self.type("Ann", "1", "limits germany", *plate, "ok", complaint, "ok", may, "1")
        return self

    def go(self, answers: dict[str, str], until: str = "", most: int = 60) -> list[str]:
        """Confirm moves and answer questions, others with can't tell, until a question is put; what was said last."""
        answers = NO_DANGER | answers
        said: list[str] = []
        for _ in range(most):
            prompt = self.job.prompt
            if prompt.kind == "question" and prompt.subject == until:
                return said
            if prompt.kind == "question":
                said = self.type(answers.get(prompt.subject, "can't tell"))
            elif prompt.kind == "move" or (prompt.kind == "going on" and until):
                said = self.type(prompt.choices[0])
            else:
                return said
        raise AssertionError(f"{until or 'the end'} was not reached within {most} lines")

    def all_said(self) -> list[str]:
        """Everything said so far, as plain text."""
        return [text for record in self.records for _, text in lines_of(self.job, record)]

    def put(self) -> list[str]:
        """The questions put so far, in order."""
        return [record.question for record in self.records if isinstance(record, PromptPut)]

    def limit(self, question: str, reading: str) -> tuple[float | None, float | None]:
        """The limits of a reading in the base unit of its kind."""
        bands = {name: (low, high) for name, low, high in bands_of(self.job, self.job.base.questions[question])}
        low, high = bands[reading]
        return (low.value if low else None, high.value if high else None)
