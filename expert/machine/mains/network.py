"""Linear networks of admittances, solved without subtracting: a milliohm and a gigohm may stand side by side.

Nodes are eliminated one by one by the star-mesh transformation (Rosen's theorem, 1924), always the one with the fewest
neighbours; then the voltages follow backwards. All sums have terms of one sign in a network of resistors, so nothing
cancels.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping

Admittance = complex
Edge = tuple[str, str, Admittance]


def voltages(edges: Iterable[Edge], injected: Mapping[str, complex], ground: str) -> dict[str, complex]:
    """Voltage of every node against `ground` [V] when currents [A] are injected into nodes and leave at ground.

    Edges: (node, node, admittance [S]); parallel edges add up. A node without any path to ground, and with no
    current, floats: its voltage is given as 0 and means nothing.
    >>> volts = voltages([("a", "b", 0.1), ("b", "0", 0.1)], {"a": 2.0}, "0")      # 2 A through two 10 ohm in series
    >>> round(volts["a"].real), round(volts["b"].real)
    (40, 20)
    """
    web = _joined(edges)
    web.setdefault(ground, {})
    current = {node: complex(injected.get(node, 0.0)) for node in web}
    waiting = {node for node in web if node != ground}
    steps: list[tuple[str, dict[str, Admittance], Admittance]] = []
    while waiting:
        node = min(waiting, key=lambda name: (len(web[name]), name))
        waiting.remove(node)
        around = web.pop(node)
        total = sum(around.values())
        steps.append((node, around, total))
        _star_to_mesh(web, node, around, total, current)
    volts: dict[str, complex] = {ground: 0j}
    for node, around, total in reversed(steps):
        inflow = current[node] + sum(y * volts[other] for other, y in around.items())
        volts[node] = inflow / total if total else 0j
    return volts


def _joined(edges: Iterable[Edge]) -> dict[str, dict[str, Admittance]]:
    web: dict[str, dict[str, Admittance]] = {}
    for one, other, y in edges:
        if one == other or not y:
            continue
        for near, far in ((one, other), (other, one)):
            around = web.setdefault(near, {})
            around[far] = around.get(far, 0.0) + y
    return web


def _star_to_mesh(
    web: dict[str, dict[str, Admittance]],
    node: str,
    around: dict[str, Admittance],
    total: Admittance,
    current: dict[str, complex],
) -> None:
    """Take a node out: each pair of its neighbours gets y1 y2 / total, each neighbour its share of the current."""
    share = current[node]
    neighbours = list(around.items())
    for index, (one, y1) in enumerate(neighbours):
        del web[one][node]
        if share:
            current[one] += share * y1 / total
        for other, y2 in neighbours[index + 1 :]:
            y = y1 * y2 / total
            web[one][other] = web[one].get(other, 0.0) + y
            web[other][one] = web[other].get(one, 0.0) + y


def resistance_between(edges: Iterable[Edge], one: str, other: str) -> float:
    """Resistance between two nodes [ohm]: the voltage that one ampere makes. No path: infinite.

    >>> resistance_between([("a", "b", 0.5), ("b", "c", 0.5)], "a", "c")
    4.0
    """
    if one == other:
        return 0.0
    reachable = component(edges, one)
    if other not in reachable:
        return float("inf")
    within = [edge for edge in edges if edge[0] in reachable]
    return voltages(within, {one: 1.0}, other)[one].real


def component(edges: Iterable[Edge], start: str) -> set[str]:
    """All nodes that hang together with one."""
    web = _joined(edges)
    found, open_ends = {start}, [start]
    while open_ends:
        for other in web.get(open_ends.pop(), {}):
            if other not in found:
                found.add(other)
                open_ends.append(other)
    return found
