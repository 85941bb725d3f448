"""The cheapest way from one bench state to another, and what must never be on it."""

from __future__ import annotations

import pytest

from expert.engine.bench import BenchMap, BenchState, bench_state, in_time, satisfies, terms_for
from expert.language.load import load_rules
from expert.language.shipped import shipped

BENCH = load_rules(shipped("rules")).bench
COLD = bench_state(BENCH, BENCH.arrives["cold"].state)
HOT = bench_state(BENCH, BENCH.arrives["hot"].state)


UNALTERED = {name: state for name, state in COLD if name in ("element", "altered")}


def moves(
    start: BenchState, wanted: dict[str, str], qualified: bool = False, impossible: tuple[str, ...] = ()
) -> list[str]:
    route = BenchMap(BENCH, terms_for(BENCH, qualified, lambda condition: None, impossible)).route(start, wanted)
    return ["no way"] if route is None else [move.id for move in route.moves]


@pytest.mark.parametrize(
    ("start", "wanted", "expected"),
    [
        (COLD, {"mains": "isolated"}, []),
        (COLD, {"mains": "on", "covers": "on"}, ["switch_on"]),
        (COLD, {"mains": "isolated", "covers": "off"}, ["covers_off"]),
        (COLD, {"mains": "on", "boiler": "hot"}, ["switch_on", "heat_up"]),
        (HOT, {"mains": "isolated", "covers": "off"}, ["isolate", "vent", "covers_off"]),
        (HOT, {"covers": "off", "boiler": "cold"}, ["isolate", "vent", "covers_off", "let_cool"]),
    ],
    ids=["there-already", "on", "open", "heat", "hot-open", "hot-open-cold"],
)
def test_the_cheapest_way(start: BenchState, wanted: dict[str, str], expected: list[str]) -> None:
    assert sorted(moves(start, wanted)) == sorted(expected)
    if expected[:2] == ["isolate", "vent"]:
        assert moves(start, wanted)[:2] == ["isolate", "vent"], "no cover comes off before plug and pressure are out"


def test_live_work_is_for_the_qualified_only() -> None:
    live = {"mains": "on", "covers": "off"}
    assert moves(COLD, live) == ["no way"]
    assert moves(COLD, live, qualified=True) == ["covers_off", "switch_on_open"]


def test_after_live_work_the_pressure_is_let_out_before_anything_is_tested_dead() -> None:
    live = bench_state(BENCH, {**UNALTERED, "mains": "on", "covers": "off", "boiler": "hot", "pressure": "some"})
    assert moves(live, {"mains": "isolated", "covers": "off"}, qualified=True) == ["isolate", "vent"]
    dead = bench_state(BENCH, {**UNALTERED, "mains": "isolated", "covers": "off", "boiler": "hot", "pressure": "some"})
    assert moves(dead, BENCH.safe, qualified=True) == ["vent"]
    assert moves(dead, BENCH.safe, qualified=True, impossible=("vent", "covers_on")) == ["no way"]


def test_a_move_that_cannot_be_made_is_left_out() -> None:
    assert moves(HOT, {"mains": "isolated"}, impossible=("isolate",)) == ["no way"]


def test_a_machine_left_on_does_not_stay_cold() -> None:
    on = bench_state(BENCH, {**UNALTERED, "mains": "on", "covers": "on", "boiler": "cold", "pressure": "none"})
    warm = {**UNALTERED, "mains": "on", "covers": "on", "boiler": "warm", "pressure": "some"}
    assert dict(in_time(BENCH, on)) == warm
    assert moves(on, {"mains": "isolated", "covers": "off"}) == ["isolate", "vent", "covers_off"]
    assert moves(on, {"mains": "on", "boiler": "warm"}) == [], "it is not unplugged and plugged in again for that"
    assert moves(COLD, {"mains": "on", "boiler": "warm"}) == ["switch_on"]


def test_a_set_up_state_is_passed_on_the_way() -> None:
    ways = BenchMap(BENCH, terms_for(BENCH, False, lambda condition: None))
    route = ways.route_through(COLD, {"mains": "isolated", "covers": "off"}, {"mains": "on", "covers": "on"}, {})
    assert route is not None
    assert [move.id for move in route.moves] == ["covers_off", "covers_on", "switch_on"]
    assert satisfies(ways.reached_by(COLD, route), {"mains": "on", "covers": "on"})
