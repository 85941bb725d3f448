"""ISCAS-85 circuits with single stuck-at faults, as the netlists of a general-purpose circuit library have them.

Brglez and Fujiwara, "A neutral netlist of 10 combinational benchmark circuits", ISCAS 1985. The responses are computed
here twice: by recursion, one vector at a time (`response`), for the rules; and on all vectors at once as bits of whole
numbers, level by level (`responses_in_bits`), for the comparison.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import cache, reduce
from operator import and_, or_, xor

import circuitgraph

Fault = tuple[str, int]  # a net and the value at which it sticks


@dataclass(frozen=True)
class Netlist:
    """Inputs, outputs, and for each other net its gate and what feeds it; nets in an order that respects feeding."""

    inputs: tuple[str, ...]
    outputs: tuple[str, ...]
    gates: Mapping[str, tuple[str, tuple[str, ...]]]

    @property
    def faults(self) -> tuple[Fault, ...]:
        return tuple((net, value) for net in (*self.inputs, *self.gates) for value in (0, 1))


@cache
def netlist(name: str) -> Netlist:
    """A netlist of the library by its name, such as c17."""
    circuit = circuitgraph.from_lib(name)
    inputs, outputs = tuple(sorted(circuit.inputs())), tuple(sorted(circuit.outputs()))
    gates = {
        net: (str(circuit.type(net)), tuple(sorted(circuit.fanin(net))))
        for net in circuit.topo_sort()
        if net not in inputs
    }
    return Netlist(inputs, outputs, gates)


def response(of: Netlist, vector: Mapping[str, int], fault: Fault | None) -> str:
    """What the outputs show for a vector, as zeros and ones in the outputs' order."""

    @cache
    def value(net: str) -> int:
        if fault is not None and net == fault[0]:
            return fault[1]
        if net in vector:
            return vector[net]
        kind, feeds = of.gates[net]
        ones = sum(value(feed) for feed in feeds)
        every, some, odd = ones == len(feeds), ones > 0, ones % 2 == 1
        return int(
            {"and": every, "nand": not every, "or": some, "nor": not some, "xor": odd, "xnor": not odd}.get(
                kind, (ones == 0) if kind == "not" else bool(ones)
            )
        )

    return "".join(str(value(net)) for net in of.outputs)


_WORDS: Mapping[str, Callable[[int, int], int]] = {"and": and_, "or": or_, "xor": xor, "buf": or_}


def responses_in_bits(of: Netlist, columns: Mapping[str, int], width: int, fault: Fault | None) -> tuple[int, ...]:
    """The outputs' values on `width` vectors at once; bit k of columns[input] is that input's value in vector k."""
    all_ones = (1 << width) - 1
    words = dict(columns)
    if fault is not None and fault[0] in words:
        words[fault[0]] = all_ones * fault[1]
    for net, (kind, feeds) in of.gates.items():
        plain = {"nand": "and", "nor": "or", "xnor": "xor", "not": "buf"}.get(kind, kind)
        word = reduce(_WORDS[plain], (words[feed] for feed in feeds))
        words[net] = word ^ all_ones if plain != kind else word
        if fault is not None and fault[0] == net:
            words[net] = all_ones * fault[1]
    return tuple(words[net] for net in of.outputs)
