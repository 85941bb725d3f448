"""The network solver against dense linear algebra (numpy) and textbook circuits."""

from __future__ import annotations

import itertools
import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from expert.machine.mains.network import component, resistance_between, voltages

OHMS = st.floats(1e-3, 1e9)


@st.composite
def networks(draw: st.DrawFn) -> list[tuple[str, str, complex]]:
    nodes = [f"n{index}" for index in range(draw(st.integers(2, 9)))]
    # A chain holds the network together; more edges lie across it.
    chain = [(a, b, 1 / draw(OHMS)) for a, b in itertools.pairwise(nodes)]
    more = draw(st.lists(st.tuples(st.sampled_from(nodes), st.sampled_from(nodes), OHMS), max_size=12))
    return chain + [(a, b, 1 / ohms) for a, b, ohms in more if a != b]


@settings(max_examples=150, deadline=None)
@given(networks())
def test_resistance_is_what_dense_algebra_gives(edges: list[tuple[str, str, complex]]) -> None:
    """Kirchhoff's laws as a Laplacian matrix; resistance by its pseudo-inverse (Klein and Randic, 1993)."""
    nodes = sorted({node for edge in edges for node in edge[:2]})
    place = {node: index for index, node in enumerate(nodes)}
    # Few decades only: dense algebra loses what the solver keeps.
    scale = max(abs(y) for _, _, y in edges)
    kept = [(a, b, max(abs(y), scale * 1e-6)) for a, b, y in edges]
    matrix = np.zeros((len(nodes), len(nodes)))
    for a, b, y in kept:
        i, j = place[a], place[b]
        matrix[i, i] += y
        matrix[j, j] += y
        matrix[i, j] -= y
        matrix[j, i] -= y
    one, other = nodes[0], nodes[-1]
    reduced = np.delete(np.delete(matrix, place[other], 0), place[other], 1)
    injected = np.zeros(len(nodes) - 1)
    injected[0] = 1.0
    expected = np.linalg.solve(reduced, injected)[0]
    assert resistance_between(kept, one, other) == pytest.approx(expected, rel=1e-6)


@pytest.mark.parametrize(
    ("edges", "one", "other", "ohms"),
    [
        ([("a", "b", 1 / 26.45), ("a", "b", 1 / 1000.0)], "a", "b", 25.77),  # 26.45 with 1000 ohm across reads 25.77
        ([("a", "b", 1 / 10e3), ("a", "b", 1 / 10e3)], "a", "b", 5e3),  # a 10 k sensor across a 10 k pull-up: 5 k
        ([("a", "b", 1 / 70.53), ("a", "b", 1 / 70.53)], "a", "b", 35.27),  # two of three 1500 W at 230 V
        # The balanced bridge: no current in its middle, whatever stands there.
        ([("a", "b", 0.1), ("b", "d", 0.1), ("a", "c", 0.1), ("c", "d", 0.1), ("b", "c", 7.0)], "a", "d", 10.0),
        ([("a", "b", 1.0), ("c", "d", 1.0)], "a", "d", math.inf),
    ],
)
def test_known_circuits(edges: list[tuple[str, str, complex]], one: str, other: str, ohms: float) -> None:
    assert resistance_between(edges, one, other) == pytest.approx(ohms, rel=5e-4)


def test_a_milliohm_and_a_gigohm_side_by_side() -> None:
    """Nothing cancels: 1 Gohm behind 40 joints of 1 mohm keeps nine figures."""
    edges: list[tuple[str, str, complex]] = [(f"n{i}", f"n{i + 1}", 1e3) for i in range(40)]
    edges.append(("n40", "end", 1e-9))
    assert resistance_between(edges, "n0", "end") == pytest.approx(1e9 + 0.04, rel=1e-12)


def test_alternating_current_divides_by_impedance() -> None:
    """A coil of 3 ohm and 4 ohm reactance on 10 V: 2 A, 6 V over its resistance, 8 V over its reactance."""
    source = 1e6
    volts = voltages([("s", "0", source), ("s", "m", 1 / 3), ("m", "0", 1 / 4j)], {"s": 10 * source}, "0")
    assert abs(volts["m"]) == pytest.approx(8.0, rel=1e-5)
    assert abs(volts["s"] - volts["m"]) == pytest.approx(6.0, rel=1e-5)


def test_a_floating_island_does_not_disturb() -> None:
    volts = voltages([("a", "0", 0.5), ("x", "y", 1.0)], {"a": 1.0}, "0")
    assert volts["a"].real == pytest.approx(2.0) and volts["x"] == 0
    assert component([("a", "b", 1.0), ("x", "y", 1.0)], "a") == {"a", "b"}
