"""A small sound rule base for tests, and expected problems written as comments on the lines that cause them."""

from __future__ import annotations

import re
from collections.abc import Mapping
from textwrap import dedent

from expert.language.load import read_rules
from expert.language.problems import RulesRefused

FEATURES = """\
features:
  fill: {name: how the boiler is filled, values: [automatic, by_hand]}
  sensor: {name: temperature sensor, values: [ntc, platinum, none]}
plate:
  rated_voltage: {name: rated voltage, measure: ac_voltage, unit: V}
  element_power: {name: power of the element, measure: power, unit: W}
  set_temperature: {name: set temperature, measure: temperature, unit: degC}
"""
COMPLAINTS = "complaints: {no_fill: {name: Does not fill}, leaks: {name: Leaks, words: [drips, puddle]}}\n"
CAUTIONS = "cautions: {isolate: Pull the plug., burn: Gloves on.}\n"
INSTRUMENTS = """\
instruments:
  ohmmeter: {name: ohmmeter, measures: resistance, ranges: [{percent: 1, digits: 2, step: 0.1 ohm}]}
  gauge: {name: gauge, measures: gauge_pressure, class: 2.5, full_scale: 3 bar}
  thermometer: {name: thermometer, measures: temperature, plus_minus: 2.5 K}
"""
BENCH = """\
states: {mains: [isolated, on], covers: [on, off]}
arrives: {plugged_in: {say: Plugged in, state: {mains: on, covers: on}}}
safe: {mains: isolated}
qualified_only: [{mains: on, covers: off}]
moves:
  isolate: {say: Unplug., needs: {mains: on}, makes: {mains: isolated}, minutes: 1, steps: [Unplug.], confirm: "Out?"}
  open_up:
    say: Take the covers off.
    needs: {mains: isolated, covers: on}
    makes: {covers: off}
    minutes: 5
    steps: [Undo the screws.]
    cautions: [isolate]
    confirm: Are they off?
    unless: {level: high}
"""
HAZARDS = """\
acts:
  energise: {say: plug it in, states: [{mains: on}]}
  leave_alone: {say: leave it alone, states: [{mains: on}], left: yes}
hazards:
  water_above_the_mains:
    name: water above the mains
    while: {level: high}
    suspected: [valve.leaking]
    forbids: [energise]
    until: The water is low again, or the valve is changed and the level normal.
    released_by:
      - {repair: [valve.leaking], tests: {level: normal}}
      - {tests: {runs: no, level: [low, normal]}}
  not_looked_at:
    name: a machine that nobody has looked at
    forbids: [energise]
    until: Somebody has looked at the level.
    released_by: [{tests: {level: [low, normal]}}]
"""
MACHINE = """\
machine: one_boiler
title: One boiler
layout: One boiler and a tank.
features: {fill: automatic, sensor: ntc}
plate: {rated_voltage: 230 V, element_power: 1.4 kW, set_temperature: 123 degC}
"""
TANK = """\
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
      leaking:
        name: leaking
        seen: rare
        explains: [leaks]
        repair: {minutes: 5, steps: [Replace it.]}
        prove: [level]
questions:
  level:
    ask: How high is the water?
    answer: {one_of: {low: too low, normal: normal, high: too high}}
    sound: normal
    how: Look.
    minutes: 1
  runs: {ask: "Does it run?", answer: yes_no, sound: yes, how: Listen., minutes: 1}
  coil:
    ask: What does the coil read?
    answer: {measure: resistance, with: ohmmeter, believable: 0 to 50 Mohm}
    readings: {open: above 100 kohm, low: below 10 ohm, sound: otherwise}
    sound: sound
    how: Measure.
    bench: {mains: isolated, covers: off}
    minutes: 3
findings:
  supply: {name: water supply, outcomes: [good, bad]}
work_out:
  expected: {name: element, gives: resistance, unit: ohm, formula: 37.8 ohm, source: example only}
rules:
  valve_is_stuck:
    if: {level: low, runs: yes}
    then: {confirm: valve.stuck}
    because: Water is held up at the valve.
"""
SMALL: Mapping[str, str] = {
    "features.yaml": FEATURES,
    "complaints.yaml": COMPLAINTS,
    "cautions.yaml": CAUTIONS,
    "instruments.yaml": INSTRUMENTS,
    "bench.yaml": BENCH,
    "machines/one_boiler.yaml": MACHINE,
    "circuits/tank.yaml": TANK,
}
ROW = "circuits/your_row.yaml"
_MARK = re.compile(r"# (\d+: .*\[[a-z0-9-]+\])$")


def with_files(**texts: str) -> dict[str, str]:
    """The small base with some files replaced, by short name: bench, machine, tank ... or row (one more circuit)."""
    paths = {"machine": "machines/one_boiler.yaml", "tank": "circuits/tank.yaml", "row": ROW}
    files = dict(SMALL)
    for name, text in texts.items():
        text = dedent(text).lstrip("\n")
        files[paths.get(name, f"{name}.yaml")] = f"circuit: row\ntitle: Row\n{text}" if name == "row" else text
    return files


def expected_problems(files: Mapping[str, str]) -> list[str]:
    """What the comments `# COLUMN: message [code]` in the texts announce; ` || ` parts several on one line."""
    found = []
    for path in sorted(files):
        for number, line in enumerate(files[path].splitlines(), start=1):
            mark = _MARK.search(line)
            found += [f"{path}:{number}:{part}" for part in mark.group(1).split(" || ")] if mark else []
    return found


def problems_of(files: Mapping[str, str]) -> list[str]:
    """What reading the files reports, as text; nothing if they are sound."""
    try:
        read_rules(files)
    except RulesRefused as refused:
        return [str(problem) for problem in refused.problems]
    return []
