"""Whole jobs on the simulated machine: what one fault hides is found before it goes back, and a slip condemns nothing.

The machine knows physics and no rule; what is expected is the machine's own fault, never what the rules said of it.
"""

from __future__ import annotations

from collections.abc import Callable

import pytest

from expert.job.state.job import Job
from expert.machine import PLATES, Build, brought_in
from expert.witness.playing import play_on
from expert.witness.verdict import Verdict, verdict_on
from tests.benchmarks.witness import world

Slip = Callable[[Job, str, str], str]


def as_it_is(job: Job, question: str, line: str) -> str:
    return line


def once(wrong: str, instead: str) -> Slip:
    """One wrong answer, the first time that a question is put."""
    told: list[str] = []

    def slip(job: Job, question: str, line: str) -> str:
        if question == wrong and not told:
            told.append(line)
            return instead
        return line

    return slip


def played(names: tuple[str, ...], complaint: str, slip: Slip = as_it_is) -> Verdict:
    here = world()
    faults = [here.known[name] for name in names]
    machine = brought_in(Build(PLATES["230/50"], "ntc 10k", altitude=0.0), faults, 1)
    return verdict_on(
        here.knowledge, here.table, faults, play_on(here.knowledge, here.table, machine, (complaint,), True, slip)
    )


@pytest.mark.parametrize(
    ("names", "complaint"),
    [
        (("group jet: blocked", "group exhaust valve: does not release"), "low_flow"),
        (("pump: coil open", "steam tap: seat worn"), "pump_silent"),
    ],
)
def test_a_second_fault_does_not_go_out_of_the_door(names: tuple[str, ...], complaint: str) -> None:
    verdict = played(names, complaint)
    assert verdict.found == names
    assert not verdict.slipped and not verdict.condemned


def test_a_wrong_reading_names_no_sound_part() -> None:
    verdict = played(("suction hose: kinked",), "low_flow", once("jet_hole_clear", "no"))
    assert "group_jet.blocked" not in verdict.condemned
    assert not verdict.slipped
