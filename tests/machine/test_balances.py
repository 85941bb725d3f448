"""Energy and water are conserved whatever is done to whatever machine, and everything stays within what can be."""

from __future__ import annotations

import math

import pytest
from CoolProp.CoolProp import PropsSI
from hypothesis import given, settings
from hypothesis import strategies as st

from expert.machine import (
    FAULTS,
    PLATES,
    SENSORS,
    Action,
    ActsAt,
    Amps,
    Basket,
    Build,
    Collect,
    ControlVolts,
    Course,
    Covers,
    DiodeTest,
    Display,
    FillTank,
    Flush,
    Inspect,
    Insulation,
    LeakageAmps,
    Lever,
    Listen,
    Look,
    Machine,
    Observation,
    PartResistance,
    Plug,
    PressureOn,
    Reading,
    ResistanceBetween,
    Sight,
    Switch,
    Tap,
    TemperatureOf,
    Unseen,
    Vent,
    Volts,
    Wait,
    Watch,
    do,
    observe,
    with_faults,
)
from expert.machine.mains.wiring import POINTS
from expert.machine.running.instant import instant, space_of
from expert.machine.seeing.electrical import PART_OHMS
from expert.machine.seeing.gauges import GAUGES, PLACES
from expert.machine.seeing.inspections import INSPECTIONS, RIGS
from expert.machine.seeing.sights import LOOKS, SOUNDS

ACTIONS: st.SearchStrategy[Action] = st.one_of(
    st.sampled_from(
        (
            Plug(True),
            Plug(False),
            Switch(True),
            Switch(True),
            Switch(False),
            Lever(True),
            Lever(False),
            Basket("none"),
            Basket("blind"),
            Basket("coffee"),
            Tap("steam", 1.0),
            Tap("steam", 0.0),
            Tap("water", 1.0),
            Tap("water", 0.0),
            Vent(),
            FillTank(),
            Flush(15.0),
        )
    ),
    st.floats(0.5, 900.0).map(Wait),
)
MACHINES = st.builds(
    lambda plate, sensor, altitude, faults, seed: with_faults(Build(PLATES[plate], sensor, altitude), faults, seed),
    st.sampled_from(sorted(PLATES)),
    st.sampled_from(SENSORS),
    st.sampled_from((0.0, 2200.0)),
    st.lists(st.sampled_from(FAULTS), max_size=3),
    st.integers(0, 99),
)


def heat_of(machine: Machine) -> float:
    """Heat in water and wall [kJ], by CoolProp's enthalpy and copper's 0.384 kJ/(kg K)."""
    boiler = machine.state.boiler
    water = float(PropsSI("H", "T", boiler + 273.15, "Q", 0, "IF97::Water")) / 1000
    return machine.state.boiler_water * water + machine.parts.water.boiler.metal * 0.384 * boiler


@settings(max_examples=60, deadline=None)
@given(MACHINES, st.lists(ACTIONS, min_size=2, max_size=8))
def test_heat_and_water_balance(machine: Machine, actions: list[Action]) -> None:
    """What the boiler holds more is what came in less what went out; its heat counted by a reference library."""
    before, start = machine, machine.state.ledger
    for action in (Plug(True), Switch(True), *actions):
        machine = do(machine, action)
        assert_possible(machine)
    book = machine.state.ledger
    held = heat_of(machine) - heat_of(before)
    came = (book.heat_in - start.heat_in) + (book.heat_fed - start.heat_fed)
    went = (book.heat_lost - start.heat_lost) + (book.heat_out - start.heat_out)
    assert held == pytest.approx(came - went, abs=0.5 + 0.004 * (abs(came) + abs(went)))
    water = (book.water_in - start.water_in) - (book.water_out - start.water_out) - (book.steam_out - start.steam_out)
    assert machine.state.boiler_water - before.state.boiler_water == pytest.approx(water, abs=1e-6)


def assert_possible(machine: Machine) -> None:
    """Bounds of nature and of the parts."""
    state, boiler = machine.state, machine.parts.water.boiler
    assert 15.0 <= state.boiler <= 199.0 and math.isfinite(state.sheath)
    assert 0.0 < state.boiler_water <= boiler.litres and 0.0 <= state.tank <= machine.parts.water.tank.litres
    assert min(state.boiler, state.exchanger, state.group) >= machine.build.room - 1e-6
    assert max(state.exchanger, state.group) <= 199.0
    assert -1.02 < space_of(machine).gauge < 26.0
    assert 0.0 <= state.moisture <= 1.0 and 0.0 <= state.hx_steam <= 1.0 and state.boiler_air >= 0.0


