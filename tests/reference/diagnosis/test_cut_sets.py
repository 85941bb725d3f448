"""The pressure tank of the Fault Tree Handbook: every minimal cut set brings the top event about, no part of one does.

Vesely, Goldberg, Roberts, Haasl: Fault Tree Handbook, NUREG-0492, US NRC 1981, chapter VIII, reduced tree of the
pressure tank example: E1 = T + E2, E2 = K2 + E3, E3 = S E4, E4 = S1 + E5, E5 = K1 + R, and its minimal cut sets T; K2;
S S1; S K1; S R (from memory of the handbook, to be confirmed against its text. Read on the same tank:
K2's contacts alone bring the top event about, Barlow, Engineering Reliability, page 130; and the upper gates of the
tree in Barlow and Chatterjee 1973, AD0774072, as a public fault tree program transcribes it).
"""

from __future__ import annotations

from itertools import chain, combinations

import pytest

from expert.engine import Network, State
from expert.language.model import All, Any, Is
from tests.reference.conftest import Agree
from tests.reference.sources import independent

KIND = "cut sets"
HANDBOOK = independent("NUREG-0492, pressure tank, its minimal cut sets (from memory, to be confirmed)")
BASIC = ("tank", "k2", "s", "s1", "k1", "r")
MINIMAL = [{"tank"}, {"k2"}, {"s", "s1"}, {"s", "k1"}, {"s", "r"}]


def fails(name: str) -> Is:
    return Is(name, ("failed",))


def network() -> Network:
    facts = dict.fromkeys((*BASIC, "e1", "e2", "e3", "e4", "e5"), ("failed", "works"))
    gates = [
        ("e5", Any((fails("k1"), fails("r")))),
        ("e4", Any((fails("s1"), fails("e5")))),
        ("e3", All((fails("s"), fails("e4")))),
        ("e2", Any((fails("k2"), fails("e3")))),
        ("e1", Any((fails("tank"), fails("e2")))),
    ]
    return Network.build(facts, [(f"{name}_gate", when, ((name, ("failed",)),)) for name, when in gates])


def top_event(failed: set[str]) -> bool:
    state = State(network())
    for name in BASIC:
        state.narrow(name, name, ["failed" if name in failed else "works"])
    return state.possible("e1") == ("failed",)


@pytest.mark.parametrize("cut", MINIMAL, ids=lambda cut: "-".join(sorted(cut)))
def test_a_minimal_cut_set_and_no_part_of_it_brings_the_top_event_about(cut: set[str], agree: Agree) -> None:
    agree(top_event(cut), True, HANDBOOK, f"cut set {sorted(cut)}")
    for one in sorted(cut):
        agree(top_event(cut - {one}), False, HANDBOOK, f"cut set {sorted(cut)} without {one}")


def test_every_set_that_brings_it_about_holds_a_minimal_one() -> None:
    for failed in map(set, chain.from_iterable(combinations(BASIC, size) for size in range(len(BASIC) + 1))):
        assert top_event(failed) == any(cut <= failed for cut in MINIMAL)
