"""Finding by finding: the guard that answers it is broken on purpose, and the test of the finding fails.

A row names the finding by its number, a test of `test_findings.py` or its neighbours with what it is given, and how the
guard is broken: hazards left out of the rules, a record of the rules put otherwise, or a function of the program.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Any

import pytest

from expert.engine import planner
from expert.engine.knowledge import Knowledge, knowledge_of
from expert.job.prompts import as_left, plate
from expert.job.prompts.move import BenchMove
from expert.language.model import ALWAYS, RuleBase
from tests.dialogue import shipped_desk
from tests.safety import test_after_a_runaway as runaway
from tests.safety import test_findings as findings

BASE = shipped_desk.shipped_knowledge().base
ON = {"mains": "on"}
Break = Callable[[pytest.MonkeyPatch], None]


def ruled(change: Callable[[RuleBase], RuleBase]) -> Break:
    """The tests are played with other rules."""

    def broken(monkeypatch: pytest.MonkeyPatch) -> None:
        knowledge: Knowledge = knowledge_of(change(BASE))
        for module in (findings, shipped_desk):
            monkeypatch.setattr(module, "shipped_knowledge", lambda: knowledge)
        for module in (findings, runaway):
            monkeypatch.setattr(module, "BASE", knowledge.base)

    return broken


def without(*hazards: str) -> Break:
    assert set(hazards) <= BASE.hazards.keys()
    return ruled(lambda base: replace(base, hazards={k: v for k, v in base.hazards.items() if k not in hazards}))


def question(name: str, **other: Any) -> Break:
    return ruled(lambda base: replace(base, questions={**base.questions, name: replace(base.questions[name], **other)}))


def bench(**other: Any) -> Break:
    return ruled(lambda base: replace(base, bench=replace(base.bench, **other)))


def moves(**other: Any) -> Break:
    return bench(moves=tuple(replace(move, **other) for move in BASE.bench.moves))


def program(owner: object, name: str, other: object) -> Break:
    return lambda monkeypatch: monkeypatch.setattr(owner, name, other)


def repaired_live(base: RuleBase) -> RuleBase:
    fault = base.faults["high_limit.bridged"]
    live = replace(fault, repair=replace(fault.repair, bench=ON))
    return replace(base, faults={**base.faults, fault.id: live})


def in_germany(base: RuleBase) -> RuleBase:
    machines = {k: replace(m, features={**m.features, "limits": "germany"}) for k, m in base.machines.items()}
    return replace(base, machines=machines)


def unsure_is_hot(base: RuleBase) -> RuleBase:
    arrives = {k: replace(a, state={**a.state, "boiler": "hot"}) for k, a in base.bench.arrives.items()}
    return replace(base, bench=replace(base.bench, arrives=arrives))


def nothing_is_late(name: str) -> Break:
    """What is read too high counts as sound: a limit that never opened, a stamp above the plate."""
    measure = BASE.questions[name].measure
    assert measure is not None
    sound, wrong = BASE.questions[name].sound[0], ("late", "higher")
    readings = (replace(r, name=sound if r.name in wrong else r.name) for r in measure.readings)
    return question(name, measure=replace(measure, readings=tuple(readings)))


TOO_HOT = (
    "heat_may_run_away",
    "heat_ran_away_here",
    "devices_not_proved_after_too_hot",
    "devices_not_proved_before_return",
)
TOLD = ("told_of_danger", "somebody_felt_mains", "something_tripped")


@dataclass(frozen=True)
class Row:
    finding: int
    test: Callable[..., None]
    given: tuple[Any, ...]
    guard: Break


ROWS = [
    Row(
        0,
        findings.test_00_a_smell_of_burning_is_looked_for_before_the_plug_goes_in,
        ("slow_heat",),
        without("something_burnt"),
    ),
    Row(0, findings.test_00_an_overfull_boiler_is_not_switched_on, (), without("boiler_is_overfull")),
    Row(
        1,
        findings.test_01_a_boiler_that_got_too_hot_is_looked_at_dead_before_it_heats,
        ("overheats", "hot"),
        without(*TOO_HOT),
    ),
    Row(
        2,
        findings.test_02_14_16_it_is_not_energised_before_it_is_mended,
        ("overheats", {"relay_output": "2 ohm"}, findings.HEATS),
        without("relay_cannot_switch_off", *TOO_HOT),
    ),
    Row(3, findings.test_03_repairs_are_made_with_the_plug_out, (), ruled(repaired_live)),
    Row(4, findings.test_04_a_boiler_without_water_does_not_heat, (), without("boiler_may_be_dry")),
    Row(5, findings.test_05_a_limit_that_has_not_opened_is_never_sound, (145,), nothing_is_late("high_limit_opens_at")),
    Row(
        5,
        findings.test_05_a_limit_of_a_higher_rating_than_the_plate_is_a_wrong_part,
        ("165", "higher"),
        nothing_is_late("limit_stamp"),
    ),
    Row(
        6,
        findings.test_06_no_test_holds_a_protection_shut,
        (),
        question("blind_pressure", how="Pinch the return hose shut."),
    ),
    Row(7, findings.test_07_not_sure_is_the_worst_for_safety_and_not_hot_for_a_test, (), ruled(unsure_is_hot)),
    Row(8, findings.test_08_a_rhythm_of_y_confirms_nothing, (), moves(word="y")),
    Row(8, findings.test_08_a_rhythm_of_y_confirms_nothing, (), program(BenchMove, "drops_typed_ahead", False)),
    Row(
        9,
        findings.test_09_whoever_takes_a_job_up_is_asked_who_and_what_for,
        (),
        program(as_left, "_ask_who", as_left._go_on),
    ),
    Row(10, findings.test_10_16_who_cannot_tell_has_not_passed_it, ("lead_looks",), without("lead_not_looked_at")),
    Row(
        10,
        findings.test_10_an_absurd_plate_is_not_taken,
        ("rated_power 14 W",),
        program(plate, "_refuse_absurd", lambda job, name, value: None),
    ),
    Row(
        11,
        runaway.test_11_what_cannot_tell_is_not_tested,
        ({"heating_current": "0"}, "joint_drop"),
        question("joint_drop", only_if=ALWAYS),
    ),
    Row(
        11,
        runaway.test_11_what_cannot_tell_is_not_tested,
        (
            {"relay_lamp_when_calling": "dark", "relay_control_volts": "0", "element_resistance": "40"},
            "other_relay_fitted",
        ),
        question("other_relay_fitted", only_if=ALWAYS),
    ),
    Row(
        11,
        runaway.test_11_live_tests_wait_for_the_dead_ones_that_decide_as_much,
        (),
        program(planner, "dead_first", lambda situation, candidates: candidates),
    ),
    Row(
        12,
        findings.test_12_two_milliamperes_are_too_many_until_a_country_says_otherwise,
        ("", ("high",)),
        ruled(in_germany),
    ),
    Row(
        13,
        findings.test_13_after_a_runaway_every_device_that_should_have_caught_it_is_tested,
        (),
        without(*TOO_HOT[2:]),
    ),
    Row(
        13,
        findings.test_13_a_safety_valve_that_blew_is_proved_or_new_before_it_heats,
        ("can't tell", "no", False),
        without(*TOO_HOT[2:]),
    ),
    Row(
        14,
        findings.test_02_14_16_it_is_not_energised_before_it_is_mended,
        ("trips_supply", {"insulation_at_plug": "1.0 Mohm"}, ON),
        without("insulation_is_low", "something_tripped"),
    ),
    Row(
        14,
        findings.test_14_after_a_repair_inside_the_earth_is_measured_before_the_plug_goes_in,
        ("can't tell", False),
        without("earth_not_measured_after_repair"),
    ),
    Row(
        15,
        findings.test_15_what_is_tested_live_and_open_is_set_up_with_the_plug_out,
        (),
        question("joint_drop", prepare=None),
    ),
    Row(
        15,
        findings.test_15_nothing_is_heated_or_closed_with_something_altered_for_a_test,
        (),
        moves(needs={"altered": ("nothing", "for_test")}),
    ),
    Row(16, findings.test_10_16_who_cannot_tell_has_not_passed_it, ("told_of_danger",), without("customer_not_asked")),
    Row(16, findings.test_16_a_word_of_danger_leads_to_dead_tests_first, ("wet",), without(*TOLD)),
    Row(
        16,
        findings.test_16_whoever_tells_one_of_several_dangers_is_tested_for_all_that_may_stand_behind_it,
        ("shock", ["inside_looks", "element_resistance"]),
        without("told_of_danger", "something_tripped"),
    ),
    Row(
        17,
        findings.test_17_behind_a_closed_safety_valve_it_does_not_go_back,
        (),
        ruled(
            lambda base: replace(
                base,
                bench=replace(base.bench, before_return=()),
                hazards={
                    k: v
                    for k, v in base.hazards.items()
                    if k not in ("safety_devices_not_looked_at", "valve_cannot_blow_off")
                },
            )
        ),
    ),
]


def named(row: Row) -> str:
    return f"{row.finding:02}-{ROWS.index(row)}"


@pytest.mark.parametrize("row", ROWS, ids=named)
def test_the_test_of_a_finding_fails_when_its_guard_is_broken(row: Row, monkeypatch: pytest.MonkeyPatch) -> None:
    row.test(*row.given)
    row.guard(monkeypatch)
    with pytest.raises(AssertionError):
        row.test(*row.given)


def test_every_finding_has_its_row() -> None:
    assert {row.finding for row in ROWS} == set(range(18))