@settings(max_examples=60, deadline=None)
@given(MACHINES, st.booleans(), st.sampled_from(("none", "blind", "coffee")))
def test_what_the_pump_moves_comes_out_somewhere(machine: Machine, lever: bool, basket: str) -> None:
    """Continuity: pump flow is relief, fill, brew and spill; brew flow is cup, rim, exhaust, drip and pinhole."""
    for action in (Plug(True), Switch(True), Wait(6.0), Basket(basket), Lever(lever)):
        machine = do(machine, action)
    flows = instant(machine).flows
    if flows.pump > 0.0:
        assert flows.pump == pytest.approx(flows.returned + flows.fill + flows.brew + flows.spilled, abs=1e-6)
        out = flows.cup + flows.rim + flows.exhaust + flows.drip + flows.pinhole
        assert flows.brew == pytest.approx(max(out, 0.0), abs=1e-6)
        assert flows.tee >= flows.exchanger - 1e-9 >= flows.chamber - 2e-9
        assert flows.suction <= 0.0


@settings(max_examples=30, deadline=None)
@given(MACHINES, st.lists(ACTIONS, min_size=1, max_size=5))
def test_the_same_seed_gives_the_same_machine(machine: Machine, actions: list[Action]) -> None:
    one = other = machine
    for action in (Plug(True), Switch(True), *actions):
        one, other = do(one, action), do(other, action)
    assert one == other


@settings(max_examples=30, deadline=None)
@given(MACHINES, st.floats(30.0, 900.0))
def test_time_in_two_pieces_is_time_in_one(machine: Machine, seconds: float) -> None:
    """Watching must not change what happens: stopping the clock half-way moves the boiler by less than 1.5 K."""
    machine = do(do(machine, Plug(True)), Switch(True))
    whole = do(machine, Wait(seconds))
    halves = do(do(machine, Wait(seconds * 0.37)), Wait(seconds * 0.63))
    assert halves.state.clock == pytest.approx(whole.state.clock)
    assert halves.state.boiler == pytest.approx(whole.state.boiler, abs=1.5)
    assert halves.state.limit_1_open == whole.state.limit_1_open or abs(halves.state.sheath - whole.state.sheath) < 20.0


OBSERVATIONS: tuple[Observation, ...] = (
    *(Look(place) for place in LOOKS),
    *(Listen(to) for to in SOUNDS),
    *(Inspect(part) for part in INSPECTIONS),
    *(ActsAt(part) for part in RIGS),
    *(TemperatureOf(place) for place in (*PLACES, "brew water")),
    *(PartResistance(part) for part in PART_OHMS),
    *(Volts(point, "earth") for point in POINTS),
    *(ResistanceBetween("plug.earth", point) for point in POINTS),
    *(PressureOn(gauge) for gauge in GAUGES),
    Insulation(),
    ControlVolts(),
    Display(),
    DiodeTest("pump.a", "pump.b"),
    LeakageAmps(),
    Amps(),
    Collect("group", 3.0),
    Watch(5.0),
)


@settings(max_examples=60, deadline=None)
@given(MACHINES, st.lists(ACTIONS, max_size=4), st.lists(st.sampled_from(OBSERVATIONS), min_size=8, max_size=20))
def test_any_machine_answers_any_question(machine: Machine, actions: list[Action], asked: list[Observation]) -> None:
    """A value, a word or a reason; the same again for the same machine; and only time changes it."""
    for action in (Covers(True), *actions):
        machine = do(machine, action)
    for observation in asked:
        after, seen = observe(machine, observation)
        assert isinstance(seen, Reading | Sight | Course | Unseen)
        assert observe(machine, observation) == (after, seen)
        if isinstance(seen, Reading) and not math.isinf(seen.value):
            assert abs(seen.value - seen.true) <= seen.uncertainty + 1e-9
        assert_possible(after)


def test_air_pumped_together_in_a_cold_boiler_takes_no_heat_of_steam_with_it() -> None:
    """Vacuum valve stuck shut, probe limed over: the pump fills until the safety valve lets the cold air out."""
    stuck = [
        fault
        for fault in FAULTS
        if (fault.part, fault.mode) in {("vacuum valve", "stuck closed"), ("level probe", "scaled over")}
    ]
    assert len(stuck) == 2
    machine = with_faults(Build(PLATES["100/50"], "ntc 10k", 0.0), stuck, 0)
    for action in (Plug(True), Switch(True), Wait(99.0)):
        machine = do(machine, action)
        assert_possible(machine)
    assert machine.state.boiler_water > 1.8
