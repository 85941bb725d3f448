"""Advice on rule bases that load: each row with the whole messages it should bring."""

# ruff: noqa: E501  (each message stands whole beside its cause)

from __future__ import annotations

import pytest

from expert.language.load import read_rules
from expert.workbench.checks import advice
from tests.language.small_base import with_files

SOUND = """\
    circuit: tank
    title: Tank
    parts:
      valve:
        name: valve
        faults:
          stuck:
            name: stuck
            seen: common
            explains: [no_fill]
            shows: {level: low}
            repair: {minutes: 5, steps: [Replace it.], cautions: [isolate], bench: {mains: isolated}}
            prove: [level]
    questions:
      level:
        ask: How high is the water?
        answer: {one_of: {low: too low, normal: normal, high: too high}}
        sound: normal
        how: Look.
        minutes: 1
      runs: {ask: Does it run?, answer: yes_no, how: Look., minutes: 1}
    rules:
      still: {if: {runs: no}, then: {advise: Look.}, because: It does not run.}
      stuck: {if: {level: low}, then: {confirm: valve.stuck}, because: Held up.}
      free: {if: {level: [normal, high]}, then: {clear: valve.stuck, normal: leaks}, because: It fills.}
    """
FREE = "      free: {if: {level: [normal, high]}, then: {clear: valve.stuck, normal: leaks}, because: It fills.}\n"


def rule(text: str) -> tuple[str, str]:
    """A further rule after the others."""
    return FREE, f"{FREE}      more: {text}\n"


