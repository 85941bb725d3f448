"""Leads, ghost voltages, leakage, capacitors and relays: printed wire tables, and networks solved as such by numpy."""

from __future__ import annotations

import random

import numpy as np
import pytest
from scipy.integrate import simpson

from expert.trade.physics.element_groups import group_resistance, parallel_resistance
from expert.trade.physics.fault_currents import filter_leakage, rcd_must_hold
from expert.trade.physics.leads import joint_heat, joint_resistance, lead_drop, lead_resistance
from expert.trade.physics.mains_circuits import (
    ghost_voltage,
    leakage_sum,
    machines_on_rcd,
    motor_speed,
    run_capacitance,
    run_capacitor_current,
)
from expert.trade.physics.relay_heat import relay_base_temperature, relay_loss, sink_resistance
from expert.trade.quantities.wire_gauge import awg_section

from .conftest import Check
from .sources import independent, restated, round_trip, transcription

KIND = "circuits"
FLOYD = independent("wire table in Floyd, Electric Circuit Fundamentals, 2nd edition")
NODES = independent("numpy, node equations of the whole network solved")
SINE = independent("scipy, voltage times current integrated over a period of the mains")
HAND = restated("the definition, by hand")
Branch = tuple[int, int, complex]  # from node, to node, admittance; node 0 is the return

WIRES = {  # gauge: circular mils, ohm in 1000 ft at 20 degC
    **{0: (105530, 0.0983), 1: (83694, 0.124), 2: (66373, 0.1563), 3: (52634, 0.197), 4: (41742, 0.2485)},
    **{5: (33102, 0.3133), 6: (26250, 0.3951), 7: (20816, 0.4982), 8: (16509, 0.6282), 9: (13094, 0.7921)},
    **{10: (10381, 0.9989), 11: (8234, 1.26), 12: (6529, 1.588), 13: (5178.4, 2.003), 14: (4106.8, 2.525)},
    **{15: (3256.7, 3.184), 16: (2582.9, 4.016), 17: (2048.2, 5.064), 18: (1624.3, 6.385), 19: (1288.1, 8.051)},
    **{20: (1021.5, 10.15), 21: (810.1, 12.8), 22: (642.4, 16.14), 23: (509.45, 20.36), 24: (404.01, 25.67)},
    **{25: (320.4, 32.37), 26: (254.1, 40.81), 27: (201.5, 51.47), 28: (159.79, 64.9), 29: (126.72, 81.83)},
    **{30: (100.5, 103.2), 31: (79.7, 130.1), 32: (63.21, 164.1), 33: (50.13, 206.9), 34: (39.75, 260.9)},
    **{35: (31.52, 329.0), 36: (25.0, 414.8), 37: (19.83, 523.1), 38: (15.72, 659.6), 39: (12.47, 831.8)},
}
MIL = 0.0254  # mm


def test_wire_table(check: Check) -> None:
    for gauge, (circular_mils, ohm) in WIRES.items():
        section = circular_mils * 0.7853981634 * MIL**2
        check(awg_section(gauge), section, FLOYD, relative=0.001, unit="mm2")
        check(lead_resistance(304.8, awg_section(gauge)), ohm, FLOYD, relative=0.003, unit="ohm in 1000 ft")
        # Ten amperes through 50 feet and back: a hundred feet of wire.
        check(lead_drop(10.0, 15.24, awg_section(gauge)), ohm, FLOYD, relative=0.003, unit="V at 10 A")


def solved(branches: list[Branch], source: complex, nodes: int) -> list[complex]:
    """The voltages of nodes 2, 3 ... against node 0 while node 1 is held at the source's."""
    matrix = np.zeros((nodes + 1, nodes + 1), dtype=complex)
    for start, end, admittance in branches:
        matrix[start, start] += admittance
        matrix[end, end] += admittance
        matrix[start, end] -= admittance
        matrix[end, start] -= admittance
    free = slice(2, nodes + 1)
    return list(np.linalg.solve(matrix[free, free], -matrix[free, 1] * source))


def test_ghost_voltage_behind_a_snubber(check: Check) -> None:
    """With the snubber's own resistor of 47 ohm, which the figure leaves out."""
    chance = random.Random(10)
    for _ in range(40):
        volts, farads = chance.uniform(100.0, 250.0), chance.uniform(5e-11, 1e-7)
        hertz, meter = chance.choice((50.0, 60.0)), chance.choice((1e6, 1e7, 3e5))
        capacitor = 2j * np.pi * hertz * farads
        branches: list[Branch] = [(1, 2, 1 / 47), (2, 3, capacitor), (3, 0, 1 / meter)]
        shown = abs(solved(branches, volts, 3)[1])
        check(ghost_voltage(volts, farads * 1e6, hertz, meter), shown, NODES, relative=2e-4, unit="V")


def test_leakage_of_filters_and_insulation(check: Check) -> None:
    chance = random.Random(30)
    for _ in range(30):
        volts, hertz = chance.uniform(100.0, 250.0), chance.choice((50.0, 60.0))
        capacitors = [chance.uniform(1e-9, 1e-8) for _ in range(3)]
        leaks = [chance.uniform(5e4, 5e6) for _ in range(2)]
        # Through a millionth of an ohm in the earth wire, whose voltage is read.
        branches: list[Branch] = [(1, 2, 2j * np.pi * hertz * farads) for farads in capacitors]
        branches += [(1, 2, 1 / ohm) for ohm in leaks] + [(2, 0, 1e6)]
        current = abs(solved(branches, volts, 2)[0]) * 1e6 * 1000
        together = 1 / sum(1 / ohm for ohm in leaks)
        check(leakage_sum(sum(capacitors) * 1e6, together, volts, hertz), current, NODES, relative=1e-6, unit="mA")
        alone = abs(solved([(1, 2, 2j * np.pi * hertz * capacitors[0]), (2, 0, 1e6)], volts, 2)[0]) * 1e9
        check(filter_leakage(capacitors[0] * 1e6, volts, hertz), alone, NODES, relative=1e-6, unit="mA")


