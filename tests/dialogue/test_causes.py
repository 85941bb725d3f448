"""Damage has a cause: it is looked for before the new part, mended first, and named where it is not known or left."""

from __future__ import annotations

from functools import cache

from expert.engine.knowledge import Knowledge, knowledge_of
from expert.job.beginning import begin
from expert.job.state.job import Job
from expert.job.steps import step
from expert.language.load import read_rules
from tests.dialogue.conftest import spoken
from tests.dialogue.small_folder import FILES
from tests.dialogue.small_rules import small_shop


@cache
def knowledge() -> Knowledge:
    """The small rules, in which a pump that is dead has split the hose."""
    circuit = FILES["circuits/fill.yaml"]
    assert "explains: [leaks]" in circuit
    circuit = circuit.replace("explains: [leaks]", "explains: [leaks]\n        caused_by: [pump.dead]")
    return knowledge_of(read_rules({**FILES, "circuits/fill.yaml": circuit}))


def split_hose(pump: str, *lines: str) -> tuple[Job, list[str]]:
    """A split hose is found; then its cause is asked for, answered with `pump`."""
    job, records = begin(knowledge(), small_shop(), "7")
    for line in ("Ann", "1", "ok", "leaks", "ok", "no", "1", "yes", "no"):
        job, records = step(job, line)
    said = spoken(job, records)
    assert said[said.index("Found so far: hose: split.") + 1] == (
        "The search goes on. What caused it is looked for before a new part is fitted."
    )
    while job.prompt.subject != "pump_runs":
        job, records = step(job, "yes")
    for line in (pump, *lines):
        job, records = step(job, line)
        while job.prompt.kind == "move":
            job, more = step(job, "yes")
            records = (*records, *more)
    return job, spoken(job, records)


def test_the_cause_is_mended_before_the_damage() -> None:
    job, said = split_hose("no")
    assert (job.to_repair, job.prompt.subject) == (("pump.dead", "hose.split"), "pump.dead")
    job, said = split_hose("no", "done")
    assert job.prompt.subject == "hose.split" and not [line for line in said if line.startswith("! ")]


def test_a_cause_that_is_left_is_named_before_the_new_part() -> None:
    _, said = split_hose("no", "no")
    assert said[:3] == [
        "Not repaired: pump: dead.",
        "Repair: hose: split. About 10 min.",
        "! Found with it and not mended: pump: dead. Mend that too before the machine is switched on.",
    ]


def test_a_cause_that_is_not_known_is_named_before_the_new_part() -> None:
    _, said = split_hose("can't tell")
    start = said.index("Repair: hose: split. About 10 min.")
    assert said[start + 1] == ("! What damaged it is not known. Look for it before the new part is fitted: pump: dead.")


def test_a_cause_that_is_cleared_is_not_mentioned() -> None:
    _, said = split_hose("yes")
    assert not [line for line in said if "damaged it" in line or "Its cause" in line]
