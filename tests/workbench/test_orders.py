"""Check lists against the order that takes the fewest minutes."""
# ruff: noqa: E501

from __future__ import annotations

import itertools

import pytest
from hypothesis import given
from hypothesis import strategies as st

from expert.language.load import read_rules
from expert.workbench.checks.orders import Step, _best, _minutes, check
from expert.workbench.index import Index
from tests.language.small_base import with_files

TANK = """\
    circuit: tank
    title: Tank
    parts:
      valve:
        name: valve
        faults:
          stuck: {name: stuck, seen: rare, explains: [no_fill], repair: {minutes: 5, steps: []}, prove: [dear]}
          bent: {name: bent, seen: common, explains: [no_fill], repair: {minutes: 5, steps: []}, prove: [cheap]}
    questions:
      level: {ask: How high?, answer: {one_of: {low: too low, normal: normal, high: too high}}, sound: normal, how: Look., minutes: 1}
      runs: {ask: Does it run?, answer: yes_no, how: Look., minutes: 1}
      dear: {ask: Is it stuck?, answer: yes_no, sound: no, how: Look., minutes: 30}
      cheap: {ask: Is it bent?, answer: yes_no, sound: no, how: Look., minutes: 2}
    rules:
      stuck: {if: {dear: yes}, then: {confirm: valve.stuck}, because: B.}
      bent: {if: {cheap: yes}, then: {confirm: valve.bent}, because: B.}
      order: {if: {complaint.no_fill: yes}, then: {check: LIST}, because: B.MORE}
    """
DEAR = (
    "17:48: order looks in this order for 33 minutes on the average; 5 would do in the order valve.bent, valve.stuck "
    "[dear-order]"
)


@pytest.mark.parametrize(
    ("listed", "more", "expected"),
    [
        ("[valve.bent, valve.stuck]", "", []),
        ("[valve.stuck, valve.bent]", "", [DEAR]),
        ("[valve.stuck, valve.bent]", ", in_this_order: It hurts.", []),
    ],
    ids=["the better order", "reversed", "with a reason"],
)
def test_an_order_that_takes_longer_is_named(listed: str, more: str, expected: list[str]) -> None:
    base = read_rules(with_files(tank=TANK.replace("LIST", listed).replace("MORE", more)))
    assert [f"{p.at.line}:{p.at.column}: {p.message} [{p.code}]" for p in check(Index(base))] == expected


STEPS = st.lists(
    st.tuples(st.floats(0.1, 10), st.floats(1, 30), st.frozensets(st.sampled_from(["hot", "open"]))),
    min_size=2,
    max_size=5,
)


@given(STEPS)
def test_the_best_order_is_the_best_of_all(drawn: list[tuple[float, float, frozenset[str]]]) -> None:
    dear = {("bench", "hot"): 15.0, ("bench", "open"): 5.0}
    steps = [
        Step(f"fault {number}", odds, minutes, frozenset(("bench", name) for name in set_up), frozenset())
        for number, (odds, minutes, set_up) in enumerate(drawn)
    ]
    tried = min(_minutes(order, dear) for order in itertools.permutations(steps))
    assert _best(tuple(steps), tuple(dear.items()))[0] == pytest.approx(tried)
