"""Flows and pressures against the orifice equation, the pump's straight line, and the laws of holes in a row."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from expert.machine.bench.bench import Bench
from expert.machine.build.parts import sound_parts
from expert.machine.build.plate import PLATES, Build, Plate
from expert.machine.build.water_parts import Pump, WaterParts
from expert.machine.water.flows import PUCK, Situation, flows
from expert.machine.water.holes import capacity, in_a_row, root, through
from expert.machine.water.pump import Drive, curve, pressure_at

PLATE = PLATES["230/50"]
COLD = Drive(230.0, 50.0, 20.0)


def water() -> WaterParts:
    return sound_parts(Build(), 1).water


def now(**bench: object) -> Situation:
    return Situation(COLD, False, 0.0, True, Bench(**bench))  # type: ignore[arg-type]


@pytest.mark.parametrize(("diameter", "flow"), [(0.5, 5.2), (0.6, 7.4), (0.7, 10.1), (0.8, 13.2)])
def test_a_hole_at_nine_bar(diameter: float, flow: float) -> None:
    """q = Cd A sqrt(2 dp / rho) with Cd 0.62, worked elsewhere: 5.2 / 7.4 / 10.1 / 13.2 ml/s within 0.1."""
    assert through(capacity(diameter), 9.0) == pytest.approx(flow, abs=0.1)


def test_holes_in_a_row_add_their_drops() -> None:
    """Two equal holes in a row pass 1 / sqrt(2) of one (drops add at one flow)."""
    assert in_a_row((1.0, 1.0)) == pytest.approx(capacity(1.0) / math.sqrt(2))
    assert in_a_row((1.0, 0.0)) == 0.0 and in_a_row(()) == math.inf


@settings(max_examples=60, deadline=None)
@given(st.floats(0.1, 20.0), st.floats(0.0, 5.0))
def test_the_root_is_a_root(slope: float, at: float) -> None:
    assert root(lambda x: slope * (at - x), -1.0, 10.0) == pytest.approx(at, abs=1e-5)


def test_free_flow_is_where_jet_and_pump_line_meet() -> None:
    """Jet 0.7 mm, shower 3 mm, exchanger 2.5 mm, valve 3 mm and 0.2 bar against 15.5 bar and 10 ml/s, bisected here."""
    at_one_bar = 0.62 * math.pi / 4 * math.sqrt(2e5 / 998.2)
    drops = sum(1 / (at_one_bar * d * d) ** 2 for d in (0.7, 3.0, 2.5, 3.0))
    sucked = sum(1 / (at_one_bar * d * d) ** 2 for d in (3.5, 4.0))
    low, high = 0.0, 10.0
    for _ in range(60):
        q = (low + high) / 2
        low, high = (q, high) if 15.5 * (1 - q / 10) > 0.2 + (drops + sucked) * q * q else (low, q)
    found = flows(water(), PLATE, now(lever_up=True))
    assert found.cup == pytest.approx(low, abs=0.01)
    assert found.tee == pytest.approx(15.5 * (1 - low / 10) - sucked * low * low, abs=0.02)
    assert found.returned == 0.0


def test_against_a_blind_basket_pump_line_and_relief_valve_meet() -> None:
    """15.5 (1 - q/10) = 9 + q / 6: q = 6.5 / (1.55 + 1/6)."""
    q = 6.5 / (1.55 + 1 / 6)
    found = flows(water(), PLATE, now(lever_up=True, basket="blind"))
    assert found.returned == pytest.approx(q, abs=0.02) and found.cup == 0.0
    assert found.chamber == pytest.approx(9.0 + q / 6, abs=0.03) == found.tee


def test_coffee_takes_its_flow_by_its_resistance() -> None:
    found = flows(water(), PLATE, now(lever_up=True, basket="coffee"))
    assert found.cup == pytest.approx(found.chamber / PUCK) and 1.0 < found.cup < 2.0


def test_with_its_return_pinched_a_sound_pump_reaches_its_shut_pressure() -> None:
    bench = {"lever_up": True, "basket": "blind", "pinched": frozenset({"return hose"})}
    assert flows(water(), PLATE, now(**bench)).tee == pytest.approx(15.5, abs=0.01)


@pytest.mark.parametrize(
    ("bench", "what"),
    [
        ({"pinched": frozenset({"suction hose"})}, "pinched suction"),
        ({"loosened": frozenset({"pump outlet"})}, "open outlet"),
    ],
)
def test_no_brew_pressure_with(bench: dict[str, object], what: str) -> None:
    found = flows(water(), PLATE, now(lever_up=True, basket="blind", **bench))
    assert found.chamber == 0.0, what


def test_a_starved_pump_delivers_what_the_suction_lets_through() -> None:
    """A 0.5 mm hole in the suction at 0.85 bar: q = Cd A sqrt(2 dp / rho)."""
    starved = replace(water(), suction=replace(water().suction, filter=0.5))
    limit = 0.62 * math.pi / 4 * 0.25 * math.sqrt(2 * 0.85e5 / 998.2)
    found = flows(starved, PLATE, now(lever_up=True))
    assert found.starved and found.pump == pytest.approx(limit, rel=0.02)


@pytest.mark.parametrize("plate", PLATES.values(), ids=PLATES)
def test_every_plates_pump_is_alike_on_its_own_supply(plate: Plate) -> None:
    shut, free = curve(Pump(150.0), plate, Drive(plate.volts, plate.hertz, 20.0))
    assert (shut, free) == pytest.approx((15.5, 10.0))


def test_voltage_frequency_heat_wear_and_air_weaken_the_pump() -> None:
    pump = Pump(150.0)
    shut, free = curve(pump, PLATE, COLD)
    # Force goes with the square of the voltage, flow with the strokes a second.
    assert curve(pump, PLATE, replace(COLD, volts=207.0))[0] == pytest.approx(0.81 * shut)
    assert curve(pump, PLATE, replace(COLD, hertz=60.0))[1] == pytest.approx(1.2 * free)
    assert 0.6 * shut < curve(pump, PLATE, replace(COLD, coil=100.0))[0] < shut
    assert curve(pump, PLATE, replace(COLD, air=0.4))[1] == pytest.approx(0.6 * free)
    for dead in (replace(COLD, primed=False), replace(COLD, volts=100.0)):
        assert curve(pump, PLATE, dead) == (0.0, 0.0)
    assert curve(replace(pump, piston="stuck"), PLATE, COLD) == (0.0, 0.0)
    assert pressure_at(15.5, 10.0, 5.0) == pytest.approx(7.75)


def test_hydraulic_power_is_a_few_per_cent_of_the_pumps_fifty_watts() -> None:
    """9 bar at 2 ml/s is 1.8 W (exact): no more than a few watts ever come out."""
    for basket in ("none", "blind", "coffee"):
        found = flows(water(), PLATE, now(lever_up=True, basket=basket))
        assert found.tee * found.pump / 10 < 5.0


def test_the_boiler_is_filled_against_its_pressure() -> None:
    low = flows(water(), PLATE, Situation(COLD, True, 0.0, True, Bench()))
    high = flows(water(), PLATE, Situation(COLD, True, 1.2, True, Bench()))
    assert 0.0 < high.fill < low.fill < 10.0 and high.tee - 1.2 < high.tee
    assert high.brew == 0.0 and high.returned == 0.0
