"""Where one look shows two faults at once, both can be said, and the answer speaks against neither."""

from __future__ import annotations

import pytest

from expert.engine.suspicion import evidence_of
from expert.language.model import Suspect
from tests.dialogue.shipped_desk import ShippedDesk

FILLS_TOO_LONG, COMES_IN = "level_probe.scaled", "fill_solenoid.passes"


@pytest.mark.parametrize(
    ("answer", "against"),
    [("fill_runs", {COMES_IN}), ("brewing", {FILLS_TOO_LONG}), ("both", set())],
)
def test_a_level_that_rises_while_filling_and_while_brewing(answer: str, against: set[str]) -> None:
    job = ShippedDesk().intake(complaint="boiler_overfills").job
    job.state.narrow("the answer", "boiler_rises_when", (answer,))
    evidence = evidence_of(job.knowledge, job.state.fired)
    assert {fault for fault in (FILLS_TOO_LONG, COMES_IN) if evidence.get(fault, 0) < 0} == against
    if not against:
        rules = [job.base.rules[rule] for rule in job.state.fired]
        suspected = {
            fault for rule in rules for said in rule.then if isinstance(said, Suspect) for fault in said.faults
        }
        assert {FILLS_TOO_LONG, COMES_IN} <= suspected