def test_groups_of_elements(check: Check) -> None:
    for count in range(1, 7):
        for opened in range(count):
            branches: list[Branch] = [(1, 2, 1500.0 / 230.0**2) for _ in range(count - opened)]
            through = abs(solved([*branches, (2, 0, 1e9)], 1.0, 2)[0]) * 1e9
            check(
                group_resistance(230.0, 1500.0, count, opened),
                1 / through,
                NODES,
                relative=1e-6,
                unit=f"ohm, {count} less {opened}",
            )
    chance = random.Random(2)
    for _ in range(20):
        first, second = chance.uniform(5.0, 100.0), chance.uniform(20.0, 1e4)
        through = abs(solved([(1, 2, 1 / first), (1, 2, 1 / second), (2, 0, 1e9)], 1.0, 2)[0]) * 1e9
        check(parallel_resistance(first, second), 1 / through, NODES, relative=1e-6, unit="ohm")


def test_run_capacitor(check: Check) -> None:
    chance = random.Random(6)
    for _ in range(20):
        farads, volts, hertz = chance.uniform(1e-6, 5e-5), chance.uniform(100.0, 450.0), chance.choice((50.0, 60.0))
        drawn = abs(solved([(1, 2, 2j * np.pi * hertz * farads), (2, 0, 1e6)], volts, 2)[0]) * 1e6
        check(run_capacitor_current(farads * 1e6, volts, hertz), drawn, NODES, relative=1e-5, unit="A")
        check(run_capacitance(drawn, volts, hertz), farads * 1e6, NODES, relative=1e-5, unit="uF")


def test_relay_on_its_sink(check: Check) -> None:
    """Junction to base, base through paste and sink to the air: heat flows as current does."""
    chance = random.Random(85)
    for _ in range(20):
        amperes, paste, sink, air = (chance.uniform(*span) for span in ((2, 16), (0.05, 0.5), (1, 5), (25, 55)))
        watts = amperes * 1.2
        network = np.array([[1 / paste, -1 / paste], [-1 / paste, 1 / paste + 1 / sink]])
        base = float(np.linalg.solve(network, np.array([watts, air / sink]))[0])
        check(relay_base_temperature(amperes, paste + sink, air), base, NODES, within=1e-6, unit="degC")
        back = sink_resistance(amperes, base, air) if base <= 125.0 else paste + sink
        check(back, paste + sink, round_trip("the sink that gives this temperature"), relative=1e-9, unit="K/W")


@pytest.mark.parametrize(("amperes", "drop"), [(6.0, 0.5), (11.7, 0.35), (2.0, 1.1), (16.0, 0.03)])
def test_heat_in_a_joint_from_the_sine_itself(amperes: float, drop: float, check: Check) -> None:
    """Instantaneous voltage times current through a period; the resistance is the slope of one over the other."""
    angles = np.linspace(0.0, 2 * np.pi, 4097)
    voltage, current = np.sqrt(2) * drop * np.sin(angles), np.sqrt(2) * amperes * np.sin(angles)
    heat = float(simpson(voltage * current, x=angles)) / (2 * np.pi)
    check(joint_heat(amperes, drop), heat, SINE, relative=1e-9, unit="W in a joint")
    slope = float(np.polyfit(current, voltage, 1)[0])
    check(joint_resistance(amperes, drop), slope, SINE, relative=1e-9, unit="ohm of a joint")


def test_standing_leakage_behind_a_residual_current_device(check: Check) -> None:
    """The maker's own words: no more than 30 % of 30 mA, which is just 9 mA."""
    maker = transcription("a tester maker on BS 7671:2018, 531.3.2 (martindale-electric.co.uk)", ours="IEC 60364-5-53")
    check(machines_on_rcd(9.0, 30.0), 1.0, maker, within=1e-9, unit="machine of 9 mA")
    check(machines_on_rcd(1.0, 30.0), 9.0, maker, within=1e-9, unit="machines of 1 mA")
    # "It is not unusual for a 30 mA RCD to trip just above 15 mA."
    check(rcd_must_hold(30.0), 15.0, maker, within=1e-9, unit="mA that it holds")


ARITHMETIC = [
    (joint_heat(10.0, 0.5), 5.0, "W"),
    (joint_resistance(10.0, 0.5), 0.05, "ohm"),
    (relay_loss(10.0), 12.0, "W"),
    (machines_on_rcd(2.4), 3.0, "machines"),
    (motor_speed(2, 60.0, 0.0), 3600.0, "1/min"),
    (motor_speed(4, 50.0, 0.0), 1500.0, "1/min"),
]


@pytest.mark.parametrize(("found", "expected", "unit"), ARITHMETIC)
def test_definitions(found: float, expected: float, unit: str, check: Check) -> None:
    check(found, expected, HAND, within=1e-9, unit=unit)
