"""Weights of evidence that point the other way than what the fault shows: one slip, one message."""

# ruff: noqa: E501  (each message stands whole beside its cause)

from __future__ import annotations

import pytest

from expert.language.load import read_rules
from expert.workbench.checks import CHECKS
from expert.workbench.checks.weights import CODES, check
from expert.workbench.index import Index
from tests.language.small_base import with_files

TANK = """\
    circuit: tank
    title: Tank
    parts:
      valve:
        name: valve
        faults:
          stuck: {name: stuck, seen: common, explains: [no_fill], shows: {level: low}, repair: {minutes: 5, steps: []}, prove: [level]}
      pump:
        name: pump
        faults:
          worn: {name: worn, seen: common, explains: [no_fill], shows: {flow: weak}, repair: {minutes: 5, steps: []}, prove: [flow]}
    questions:
      level: {ask: How high?, answer: {one_of: {low: too low, normal: normal, high: too high}}, sound: normal, how: Look., minutes: 1}
      flow: {ask: How much?, answer: {one_of: {weak: weak, full: full}}, sound: full, how: Look., minutes: 1}
      since: {ask: Since when?, answer: {one_of: {today: today, long: long}}, how: Ask., minutes: 1}
    rules:
      weighed: RULE
    """
ROWS = [
    pytest.param("{if: {level: low}, then: {points_to: {valve.stuck: fairly}}, because: B.}", [], id="for its sign"),
    pytest.param("{if: {level: normal}, then: {points_away: {valve.stuck: fairly}}, because: B.}", [], id="against"),
    pytest.param(
        "{if: {level: low}, then: {points_away: {valve.stuck: fairly}}, because: B.}",
        [
            "17:52: weighed points away from valve.stuck, which gives just these answers (level: low) [weight-against-shows]"
        ],
        id="sign turned round",
    ),
    pytest.param(
        "{if: {level: normal}, then: {points_to: {valve.stuck: fairly}}, because: B.}",
        [
            "17:53: weighed points to valve.stuck, which hardly gives these answers (it gives level: low, not normal) [weight-against-shows]"
        ],
        id="what it cannot give",
    ),
    pytest.param(
        "{if: {level: high}, then: {points_to: {valve.stuck: fairly}}, because: B.}",
        [
            "17:51: weighed points to valve.stuck, which hardly gives these answers (it gives level: low, not high) [weight-against-shows]"
        ],
        id="another outcome",
    ),
    pytest.param(
        "{if: {since: today}, then: {points_to: {valve.stuck: fairly}}, because: B.}",
        [
            "17:52: weighed points to valve.stuck, and nothing tells how that answers (since: today); say it under its 'shows' [weight-without-ground]"
        ],
        id="nothing ties it",
    ),
    pytest.param(
        "{if: {flow: full}, then: {points_to: {valve.stuck: fairly}}, because: B.}", [], id="another is less likely"
    ),
    pytest.param(
        "{if: {level: low}, then: {points_away: {valve.stuck: fairly}}, because: B., despite_shows: valve.stuck}",
        [],
        id="despite what it shows",
    ),
    pytest.param(
        "{if: {level: low}, then: {points_to: {valve.stuck: fairly}}, because: B., despite_shows: valve.stuck}",
        ["17:50: weighed points to valve.stuck just as that shows; it needs no 'despite_shows' [despite-nothing]"],
        id="despite nothing",
    ),
    pytest.param(
        "{if: {level: low}, then: {points_to: {valve.stuck: fairly}}, because: B., despite_shows: pump.worn}",
        ["17:3: weighed gives no weight for or against pump.worn [despite-nothing]"],
        id="no weight at all",
    ),
]


@pytest.mark.parametrize(("rule", "expected"), ROWS)
def test_a_weight_against_what_the_fault_shows(rule: str, expected: list[str]) -> None:
    base = read_rules(with_files(tank=TANK.replace("RULE", rule)))
    assert [f"{p.at.line}:{p.at.column}: {p.message} [{p.code}]" for p in check(Index(base))] == expected
    assert check in CHECKS and len(CODES) == 3
