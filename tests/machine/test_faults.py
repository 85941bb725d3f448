"""Every failure mode shows in its decisive test, and a sound machine does not show it."""

from __future__ import annotations

from dataclasses import replace

import pytest

from expert.machine import (
    FAULTS,
    PLATES,
    Action,
    Alter,
    Amps,
    Build,
    Collect,
    Covers,
    DrainBoiler,
    Flush,
    Insulation,
    Lamp,
    LeakageAmps,
    Link,
    Listen,
    Look,
    Machine,
    Observation,
    PartResistance,
    Plug,
    PourIntoBoiler,
    PressureOn,
    Reading,
    ResistanceBetween,
    Seen,
    Sight,
    Switch,
    Tap,
    TemperatureOf,
    Wait,
    Watch,
    do,
    fault,
    observe,
    with_faults,
)
from tests.machine.decisive_tests import BLIND, HOT, ON, OPEN_FLOW, ROWS, Says, above, below, word


def _seen(machine: Machine, actions: tuple[Action, ...], asked: Observation) -> Seen:
    machine = do(machine, Covers())
    for action in actions:
        machine = do(machine, action)
    return observe(machine, asked)[1]


@pytest.mark.parametrize(
    ("part", "mode", "actions", "asked", "faulty", "sound"), ROWS, ids=[f"{row[0]}, {row[1]}" for row in ROWS]
)
def test_the_decisive_test(
    part: str, mode: str, actions: tuple[Action, ...], asked: Observation, faulty: Says, sound: Says
) -> None:
    bad = _seen(with_faults(Build(), [fault(part, mode)], 5), actions, asked)
    good = _seen(with_faults(Build(), [], 5), actions, asked)
    assert faulty(bad), f"{part}: {mode} shows {bad}"
    assert sound(good), f"a sound machine shows {good}"


def test_every_fault_has_its_row() -> None:
    assert {f"{row[0]}: {row[1]}" for row in ROWS} == {known.name for known in FAULTS}


@pytest.mark.parametrize("plate", PLATES)
def test_the_element_reads_its_plate_on_every_supply(plate: str) -> None:
    """V^2 / P of the element, +5 % / -10 % of its power and 3 % for cold (IEC 60335-1 table 1, from memory)."""
    found = PLATES[plate]
    machine = with_faults(Build(found), [], 7)
    seen = _seen(machine, (), PartResistance("element"))
    nominal = found.volts**2 / (found.watts - 50.0)
    assert isinstance(seen, Reading)
    assert nominal / 1.05 / 1.03 <= seen.value <= nominal / 0.9


@pytest.mark.parametrize("plate", PLATES)
def test_the_current_is_the_plates(plate: str) -> None:
    """P / U, within the tolerance of input power."""
    found = PLATES[plate]
    seen = _seen(with_faults(Build(found), [], 7), ON, Amps("lead"))
    assert isinstance(seen, Reading)
    assert 0.85 <= seen.value / (found.watts / found.volts) <= 1.05


@pytest.mark.parametrize("plate", PLATES)
@pytest.mark.parametrize("mode", ["insulation broken down", "insulation breaks down hot"])
def test_a_leak_trips_the_protection_on_every_supply(plate: str, mode: str) -> None:
    machine = with_faults(Build(PLATES[plate]), [fault("element", mode)], 7)
    cold = _seen(machine, ON, Look("residual-current device"))
    hot = _seen(machine, HOT, Look("residual-current device"))
    assert cold == Sight("tripped" if mode == "insulation broken down" else "on")
    assert hot == Sight("tripped")


def test_an_ohmmeter_does_not_show_what_500_volts_show() -> None:
    """Common practice: an ordinary ohmmeter cannot decide on insulation."""
    machine = with_faults(Build(), [fault("wiring", "insulation rubbed thin")], 7)
    ohmmeter = _seen(machine, (Switch(),), ResistanceBetween("plug.live", "plug.earth"))
    tester = _seen(machine, (Switch(),), Insulation())
    assert isinstance(ohmmeter, Reading) and ohmmeter.value > 20e6
    assert isinstance(tester, Reading) and tester.value < 1e6


def test_a_shorted_coil_has_blown_its_fuse_and_blows_the_next() -> None:
    machine = do(with_faults(Build(), [fault("fill solenoid", "coil with shorted turns")], 7), Covers())
    for action in (*ON, Alter("lift", "probe"), Wait(8.0)):
        machine = do(machine, action)
    assert machine.state.board_fuse_blown and not machine.state.fuse_blown


def test_a_dry_boiler_trips_its_limit_before_it_burns() -> None:
    machine = with_faults(Build(), [fault("level probe", "touches the wall")], 7)
    machine = replace(machine, state=replace(machine.state, boiler_water=0.04))
    machine, course = observe(do(do(machine, Plug()), Switch()), Watch(900.0))
    assert course.happened("limit 1 opens") is not None  # type: ignore[union-attr]
    assert not machine.state.element_burnt
    for number in (1, 2):
        machine = fault(f"high limit {number}", "bridged by a wire").into(machine)
    machine, course = observe(machine, Watch(1800.0))
    assert machine.state.element_burnt


