"""Machines to practise on: the same for a class, of their level, and never one that nobody would bring."""

from __future__ import annotations

import pytest

from expert.machine import FAULTS, PLATES, Build
from expert.practice.levels import LEVELS, MISLEADING, faults_of
from expert.practice.scenario import NoSuchMachine, scenario


@pytest.mark.parametrize("level", LEVELS)
def test_a_seed_is_one_machine_for_the_whole_class(level: str) -> None:
    one, other = scenario(level, 11), scenario(level, 11)
    assert one == other and one.told and one.machine.bench.plugged is False
    assert len(one.faults) == (2 if level == "two" else 1)
    assert set(one.faults) <= set(faults_of(level))


def test_seeds_differ() -> None:
    drawn = [scenario("common", seed) for seed in range(8)]
    assert len({found.faults for found in drawn}) > 3
    assert len({found.build.plate for found in drawn}) > 1


def test_two_faults_are_in_two_parts() -> None:
    for seed in range(4):
        first, second = scenario("two", seed).faults
        assert first.part != second.part


def test_a_build_and_a_complaint_can_be_asked_for() -> None:
    build = Build(PLATES["120/60"], "pt1000")
    found = scenario("common", 3, build, lambda drawn: "does not heat" in drawn.told)
    assert found.build == build and "does not heat" in found.told


def test_what_no_machine_does_is_said(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("expert.practice.scenario._TRIES", 3)
    with pytest.raises(NoSuchMachine) as refused:
        scenario("misleading", 3, Build(), lambda found: False)
    assert str(refused.value) == (
        "no machine of level 'misleading' and seed 3 does what was asked for; try another seed"
    )
    with pytest.raises(KeyError):
        scenario("easy", 3)


def test_the_misleading_ones_are_faults_of_the_catalogue() -> None:
    assert set(MISLEADING) <= {known.name for known in FAULTS} and len(faults_of("misleading")) == len(MISLEADING)