TANK = "circuits/tank.yaml"
MORE = [
    pytest.param(
        *rule("{if: {level: low, runs: yes}, then: {confirm: valve.stuck}, because: Low.}"),
        [
            f"{TANK}:26:3: more adds nothing: whenever it fires (level: low, runs: yes), stuck at {TANK}:24:3 says the "
            "same [subsumed-rule]"
        ],
        id="subsumed rule",
    ),
    pytest.param(
        *rule("{if: {level: low}, then: {confirm: valve.stuck}, because: Low.}"),
        [f"{TANK}:26:3: more says what stuck at {TANK}:24:3 says, on the same answers (level: low) [duplicate-rule]"],
        id="duplicate rule",
    ),
    pytest.param(
        *rule("{if: {level: low, all: [{level: high}]}, then: {advise: Look.}, because: Low.}"),
        [f"{TANK}:26:3: more can never fire: no answers on any machine make its condition true [never-fires]"],
        id="never fires",
    ),
    pytest.param(
        *rule("{if: {level: low}, then: {clear: valve.stuck}, because: Low.}"),
        [
            f"{TANK}:26:3: more clears valve.stuck on what the fault itself shows (level: low) [cleared-by-its-sign]",
            f"{TANK}:26:35: more clears valve.stuck, but stuck at {TANK}:24:3 confirms it on the same answers "
            "(level: low) [contradicting-rules]",
        ],
        id="contradicting rules",
    ),
    pytest.param(
        *rule("{if: {runs: no}, then: {confirm: valve.stuck, clear: valve.stuck}, because: Low.}"),
        [
            f"{TANK}:26:3: more clears valve.stuck on runs, which nothing else ties to valve [cleared-by-a-stranger]",
            f"{TANK}:26:55: more says of valve.stuck both confirms and clears [confirms-and-clears]",
        ],
        id="confirms and clears",
    ),
    pytest.param(
        *rule(
            "{if: {level: low}, then: {points_to: {valve.stuck: fairly}, points_away: {valve.stuck: slightly}}, "
            "because: Low.}"
        ),
        [
            f"{TANK}:26:83: more points away from valve.stuck, but more at {TANK}:26:3 points the other way on the same "
            "answers (level: low) [for-and-against]",
            f"{TANK}:26:83: more points away from valve.stuck, which gives just these answers (level: low) "
            "[weight-against-shows]",
        ],
        id="for and against",
    ),
    pytest.param(
        "        minutes: 1\n",
        "        minutes: 1\n        only_if: {level: low}\n",
        [f"{TANK}:15:3: level is never put: it waits for itself [never-asked]"],
        id="waits for itself",
    ),
    pytest.param(
        "        sound: normal\n",
        "        sound: [low, normal, high]\n",
        [
            f"{TANK}:7:7: no proof of valve.stuck would show that it is still there: it shows no unsound answer to level, "
            "and no rule confirms it from one [proof-sees-nothing]",
            f"{TANK}:15:3: level is to prove the repair of valve.stuck, but every outcome of it is sound "
            "[proof-cannot-fail]",
        ],
        id="proof that cannot fail",
    ),
    pytest.param(
        "shows: {level: low}",
        "shows: {level: high}",
        [
            f"{TANK}:7:7: no answers on one_boiler lead to valve.stuck: none of its rules can come true on what it shows "
            "[fault-out-of-reach]",
            f"{TANK}:25:3: free clears valve.stuck on what the fault itself shows (level: high) [cleared-by-its-sign]",
        ],
        id="shows that contradict the rules",
    ),
    pytest.param(
        "steps: [Replace it.]",
        "steps: []",
        [f"{TANK}:7:7: the repair of valve.stuck has no steps [no-repair]"],
        id="repair without steps",
    ),
    pytest.param(
        "explains: [no_fill]",
        "explains: []",
        [
            f"{TANK}:7:7: valve.stuck explains no complaint, and nothing leads to it [explains-nothing]",
            "complaints.yaml:1:14: no fault explains no_fill, and no rule calls it normal [unexplained-complaint]",
        ],
        id="explains nothing",
    ),
    pytest.param(
        "    title: Tank\n",
        "    title: Tank\n    applies: {machine.fill: by_hand}\n",
        [
            "machines/one_boiler.yaml:1:10: nothing on one_boiler explains no_fill: the search would have no suspect "
            "[no-suspects]",
            "machines/one_boiler.yaml:1:10: one_boiler has fill: automatic, but circuits, parts, questions and rules "
            "speak of by_hand only; what hangs on it is not covered [uncovered-feature]",
        ],
        id="machine without its circuit",
    ),
    pytest.param(
        "ask: How high is the water?",
        "ask: How high is the water? And does it run?",
        [f"{TANK}:15:3: level asks two things in one [two-questions]"],
        id="two questions",
    ),
    pytest.param(
        "answer: {one_of: {low: too low, normal: normal, high: too high}}",
        "answer: {one_of: {low: too high, normal: normal, high: too low}}",
        [
            f"{TANK}:15:3: level: the label of 'high' reads like 'low' (too low) [label-of-another]",
            f"{TANK}:15:3: level: the label of 'low' reads like 'high' (too high) [label-of-another]",
        ],
        id="labels swapped",
    ),
    pytest.param(
        "ask: Does it run?",
        "ask: Does it not run?",
        [
            f"{TANK}:21:3: runs asks for 'not', so that yes would mean no; ask for what is there [negated-question]",
        ],
        id="negated question",
    ),
]