def test_leakage_of_a_sound_machine_is_within_the_limit() -> None:
    """Class I stationary heating: the greater of 0.75 mA and 0.75 mA/kW (IEC 60335-1 13.2)."""
    seen = _seen(with_faults(Build(), [], 7), HOT, LeakageAmps())
    assert isinstance(seen, Reading) and seen.value < 1.05


def test_tap_water_in_the_boiler_cures_the_probe_that_saw_nothing() -> None:
    machine = with_faults(Build(), [fault("water", "too pure for the probe")], 7)
    assert _seen(machine, (*ON, Wait(20.0)), Lamp("fill call")) == Sight("on")
    cured = (DrainBoiler(), PourIntoBoiler(1.18), *ON, Wait(20.0))
    assert _seen(machine, cured, Lamp("fill call")) == Sight("off")


@pytest.mark.parametrize(
    ("mode", "seconds", "cured"),
    [("air lock", 40.0, True), ("air lock", 8.0, False), ("restricted by scale", 40.0, False)],
)
def test_a_long_flush_cures_an_air_lock_and_not_a_scaled_loop(mode: str, seconds: float, cured: bool) -> None:
    machine = with_faults(Build(), [fault("thermosyphon", mode)], 7)
    seen = _seen(machine, (*HOT, Flush(seconds), Wait(3000.0)), TemperatureOf("group"))
    assert isinstance(seen, Reading) and (seen.value > 85.0) is cured


def test_a_worn_pump_is_told_from_a_relief_valve_by_pinching_the_return() -> None:
    """Common practice: pinched return gives full pressure with a leaking relief valve, no change with a worn pump."""
    pinched = (*BLIND, Alter("pinch", "return hose"))
    valve = _seen(
        with_faults(Build(), [fault("over-pressure valve", "held open by dirt")], 7),
        pinched,
        PressureOn("gauge in basket"),
    )
    worn = _seen(with_faults(Build(), [fault("pump", "worn")], 7), pinched, PressureOn("gauge in basket"))
    assert above(12.0)(valve) and below(8.0)(worn)


def test_a_probe_is_told_from_its_wire_and_from_the_board_by_earthing() -> None:
    """Common practice: scaled probe, earthing its wire stops the call; wire off, only earthing at the board does; board
    blind, neither does."""
    shown = {}
    for part, mode in (
        ("level probe", "scaled over"),
        ("level probe", "wire off or broken"),
        ("control board", "probe input blind"),
    ):
        machine = with_faults(Build(), [fault(part, mode)], 7)
        shown[mode] = [
            _seen(machine, (*ON, Link(point, "chassis"), Wait(12.0)), Lamp("fill call")) == Sight("off")
            for point in ("probe", "board.probe")
        ]
    assert shown == {
        "scaled over": [True, True],
        "wire off or broken": [False, True],
        "probe input blind": [False, False],
    }


def test_blocked_suction_and_air_are_cured_by_the_way_round_them() -> None:
    """Common practice: full flow with the filter bypassed; bubbles gone with the hose in a jug held below water."""
    filter_ = with_faults(Build(), [fault("suction filter", "blocked")], 7)
    assert above(60.0)(_seen(filter_, (*OPEN_FLOW, Alter("bypass", "suction filter")), Collect("group", 10.0)))
    tank = with_faults(Build(), [fault("tank", "not seated")], 7)
    assert above(60.0)(_seen(tank, (*OPEN_FLOW, Alter("bypass", "tank")), Collect("group", 10.0)))


def test_a_part_fed_directly_runs_although_its_output_is_dead() -> None:
    machine = with_faults(Build(), [fault("control board", "pump output dead")], 7)
    assert _seen(machine, OPEN_FLOW, Listen("pump")) == Sight("silent")
    assert _seen(machine, (*OPEN_FLOW, Alter("feed", "pump")), Listen("pump")) == Sight("steady")


@pytest.mark.parametrize(
    ("part", "mode", "taken_out"),
    [
        ("group jet", "blocked", "group jet"),
        ("shower screen", "blocked", "shower screen"),
        ("suction filter", "blocked", "suction filter"),
    ],
)
def test_with_the_blocked_part_in_the_hand_water_runs(part: str, mode: str, taken_out: str) -> None:
    machine = do(with_faults(Build(), [fault(part, mode)], 7), Alter("remove", taken_out))
    assert above(60.0)(_seen(machine, OPEN_FLOW, Collect("group", 10.0)))


@pytest.mark.parametrize(("tap", "tip"), [("steam", "steam tip"), ("water", "water tip")])
def test_a_blocked_tip_is_told_from_its_tap_by_taking_it_off(tap: str, tip: str) -> None:
    """Common practice: strong steam with the tip removed."""
    machine = do(with_faults(Build(), [fault(f"{tap} tap", "tip blocked")], 7), Alter("take tip off", tap))
    assert word("strong steam", "runs")(_seen(machine, (*HOT, Tap(tap)), Look(tip)))
