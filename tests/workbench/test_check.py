"""Advice on rule bases that load: each row with the whole messages it should bring."""

from __future__ import annotations

import pytest

from expert.language import read_rules
from expert.workbench.check import ADVICE, CODES, advice
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
            repair: {minutes: 5, steps: [Replace it.]}
            prove: [level]
    questions:
      level:
        ask: How high is the water?
        answer: {one_of: {low: too low, normal: normal, high: too high}}
        sound: normal
        how: Look.
        minutes: 1
    rules:
      stuck: {if: {level: low}, then: {confirm: valve.stuck}, because: Held up.}
      free: {if: {level: [normal, high]}, then: {clear: valve.stuck, normal: leaks}, because: It fills.}
    """
FREE = "      free: {if: {level: [normal, high]}, then: {clear: valve.stuck, normal: leaks}, because: It fills.}\n"


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
                "circuits/tank.yaml:14:3: level is to prove the repair of valve.stuck, but does not say which "
                "outcome is sound [proof-without-sound]"
            ],
            id="proof without sound",
        ),
        pytest.param(
            "    rules:\n",
            "      smell: {ask: Smell?, answer: yes_no, how: Smell., minutes: 1}\n    rules:\n",
            ["circuits/tank.yaml:20:3: nothing uses the answer to smell [unused-question]"],
            id="unused question",
        ),
        pytest.param(
            "        how: Look.\n",
            "        how: Look.\n        bench: {mains: on, covers: off}\n",
            [
                "circuits/tank.yaml:14:3: level is put with mains on and covers off, and has no caution "
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
                "circuits/tank.yaml:7:7: valve.stuck is dangerous, but no rule about it stops the work or gives a "
                "caution [danger-not-told]"
            ],
            id="danger not told",
        ),
        pytest.param(
            "[normal, high]",
            "normal",
            ["circuits/tank.yaml:14:3: note: no rule uses 'high' of level [unused-outcome]"],
            id="unused outcome",
        ),
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
moves:
  open: {say: Open., makes: {covers: off}, minutes: 1, steps: [Open.], confirm: Open?, unless: {level: low}}
"""


def test_a_danger_that_is_told_in_another_rule_with_the_fault_is_told() -> None:
    text = SOUND.replace("seen: common\n", "seen: common\n            dangerous: yes\n")
    text = text.replace(
        FREE, FREE + "      stop: {if: {valve.stuck: present}, then: {stop_work: Stop.}, because: Danger.}\n"
    )
    base = read_rules(with_files(tank=text, bench=LIVE))
    assert advice(base) == ()


def test_there_is_one_code_for_each_piece_of_advice() -> None:
    assert len(CODES) == len(ADVICE)
