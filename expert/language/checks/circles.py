"""Finding circles in a graph of names: which names lie on one, and the shortest way round."""

from __future__ import annotations

from collections import deque
from collections.abc import Iterable, Mapping, Sequence

from expert.language.sentences import checks as say

Graph = Mapping[str, Iterable[str]]


def circles(graph: Graph) -> list[tuple[str, ...]]:
    """For every knot of names that depend on each other, the shortest circle through its first name.

    Each circle begins and ends with the same name.

    >>> circles({"a": ["b"], "b": ["c"], "c": ["a"], "d": ["a"], "e": ["e"]})
    [('a', 'b', 'c', 'a'), ('e', 'e')]
    """
    found = []
    for knot in _knots(graph):
        first = min(knot)
        found.append(_way_round(graph, first, knot))
    return sorted(found)


def shortened_way(steps: Sequence[str]) -> list[str]:
    """The steps of a way, those in the middle of a very long one only counted.

    >>> shortened_way([f"s{number}" for number in range(20)])
    ['s0', 's1', 's2', 's3', 's4', 's5', 's6', 's7', '(10 more)', 's18', 's19']
    """
    left_out = len(steps) - 10
    return list(steps) if left_out <= 1 else [*steps[:8], f"({left_out} more)", *steps[-2:]]


def _way_round(graph: Graph, first: str, knot: set[str]) -> tuple[str, ...]:
    came_from: dict[str, str] = {}
    waiting = deque([first])
    while waiting:
        name = waiting.popleft()
        for following in graph.get(name, ()):
            if following == first:
                way = [first, name]
                while way[-1] != first:
                    way.append(came_from[way[-1]])
                return tuple(reversed(way))
            if following in knot and following not in came_from:
                came_from[following] = name
                waiting.append(following)
    raise AssertionError(say.lies_on_no_circle(first))


def _knots(graph: Graph) -> list[set[str]]:
    """The names that can reach each other, in sets (Tarjan's algorithm, without recursion)."""
    number: dict[str, int] = {}
    lowest: dict[str, int] = {}
    open_names: list[str] = []
    is_open: set[str] = set()
    knots: list[set[str]] = []
    for start in graph:
        if start in number:
            continue
        path = [(start, iter(tuple(graph.get(start, ()))))]
        number[start] = lowest[start] = len(number)
        open_names.append(start)
        is_open.add(start)
        while path:
            name, following = path[-1]
            for other in following:
                if other not in number:
                    number[other] = lowest[other] = len(number)
                    open_names.append(other)
                    is_open.add(other)
                    path.append((other, iter(tuple(graph.get(other, ())))))
                    break
                if other in is_open:
                    lowest[name] = min(lowest[name], number[other])
            else:
                path.pop()
                if path:
                    lowest[path[-1][0]] = min(lowest[path[-1][0]], lowest[name])
                if lowest[name] == number[name]:
                    knot = _taken_down_to(name, open_names, is_open)
                    if len(knot) > 1 or name in graph.get(name, ()):
                        knots.append(knot)
    return knots


def _taken_down_to(name: str, open_names: list[str], is_open: set[str]) -> set[str]:
    knot: set[str] = set()
    while name not in knot:
        last = open_names.pop()
        is_open.discard(last)
        knot.add(last)
    return knot
