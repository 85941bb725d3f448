"""Fault trees: every minimal cut set brings the top event about, no part of one does, and nothing else does either.

1. The pressure tank. Vesely, Goldberg, Roberts, Haasl: Fault Tree Handbook, NUREG-0492, US NRC 1981, chapter VIII,
   reduced tree: E1 = T + E2, E2 = K2 + E3, E3 = S E4, E4 = S1 + E5, E5 = K1 + R, and its minimal cut sets T; K2; S S1;
   S K1; S R (from memory of the handbook, to be confirmed against its text. Read on the same tank: K2's contacts alone
   bring the top event about, Barlow, Engineering Reliability, page 130; and the upper gates of the tree in Barlow and
   Chatterjee 1973, AD0774072, as a public fault tree program transcribes it).
2. The tank's tree and trees drawn at random, with shared events and gates of "and" and "or", against the minimal cut
   sets that pfta computes, a public library of fault trees.
"""

from __future__ import annotations

from collections.abc import Mapping
from itertools import chain, combinations
from random import Random

import pytest
from pfta.core import FaultTree

from expert.engine import Network, State
from expert.language.model import All, Any, Is
from tests.reference.conftest import Agree
from tests.reference.sources import independent, restated

KIND = "cut sets"
HANDBOOK = restated("NUREG-0492, pressure tank, its minimal cut sets (from memory, to be confirmed)")
LIBRARY = independent("pfta, minimal cut sets of fault trees")

# Gate -> (and/or, what feeds it). What is no gate is a basic event; a gate stands after those that feed it.
Tree = Mapping[str, tuple[str, tuple[str, ...]]]
TANK: Tree = {
    "e5": ("or", ("k1", "r")),
    "e4": ("or", ("s1", "e5")),
    "e3": ("and", ("s", "e4")),
    "e2": ("or", ("k2", "e3")),
    "top": ("or", ("tank", "e2")),
}
MINIMAL = [{"tank"}, {"k2"}, {"s", "s1"}, {"s", "k1"}, {"s", "r"}]
SEEDS = range(40)


def basic_events(tree: Tree) -> list[str]:
    return sorted({name for _, feeds in tree.values() for name in feeds} - set(tree))


def random_tree(seed: int) -> Tree:
    """Two or three layers of "and" and "or" by turns over four to six basic events, each gate on two of what stands
    below it, so that events and gates are shared."""
    random = Random(seed)
    below = [f"b{number}" for number in range(random.randint(4, 6))]
    tree: dict[str, tuple[str, tuple[str, ...]]] = {}
    for layer in range(random.randint(2, 3)):
        gates = {f"g{layer}{n}": (("and", "or")[layer % 2], tuple(sorted(random.sample(below, 2)))) for n in range(3)}
        tree |= gates
        below = [random.choice(below), *gates]
    tree["top"] = (random.choice(("and", "or")), tuple(sorted(random.sample(below, 3))))
    return tree


def network(tree: Tree) -> Network:
    def fails(name: str) -> Is:
        return Is(name, ("failed",))

    facts = dict.fromkeys((*basic_events(tree), *tree), ("failed", "works"))
    rules = [
        (f"{gate}_gate", (All if kind == "and" else Any)(tuple(map(fails, feeds))), ((gate, ("failed",)),))
        for gate, (kind, feeds) in tree.items()
    ]
    return Network.build(facts, rules)


def top_event(tree: Tree, failed: set[str]) -> bool:
    state = State(network(tree))
    for name in basic_events(tree):
        state.narrow(name, name, ["failed" if name in failed else "works"])
    return state.possible("top") == ("failed",)


def cut_sets_of_library(tree: Tree) -> list[set[str]]:
    """The minimal cut sets of the top event. The library wants a rate for each event; none of them matters here."""
    events = [f"Event: {name}\n- model_type: Fixed\n- probability: 0.1\n- intensity: 0" for name in basic_events(tree)]
    gates = [f"Gate: {gate}\n- type: {kind.upper()}\n- inputs: {', '.join(f)}" for gate, (kind, f) in tree.items()]
    table = FaultTree("\n\n".join(["- times: 1", *events, *gates])).compile_cut_set_tables()["top"]
    return [set(str(row[0]).split(".")) for row in table.data]


@pytest.mark.parametrize("cut", MINIMAL, ids=lambda cut: "-".join(sorted(cut)))
def test_a_minimal_cut_set_of_the_tank_and_no_part_of_it_brings_the_top_event_about(
    cut: set[str], agree: Agree
) -> None:
    agree(top_event(TANK, cut), True, HANDBOOK, f"cut set {sorted(cut)}")
    for one in sorted(cut):
        agree(top_event(TANK, cut - {one}), False, HANDBOOK, f"cut set {sorted(cut)} without {one}")


@pytest.mark.parametrize("seed", [None, *SEEDS], ids=lambda seed: "tank" if seed is None else f"tree {seed}")
def test_what_brings_the_top_event_about_holds_a_cut_set_of_the_library(seed: int | None, agree: Agree) -> None:
    """Every combination of failed events is tried, so that a set too many and a set too few are both found."""
    tree = TANK if seed is None else random_tree(seed)
    cuts, events = cut_sets_of_library(tree), basic_events(tree)
    assert cuts
    tried = chain.from_iterable(combinations(events, size) for size in range(len(events) + 1))
    ours = [set(failed) for failed in tried if top_event(tree, set(failed))]
    least = [one for one in ours if not any(other < one for other in ours)]
    agree(sorted(map(sorted, least)), sorted(map(sorted, cuts)), LIBRARY, f"minimal cut sets of tree {seed}")
    assert all(any(cut <= failed for cut in cuts) for failed in ours)


def test_the_trees_are_no_toys() -> None:
    """Two thirds of them have several cut sets and some of several events."""
    found = [cut_sets_of_library(random_tree(seed)) for seed in SEEDS]
    assert sum(len(cuts) > 1 and max(map(len, cuts)) > 1 for cuts in found) >= len(found) * 2 / 3
