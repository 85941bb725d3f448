"""The board's programme and the controller, watched from outside. Times are those of the board's own settings."""

from __future__ import annotations

from dataclasses import replace

import pytest

from expert.machine import (
    Alter,
    Build,
    Course,
    Covers,
    DrainBoiler,
    FillTank,
    HeatUp,
    Lamp,
    Lever,
    Link,
    Machine,
    Plug,
    PourIntoBoiler,
    Settings,
    Sight,
    Switch,
    Wait,
    Watch,
    do,
    fault,
    observe,
    sound_machine,
    with_faults,
)
from expert.machine.running.instant import instant


def on(machine: Machine) -> Machine:
    return do(do(machine, Plug()), Switch())


def watch(machine: Machine, seconds: float) -> tuple[Machine, Course]:
    machine, course = observe(machine, Watch(seconds))
    assert isinstance(course, Course)
    return machine, course


def lamp(machine: Machine, which: str) -> str:
    seen = observe(machine, Lamp(which))[1]
    assert isinstance(seen, Sight)
    return seen.word


def test_a_low_boiler_is_filled_after_the_delay_until_the_probe_is_wet() -> None:
    machine = on(do(sound_machine(Build(), 3), PourIntoBoiler(0.9)))
    machine, course = watch(machine, 90.0)
    start, end = course.happened("fill call starts"), course.happened("fill call ends")
    assert start == pytest.approx(4.0, abs=0.6) and end is not None
    # 0.25 l at the pump's free flow of 10 ml/s at most.
    assert end - start > 25.0 and course.happened("alarm") is None
    assert machine.parts.water.boiler.probe_tip <= instant(machine).space.water < 1.25


def test_a_call_that_outlasts_the_time_out_blocks_pump_and_heat_until_the_power_is_cycled() -> None:
    machine = on(with_faults(Build(), [fault("level probe", "wire off or broken")], 3))
    machine, course = watch(machine, 200.0)
    assert course.happened("alarm") == pytest.approx(154.0, abs=2.0)
    machine = do(machine, Lever())
    now = instant(machine)
    assert lamp(machine, "alarm") == "on" and now.supply.pump == 0.0 and now.supply.element_watts == 0.0
    machine = do(machine, Wait(600.0))
    assert lamp(machine, "alarm") == "on"
    machine = do(do(machine, Switch(False)), Switch(True))
    assert lamp(machine, "alarm") == "off" and instant(machine).supply.element_watts > 1000.0


@pytest.mark.parametrize("blocks_heat", [True, False])
def test_an_empty_tank_locks_the_pump_and_by_setting_the_heat(blocks_heat: bool) -> None:
    machine = sound_machine(Build(), 3)
    board = replace(machine.parts.mains.board, empty_blocks_heat=blocks_heat)
    machine = replace(machine, parts=replace(machine.parts, mains=replace(machine.parts.mains, board=board)))
    machine = do(on(do(machine, FillTank(0.1))), Lever())
    now = instant(machine)
    assert lamp(machine, "tank empty") == "on" and now.supply.pump == 0.0
    assert (now.supply.element_watts > 0.0) is not blocks_heat
    machine = do(machine, FillTank())
    assert lamp(machine, "tank empty") == "off" and instant(machine).supply.pump > 200.0


def test_the_brew_switch_runs_the_pump_only() -> None:
    now = instant(do(do(on(sound_machine(Build(), 3)), Wait(10.0)), Lever()))
    assert now.supply.pump > 200.0 and now.supply.fill == 0.0


def test_earthing_the_probe_wire_stops_the_call_and_unplugging_starts_it() -> None:
    machine = do(on(do(sound_machine(Build(), 3), Covers())), Wait(20.0))
    off = do(do(machine, Alter("lift", "probe")), Wait(8.0))
    assert lamp(off, "fill call") == "on"
    earthed = do(do(off, Link("board.probe", "chassis")), Wait(4.0))
    assert lamp(earthed, "fill call") == "off"


def test_water_too_pure_is_not_seen_and_tap_water_is() -> None:
    """Level probes need some 10 to 50 uS/cm (makers' figures between 10 and 25; above 50 sound, common practice)."""
    for conductivity, call in ((4.0, "on"), (60.0, "off"), (350.0, "off")):
        machine = do(on(sound_machine(Build(conductivity=conductivity), 3)), Wait(20.0))
        assert lamp(machine, "fill call") == call


def test_the_controller_keeps_its_set_point() -> None:
    machine = do(do(on(sound_machine(Build(), 3)), Settings(set_point=115.0)), HeatUp(25.0, 10.0))
    machine, course = watch(machine, 600.0)
    temperatures = [moment.boiler_temperature for moment in course.moments]
    assert min(temperatures) > 112.5 and max(temperatures) < 117.0


def test_the_drained_boiler_fills_in_one_call() -> None:
    _, course = watch(on(do(sound_machine(Build(), 3), DrainBoiler())), 150.0)
    assert course.happened("alarm") is None and course.happened("fill call ends") is not None
