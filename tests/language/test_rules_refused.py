"""Rules, worked-out values and formulas that are wrong: each row is a circuit file as its author would type it, the problem noted on its line."""
# ruff: noqa: E501  (the messages stand whole beside their cause)

from __future__ import annotations

import pytest

from tests.language.small_base import expected_problems, problems_of, with_files

RULES = {
    "outcome of a question": """
        rules:
          held_up:
            if: {level: lo}  # 17: 'lo' is not an outcome of level; it has low, normal, high; did you mean low? [unknown-outcome]
            then: {confirm: valve.stuck}
            because: It is held up.
        """,
    "outcome in a list": """
        rules:
          held_up: {if: {level: [low, hi, low]}, then: {confirm: valve.stuck}, because: It is held up.}  # 31: 'hi' is not an outcome of level; it has low, normal, high; did you mean high? [unknown-outcome] || 35: 'low' stands twice in this list [said-twice]
        """,
    "names in conditions": """
        rules:
          held_up:
            if:
              levle: low  # 7: there is no question or finding 'levle'; did you mean level? [unknown-name]
              machine.fil: automatic  # 7: there is no machine feature 'machine.fil'; did you mean machine.fill? [unknown-name]
              complaint.no_fil: yes  # 7: there is no complaint 'complaint.no_fil'; did you mean complaint.no_fill? [unknown-name]
              valve: present  # 7: 'valve' is a part; a condition takes one of its faults: valve.stuck, valve.leaking [unknown-name]
              valve.stuc: present  # 7: there is no fault 'valve.stuc'; did you mean valve.stuck? [unknown-name]
              expected: high  # 7: 'expected' is a worked-out value; a condition takes the named readings of a question [unknown-name]
            then: {confirm: valve.stuck}
            because: It is held up.
        """,
    "nested conditions": """
        rules:
          held_up:
            if:
              any:
                - {level: low}
                - not: {all: [{runs: maybe}, {}]}  # 30: 'maybe' is not an outcome of runs; it has yes, no [unknown-outcome] || 38: a condition is empty [empty-value]
                - runs  # 11: a condition is 'runs'; a mapping (key: value) is wanted [wrong-shape]
              all: []  # 12: 'all' is empty [empty-value]
            then: {confirm: valve.stuck}
            because: It is held up.
        """,
    "no condition, no reason": """
        rules:
          held_up: {then: {confirm: valve.stuck}}  # 3: a rule must have 'because' [missing-key] || 3: a rule must have 'if' [missing-key]
        """,
    "no conclusion": """
        rules:
          held_up: {if: {level: low}, then: {}, because: It is held up.}  # 37: 'then' says nothing; a rule must conclude something [no-conclusion]
        """,
    "conclusions of no known kind": """
        rules:
          held_up: {if: {level: low}, then: {confirms: valve.stuck}, because: It is held up.}  # 38: 'confirms' is not a key of a conclusion; did you mean confirm? [unknown-key]
        """,
    "names in conclusions": """
        rules:
          held_up:
            if: {level: low}
            then:
              confirm: valve  # 16: 'valve' is a part; one of its faults is wanted here: valve.stuck, valve.leaking [unknown-name]
              clear: [valve.stuck, vlave]  # 28: there is no part 'vlave'; did you mean valve? [unknown-name]
              conclude: {suply: good, supply: god}  # 18: there is no finding 'suply'; did you mean supply? [unknown-name] || 39: 'god' is not an outcome of supply; it has good, bad; did you mean good? [unknown-outcome]
              check: [valve.leeking]  # 15: there is no fault 'valve.leeking'; did you mean valve.leaking? [unknown-name]
              points_to: {valve.stuck: very}  # 32: the weight of valve.stuck is 'very'; it may be slightly, fairly, strongly [unknown-word]
              normal: leek  # 15: there is no complaint 'leek'; did you mean leaks? [unknown-name]
              caution: burnt  # 16: there is no caution 'burnt'; did you mean burn? [unknown-name]
              advise: ""  # 15: an entry of 'advise' is empty [empty-value]
            because: It is held up.
        """,
    "rules in a circle": """
        findings:
          flow: {name: flow, outcomes: [good, bad]}
        rules:
          one: {if: {supply: bad}, then: {conclude: {flow: bad}}, because: No supply.}
          two: {if: {not: {flow: good}, level: low}, then: {clear: valve.leaking}, because: No flow.}  # 3: rules argue in a circle: flow -> rule two -> valve.leaking -> rule three -> supply -> rule one -> flow [cycle]
          three: {if: {valve.leaking: absent}, then: {conclude: {supply: bad}}, because: No leak.}
        """,
    "one mistake, one message": """
        questions:
          smell: {ask: Smell?, answer: {one_of: [burnt, fresh]}, how: Smell., minutes: 1}  # 41: 'one_of' is a list; a mapping (key: value) is wanted [wrong-shape]
        rules:
          smells: {if: {smell: burnt, level: low}, then: {confirm: valve.stuck}, because: It smells.}
        """,
}
FORMULAS = {
    "formulas go round in a circle": """
        work_out:
          one: {name: one, gives: resistance, unit: ohm, formula: two + 1 ohm, source: none}  # 3: formulas go round in a circle: one -> two -> one [cycle]
          two: {name: two, gives: resistance, unit: ohm, formula: 2 * one, source: none}
        """,
    "limits that need the reading itself": """
        questions:
          ohms:  # 3: formulas go round in a circle: ohms -> ohms [cycle]
            ask: Ohms?
            answer: {measure: resistance, with: ohmmeter}
            readings: {high: above 2 * ohms, sound: otherwise}
            how: Measure.
            minutes: 1
        """,
    "unknown names": """
        work_out:
          one: {name: one, gives: resistance, unit: ohm, formula: 2 * expectd, source: none}  # 63: there is no value 'expectd'; did you mean expected? [unknown-name]
          two: {name: two, gives: resistance, unit: ohm, formula: "element_resistanse(plate.voltage, 5 W)", source: none}  # 59: there is no trade function 'element_resistanse'; did you mean element_resistance? [unknown-name]
        """,
    "unit and kind of a worked-out value": """
        work_out:
          one: {name: one, gives: ohms, unit: ohm, formula: 1 ohm, source: none}  # 27: 'ohms' is no kind of quantity; there is gauge_pressure, absolute_pressure, pressure_difference, temperature, temperature_difference, resistance, ac_voltage, dc_voltage, current, leakage_current, power, energy, volume, flow, mass, time, length, area, frequency, hardness, conductivity, capacitance, number [unknown-kind]
          two: {name: two, gives: resistance, unit: bar, formula: 1 ohm, source: none}  # 45: 'bar' is no unit of a resistance; it may be ohm, kohm, Mohm, mohm, Gohm [wrong-unit]
        """,
    "assumptions": """
        work_out:
          one: {name: one, gives: resistance, unit: ohm, formula: coil, source: none, assume: {coil: 5 V}}  # 94: '5 V' is a voltage; a resistance is wanted, in ohm, kohm or Mohm, or OL [not-a-quantity]
          two: {name: two, gives: resistance, unit: ohm, formula: coil, source: none, assume: {level: low, koil: 1 ohm}}  # 88: 'level' is answered in words; only a measured reading can be assumed [wrong-kind] || 100: there is no question 'koil'; did you mean coil? [unknown-name]
          three: {name: three, gives: resistance, unit: ohm, formula: coil, source: none, assume: {coil: plate.rated_voltage}}  # 98: 'plate.rated_voltage' is an AC voltage; a resistance is wanted [wrong-kind]
          four: {name: four, gives: resistance, unit: ohm, formula: coil, source: none, assume: {coil: plate.rated_voltag}}  # 96: there is no rating 'plate.rated_voltag'; did you mean plate.rated_voltage? [unknown-name]
        """,
}


@pytest.mark.parametrize("text", [pytest.param(text, id=name) for name, text in RULES.items()])
def test_rules(text: str) -> None:
    files = with_files(row=text)
    assert problems_of(files) == expected_problems(files) != []


@pytest.mark.parametrize("text", [pytest.param(text, id=name) for name, text in FORMULAS.items()])
def test_formulas_in_records(text: str) -> None:
    files = with_files(row=text)
    assert problems_of(files) == expected_problems(files) != []
