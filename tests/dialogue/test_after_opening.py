"""A machine that was opened goes back with earth and insulation tested, or with the word that they were not."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import pytest

from expert.desk.opening import shop_of
from expert.desk.unattended import play
from expert.engine.knowledge import Knowledge, knowledge_of
from expert.job.beginning import begin
from expert.job.prompts.ending import endings_open_to
from expert.job.state.job import Job, Phase
from expert.job.steps import step
from expert.language.load import load_rules, read_rules
from expert.language.shipped import shipped
from expert.language.worked.job_answers import read_answers
from expert.trace.records import CustomerTold, PromptPut, Record, Stopped
from tests.dialogue.conftest import spoken
from tests.dialogue.small_folder import FILES
from tests.dialogue.small_rules import small_shop

EARTH = """\
  earth:
    ask: Is the body earthed?
    answer: yes_no
    sound: yes
    how: Measure.
    bench: {mains: isolated, covers: on}
    minutes: 2
  hiss_inside:
    {ask: Does it hiss inside?, answer: yes_no, how: Listen., bench: {mains: isolated, covers: off}, minutes: 1}
work_out:
"""
RULES = """\
rules:
  no_earth: {if: {earth: no}, then: {stop_work: The body is not earthed.}, because: It is not.}
  nothing_inside: {if: {hiss_inside: no}, then: {normal: hisses}, because: Only the valve hisses.}
"""
OPENED = "The machine was open. Before it goes back, its safety is tested, whether anything was repaired or not."
NOT_SAFE = (
    "The machine was opened, and was not shown to be safe after that. To be tested before it is used: "
    "Is the body earthed?"
)


@cache
def knowledge() -> Knowledge:
    files = dict(FILES)
    files["bench.yaml"] += "after_opening: {when: {covers: off}, prove: [earth]}\n"
    circuit = files["circuits/fill.yaml"].replace("work_out:\n", EARTH).replace("rules:\n", RULES)
    files["circuits/fill.yaml"] = circuit
    return knowledge_of(read_rules(files))


def opened(*lines: str, complaint: str = "hisses") -> tuple[Job, list[Record], list[str]]:
    """The job of a machine whose covers were off and are on again, after these lines."""
    job, records = begin(knowledge(), small_shop(), "7")
    everything = list(records)
    for line in ("Ann", "1", "ok", complaint, "ok", "no", "1", *lines):
        job, records = step(job, line)
        everything += records
    return job, everything, spoken(job, records)


LOOKED_INSIDE = ("yes", "no")


def test_before_it_goes_back_as_normal_its_safety_is_tested() -> None:
    _, _, said = opened(*LOOKED_INSIDE)
    assert said == [
        "So: Only the valve hisses.",
        "Normal behaviour.",
        "'Hisses on heat-up' is how a sound machine behaves. It is no fault.",
        OPENED,
        "Put the covers on. (4 min)",
        "1. Screw them on.",
        "Are they on? (yes / no)",
    ]
    job, _, said = opened(*LOOKED_INSIDE, "yes")
    assert (job.phase, said[-2:]) == (Phase.PROVE, ["Proof: Is the body earthed?", "  (yes / no)"])
    job, _, said = opened(*LOOKED_INSIDE, "yes", "yes")
    assert said == [
        "Proved.",
        "How does the job end? Type the number.",
        "  1  no fault: normal behaviour",
        "  2  returned unrepaired",
        "  3  beyond repair",
        "  4  handed over",
    ]


def test_a_test_that_was_not_made_is_said_and_no_such_machine_is_called_fit() -> None:
    job, _, said = opened(*LOOKED_INSIDE, "yes", "can't tell")
    assert said == [
        "Left open. Later: take back 2",
        f"! {NOT_SAFE}",
        "How does the job end? Type the number.",
        "  1  no fault: normal behaviour; not shown safe: do not hand out before it is",
        "  2  returned unrepaired",
        "  3  beyond repair",
        "  4  handed over",
    ]
    assert "normal" not in endings_open_to(job)
    for ending in ("1", "2"):
        _, records, _ = opened(*LOOKED_INSIDE, "yes", "can't tell", ending, "ok", "ok", "no")
        told = next(record for record in records if isinstance(record, CustomerTold))
        # The customer reads what is tested, not what the bench is asked.
        assert f"{NOT_SAFE.removesuffix('?')}." in told.lines


def test_whoever_takes_over_is_told_too() -> None:
    _, _, said = opened(*LOOKED_INSIDE, "hand over")
    assert f"  {NOT_SAFE}" in said


def test_a_test_that_fails_stops_the_job() -> None:
    job, records, _ = opened(*LOOKED_INSIDE, "yes", "no")
    assert job.outcome == "stopped"
    assert [r.text for r in records if isinstance(r, Stopped)] == ["The body is not earthed."]
    assert endings_open_to(job) == ("stopped", "handed_over", "beyond_repair")


def test_opened_again_it_is_tested_again() -> None:
    job, _, _ = opened(*LOOKED_INSIDE, "yes", "yes", "take back 1", "yes", "yes", "no", "yes")
    assert (job.prompt.kind, job.prompt.subject) == ("proof", "earth")


def test_a_machine_that_stayed_closed_is_not_tested() -> None:
    job, records, said = opened("can't", "yes", "1")
    assert not job.opened and OPENED not in said and job.phase is Phase.CLOSE
    assert not [record for record in records if isinstance(record, PromptPut) and record.prompt == "proof"]


@pytest.fixture(scope="module")
def shipped_knowledge() -> Knowledge:
    return knowledge_of(load_rules(shipped("rules")))


@pytest.mark.parametrize(
    ("earthed", "proofs"),
    [("class_1", {"earth_bond", "insulation_at_plug"}), ("class_2", {"insulation_at_plug"})],
)
def test_class_2_has_no_earth_to_test(shipped_knowledge: Knowledge, earthed: str, proofs: set[str]) -> None:
    base = shipped_knowledge.base
    machine = next(iter(base.machines.values()))
    machine = replace(machine, features={**machine.features, "earthed": earthed})
    base = replace(base, machines={**base.machines, machine.id: machine})
    text = f"{{machine: {machine.id}, complaints: [boiler_will_not_fill], answers: {{lead_looks: sound}}}}"
    answers = read_answers("answers.yaml", text, base)
    knowledge_here = replace(shipped_knowledge, base=base)
    job, _ = play(knowledge_here, shop_of(knowledge_here), answers, "7")
    assert job.opened and {question for question, _, _ in job.proofs} == proofs
