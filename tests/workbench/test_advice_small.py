"""Advice that no slip in the shipped rules can bring, on a small base of an invented heater; the whole message."""

# ruff: noqa: E501  (each message stands whole beside its cause)

from __future__ import annotations

import pytest

from expert.language.load import read_rules
from expert.workbench.checks import advice
from tests.language.small_base import with_files

HEATER = """\
    circuit: heater
    title: Heater
    parts:
      coil:
        name: coil
        applies: {machine.fill: automatic}
        faults:
          open: {name: open, seen: rare, explains: [no_fill], shows: {ohms: open}, repair: {minutes: 5, steps: []}, prove: [ohms]}
          bent: {name: bent, seen: rare, explains: [no_fill], shows: {level: low}, repair: {minutes: 5, steps: []}, prove: [level]}
          kinked: {name: kinked, seen: rare, explains: [no_fill], shows: {level: high}, repair: {minutes: 5, steps: []}, prove: [level]}
    findings:
      passage: {name: whether it passes, outcomes: [free, shut, half]}
    work_out:
      expected: {name: by its rating, gives: resistance, unit: ohm, formula: "element_resistance(plate.rated_voltage, plate.element_power)", source: Joule}
    questions:
      ohms:
        ask: What does it read?
        answer: {measure: resistance, with: ohmmeter}
        readings: {open: above 100 kohm, sound: 0.9 * expected to 1.1 * expected, off: otherwise}
        sound: sound
        how: Read.
        minutes: 1
      level: {ask: How is it?, answer: {one_of: {normal: straight, low: bent, high: kinked}}, sound: normal, how: Look., minutes: 1}
    rules:
      open: {if: {ohms: open}, then: {confirm: coil.open}, because: B.}
      bent: {if: {level: low}, then: {confirm: coil.bent, conclude: {passage: half}}, because: B.}
      kinked: {if: {level: high}, then: {confirm: coil.kinked, conclude: {passage: shut}}, because: B.}
      shut: {if: {passage: [shut, half]}, then: {advise: Look at it.}, because: B.}
    """
ROWS = [
    (
        "0.9 * expected to 1.1 * expected",
        "1.1 * expected to 1.9 * expected",
        "19:38: ohms: on one_boiler the expected value expected is 37.79 ohm, and that is not 'sound' (41.56 ohm to 71.79 ohm) [expected-is-not-sound]",
    ),
    (
        "{passage: [shut, half]}",
        "{passage: free}",
        "28:24: this waits for passage: free, which no rule concludes [finding-outcome-never-concluded]",
    ),
    (
        "          kinked:",
        "".join(
            f"          {n}: {{name: {n}, seen: rare, explains: [no_fill], repair: {{minutes: 5, steps: []}}, prove: [level]}}\n"
            for n in ("worn", "weak")
        )
        + "          kinked:",
        "11:7: on one_boiler nothing tells coil.weak from coil.worn; what would: a look at or a reading of coil that differs between the two [indistinguishable]",
    ),
    (
        "how: Look.,",
        "how: Look., applies: {machine.fill: by_hand},",
        "9:7: level is to prove the repair of coil.bent, but applies on no machine that has the part [proof-not-there]",
    ),
]


@pytest.mark.parametrize(("old", "new", "message"), ROWS)
def test_a_slip_in_a_small_base_brings_the_advice(old: str, new: str, message: str) -> None:
    assert HEATER.count(old) == 1
    base = read_rules(with_files(tank=HEATER.replace(old, new)))
    found = [f"{p.at.line}:{p.at.column}: {p.message} [{p.code}]" for p in advice(base) if f"[{p.code}]" in message]
    assert found[:1] == [message]