@pytest.mark.parametrize(
    ("old", "new", "expected"),
    [
        pytest.param("", "", [], id="nothing to say"),
        pytest.param(
            "confirm: valve.stuck",
            "suspect: valve.stuck",
            ["circuits/tank.yaml:7:7: no rule confirms valve.stuck [never-confirmed]"],
            id="never confirmed",
        ),
        pytest.param(
            "clear: valve.stuck",
            "suspect: valve.stuck",
            ["circuits/tank.yaml:7:7: no rule clears valve.stuck [never-cleared]"],
            id="never cleared",
        ),
        pytest.param(
            "normal: leaks",
            "advise: Good.",
            ["complaints.yaml:1:46: no fault explains leaks, and no rule calls it normal [unexplained-complaint]"],
            id="complaint that leads nowhere",
        ),
        pytest.param(
            "prove: [level]",
            "prove: []",
            ["circuits/tank.yaml:7:7: no question proves the repair of valve.stuck [no-proof]"],
            id="no proof",
        ),
        pytest.param(
            "        sound: normal\n",
            "",
            [
                "circuits/tank.yaml:15:3: level is to prove the repair of valve.stuck, but does not say which "
                "outcome is sound [proof-without-sound]"
            ],
            id="proof without sound",
        ),
        pytest.param(
            "    rules:\n",
            "      smell: {ask: Smell?, answer: yes_no, how: Smell., minutes: 1}\n    rules:\n",
            ["circuits/tank.yaml:22:3: nothing uses the answer to smell [unused-question]"],
            id="unused question",
        ),
        pytest.param(
            "        how: Look.\n",
            "        how: Look.\n        bench: {mains: on, covers: off}\n",
            [
                "circuits/tank.yaml:15:3: level is put with mains on and covers off, and has no caution "
                "[live-without-caution]"
            ],
            id="live without caution",
        ),
        pytest.param(
            "        how: Look.\n",
            "        how: Look.\n        bench: {mains: on, covers: off}\n        cautions: [burn]\n",
            [],
            id="live with caution",
        ),
        pytest.param(
            "            seen: common\n",
            "            seen: common\n            dangerous: yes\n",
            [
                "circuits/tank.yaml:7:7: valve.stuck is dangerous, but no rule about it stops or cautions, and "
                "it opens no hazard [danger-not-told]"
            ],
            id="danger not told",
        ),
        pytest.param(
            "[normal, high]",
            "normal",
            ["circuits/tank.yaml:15:3: note: no rule uses 'high' of level [unused-outcome]"],
            id="unused outcome",
        ),
        *MORE,
    ],
)
def test_advice(old: str, new: str, expected: list[str]) -> None:
    assert old in SOUND
    base = read_rules(with_files(tank=SOUND.replace(old, new) if old else SOUND, bench=LIVE))
    assert [str(problem) for problem in advice(base)] == expected


LIVE = """\
states: {mains: [isolated, on], covers: [on, off]}
arrives: {plugged_in: {say: Plugged in, state: {mains: on, covers: on}}}
safe: {mains: on}
qualified_only: [{mains: on, covers: off}]
service: [level]
after_opening: {when: {covers: off}, prove: [level]}
moves:
  open:
    {say: Open., makes: {covers: off}, minutes: 1, steps: [Open.], confirm: Open?, unless: {level: low},
     cautions: [isolate, burn]}
  unplug: {say: Unplug., makes: {mains: isolated}, minutes: 1, steps: [Unplug.], confirm: Out?}
"""


@pytest.mark.parametrize(
    ("line", "bench_too", "expected"),
    [
        (
            "service: [level]\n",
            "",
            "bench.yaml:7:3: 'service' names no test: a machine goes back to its owner as it is [nothing-before-return]",
        ),
        (
            "qualified_only: [{mains: on, covers: off}]\n",
            "        bench: {mains: on, covers: off}\n        cautions: [burn]\n",
            f"{TANK}:15:3: level is put with mains on and covers off, and 'qualified_only' does not keep it "
            "[live-for-everyone]",
        ),
    ],
    ids=["no service", "not kept for the qualified"],
)
def test_advice_on_the_bench(line: str, bench_too: str, expected: str) -> None:
    assert line in LIVE
    tank = SOUND.replace("        how: Look.\n", f"        how: Look.\n{bench_too}", 1)
    base = read_rules(with_files(tank=tank, bench=LIVE.replace(line, "")))
    assert [str(problem) for problem in advice(base)] == [expected]


def test_a_fault_cleared_on_what_has_nothing_to_do_with_it() -> None:
    text = SOUND.replace(FREE, FREE + "      more: {if: {runs: yes}, then: {clear: valve.stuck}, because: So.}\n")
    found = advice(read_rules(with_files(tank=text, bench=LIVE)))
    message = "more clears valve.stuck on runs, which nothing else ties to valve [cleared-by-a-stranger]"
    assert [str(problem) for problem in found] == [f"{TANK}:26:3: {message}"]


def test_a_danger_that_is_told_in_another_rule_with_the_fault_is_told() -> None:
    text = SOUND.replace("seen: common\n", "seen: common\n            dangerous: yes\n")
    text = text.replace(
        FREE, FREE + "      stop: {if: {valve.stuck: present}, then: {stop_work: Stop.}, because: Danger.}\n"
    )
    base = read_rules(with_files(tank=text, bench=LIVE))
    assert advice(base) == ()
