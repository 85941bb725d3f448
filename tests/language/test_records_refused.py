"""Records that are wrong: each row is a circuit file as its author would type it, the problem noted on its line."""
# ruff: noqa: E501  (the messages stand whole beside their cause)

from __future__ import annotations

import pytest

from tests.language.small_base import expected_problems, problems_of, with_files

PARTS_AND_QUESTIONS = {
    "unknown key of a question": """
        questions:
          smell:
            ask: Does it smell burnt?
            anser: yes_no  # 5: 'anser' is not a key of a question; did you mean answer? [unknown-key]
            answer: yes_no
            how: Smell.
            minutes: 1
        """,
    "missing keys": """
        questions:
          smell:  # 3: a question must have 'how' [missing-key] || 3: a question must have 'minutes' [missing-key]
            ask: Does it smell burnt?
            answer: yes_no
        """,
    "no answer of any known form": """
        questions:
          smell: {ask: Does it smell?, answer: maybe, how: Smell., minutes: 1}  # 40: 'answer' may be yes_no, {one_of: {outcome: label}} or {measure: kind, with: instrument} [wrong-shape]
        """,
    "choice of one": """
        questions:
          smell: {ask: Does it smell?, answer: {one_of: {burnt: burnt}}, how: Smell., minutes: 1}  # 41: a choice of one is no question; give two [too-few-outcomes]
        """,
    "empty text": """
        questions:
          smell:
            ask: ""  # 10: 'ask' is empty [empty-value]
            answer: yes_no
            how:  # 9: 'how' is empty [empty-value]
            minutes: 1
        """,
    "list for a text": """
        questions:
          smell: {ask: [Does it smell?], answer: yes_no, how: Smell., minutes: 1}  # 16: 'ask' is a list; a text is wanted [wrong-shape]
        """,
    "minutes in words": """
        questions:
          smell: {ask: Does it smell?, answer: yes_no, how: Smell., minutes: five}  # 70: 'minutes' is 'five'; a plain number is wanted, as in 2 or 2.5 [not-a-number]
        """,
    "minutes in another notation": """
        questions:
          smell: {ask: Does it smell?, answer: yes_no, how: Smell., minutes: 1e1}  # 70: 'minutes' is '1e1'; a plain number is wanted, as in 2 or 2.5 [not-a-number]
        """,
    "sound is no outcome": """
        questions:
          smell: {ask: Does it smell?, answer: yes_no, sound: none, how: Smell., minutes: 1}  # 55: 'none' is not an outcome of smell; it has yes, no; did you mean no? [unknown-outcome]
        """,
    "true is not yes": """
        questions:
          smell: {ask: Does it smell?, answer: yes_no, sound: true, how: Smell., minutes: 1}  # 55: 'true' is not an outcome of smell; it has yes, no [unknown-outcome]
        """,
    "unknown bench dimension and state": """
        questions:
          smell:
            ask: Does it smell?
            answer: yes_no
            how: Smell.
            minutes: 1
            bench: {main: on, covers: away}  # 13: there is no bench dimension 'main'; did you mean mains? [unknown-name] || 31: 'away' is not a state of covers; it has on, off [unknown-outcome]
        """,
    "unknown caution": """
        questions:
          smell: {ask: Does it smell?, answer: yes_no, how: Smell., minutes: 1, cautions: [burns]}  # 84: there is no caution 'burns'; did you mean burn? [unknown-name]
        """,
    "question only for one kind of machine that there is not": """
        questions:
          smell:
            ask: Does it smell?
            answer: yes_no
            how: Smell.
            minutes: 1
            applies: {machine.fil: automatic, machine.sensor: [ntc, pt100], level: low}  # 15: there is no machine feature 'machine.fil'; did you mean machine.fill? [unknown-name] || 61: 'pt100' is not an outcome of machine.sensor; it has ntc, platinum, none [unknown-outcome] || 69: 'level' is no machine feature; 'applies' takes machine.<feature> only [unknown-name]
        """,
    "part that its circuit excludes": """
        applies: {machine.fill: automatic}
        parts:
          lid:
            name: lid
            applies: {machine.fill: by_hand}  # 14: this can never apply: its circuit asks for another machine.fill [never-applies]
            faults:
              lost: {name: lost, seen: rare, explains: [leaks], repair: {minutes: 1, steps: [Find it.]}, prove: [level]}
        """,
    "fault wrong in every field": """
        parts:
          lid:
            name: lid
            faults:
              lost:
                name: lost
                seen: frequently  # 15: 'seen' is 'frequently'; it may be common, occasional, rare [unknown-word]
                explains: [leak, no_fill, no_fill]  # 20: there is no complaint 'leak'; did you mean leaks? [unknown-name] || 35: 'no_fill' stands twice in this list [said-twice]
                shows: {level: lo, flavour: bad}  # 24: 'lo' is not an outcome of level; it has low, normal, high; did you mean low? [unknown-outcome] || 28: there is no question 'flavour'; there is coil, level, runs [unknown-name]
                caused_by: [valve.stuk, valve]  # 21: there is no fault 'valve.stuk'; did you mean valve.stuck? [unknown-name] || 33: 'valve' is a part; one of its faults is wanted here: valve.stuck, valve.leaking [unknown-name]
                dangerous: true  # 20: 'dangerous' is 'true'; write yes or no [not-yes-or-no]
                repair: {minutes: -5, steps: [], tools: [spanner], bench: {mains: isolate}}  # 27: 'minutes' is '-5'; a plain number is wanted, as in 2 or 2.5 [not-a-number] || 42: 'tools' is not a key of a repair; it may have minutes, steps, parts, consumables, cautions, bench [unknown-key] || 75: 'isolate' is not a state of mains; it has isolated, on; did you mean isolated? [unknown-outcome]
                prove: [levels]  # 17: there is no question 'levels'; did you mean level? [unknown-name]
        """,
    "part without faults": """
        parts:
          lid: {name: lid}  # 3: a part must have 'faults' [missing-key]
        """,
    "ids that are no ids": """
        parts:
          Lid: {name: lid, faults: {lost: {name: lost, seen: rare, explains: [], repair: {minutes: 1, steps: []}, prove: []}}}  # 3: 'Lid' is no id; small letters, digits and single underscores, as in fill_coil [not-snake-case]
        questions:
          any: {ask: Any?, answer: yes_no, how: Ask., minutes: 1}  # 3: 'any' is a word of the language; choose another id [reserved-name]
          2nd: {ask: Second?, answer: yes_no, how: Ask., minutes: 1}  # 3: '2nd' is no id; small letters, digits and single underscores, as in fill_coil [not-snake-case]
          smell: {ask: Smell?, answer: {one_of: {Burnt: burnt, fresh: fresh}}, how: Ask., minutes: 1}  # 42: 'Burnt' is no outcome; small letters, digits and single underscores, as in too_high [not-snake-case]
        """,
    "ids given before, in this file or another": """
        parts:
          valve:  # 3: there is already a part 'valve', at circuits/tank.yaml:4:3 [duplicate-id]
            name: valve
            faults: {stuck: {name: stuck, seen: rare, explains: [], repair: {minutes: 1, steps: []}, prove: []}}  # 14: there is already a fault 'valve.stuck', at circuits/tank.yaml:7:7 [duplicate-id]
        questions:
          level: {ask: Level?, answer: yes_no, how: Look., minutes: 1}  # 3: there is already a question 'level', at circuits/tank.yaml:20:3 [duplicate-id]
        findings:
          runs: {name: runs, outcomes: [well, badly]}  # 3: there is already a question 'runs', at circuits/tank.yaml:26:3 [duplicate-id]
        """,
    "finding of one outcome": """
        findings:
          state: {name: state, outcomes: [good]}  # 24: state has one outcome only; two are needed [too-few-outcomes]
        """,
}
MEASUREMENTS = {
    "no readings": """
        questions:
          ohms: {ask: Ohms?, answer: {measure: resistance, with: ohmmeter}, how: Measure., minutes: 1}  # 30: a question that is measured must have 'readings' [missing-key]
        """,
    "last reading is not otherwise": """
        questions:
          ohms:
            ask: Ohms?
            answer: {measure: resistance, with: ohmmeter}
            readings:
              open: above 100 kohm
              sound: below 100 kohm  # 14: the last reading must be 'otherwise', so that every value has a name; 'sound' is not [no-otherwise]
            how: Measure.
            minutes: 1
        """,
    "reading after otherwise": """
        questions:
          ohms:
            ask: Ohms?
            answer: {measure: resistance, with: ohmmeter}
            readings:
              open: above 100 kohm
              sound: otherwise
              low: below 5 ohm  # 7: 'low' can never come out: 'otherwise' above it takes the rest; put it before [unreachable-reading]
            how: Measure.
            minutes: 1
        """,
    "reading that those above it take whole, and one with its limits reversed": """
        questions:
          ohms:
            ask: Ohms?
            answer: {measure: resistance, with: ohmmeter}
            readings:
              low: below 1 kohm
              lower: 5 ohm to 10 ohm  # 7: 'lower' can never come out: the readings above it take its whole span [unreachable-reading]
              wrong: 3 kohm to 2 kohm  # 7: 'wrong': the lower limit is not below the upper one [limits-reversed]
              sound: otherwise
            how: Measure.
            minutes: 1
        """,
    "kind, instrument and unit wrong": """
        questions:
          ohms:
            ask: Ohms?
            answer: {measure: resistence, with: ohmeter, unit: bar}  # 23: 'resistence' is no kind of quantity; did you mean resistance? [unknown-kind] || 41: there is no instrument 'ohmeter'; did you mean ohmmeter? [unknown-name]
            readings: {open: above 100 kohm, sound: otherwise}
            how: Measure.
            minutes: 1
          amps:
            ask: Ohms?
            answer: {measure: resistance, with: gauge, unit: bar}  # 54: 'bar' is no unit of a resistance; it may be ohm, kohm, Mohm, mohm, Gohm [wrong-unit]
            readings: {open: above 100 kohm, sound: otherwise}
            how: Measure.
            minutes: 1
        """,
    "instrument of another kind": """
        questions:
          ohms:
            ask: Ohms?
            answer: {measure: resistance, with: gauge}  # 41: gauge shows a gauge pressure; a resistance is asked for; ohmmeter would do [wrong-instrument]
            readings: {open: above 100 kohm, sound: otherwise}
            how: Measure.
            minutes: 1
        """,
    "believable span": """
        questions:
          ohms:
            ask: Ohms?
            answer: {measure: resistance, with: ohmmeter, believable: 5 ohm}  # 63: '5 ohm' is no span; write LOW to HIGH, as in 0 ohm to 2 kohm [not-a-quantity]
            readings: {open: above 100 kohm, sound: otherwise}
            how: Measure.
            minutes: 1
          more:
            ask: Ohms?
            answer: {measure: resistance, with: ohmmeter, believable: 5 ohm to 1 ohm}  # 63: '5 ohm to 1 ohm': the lower limit is not below the upper one [limits-reversed]
            readings: {open: above 100 kohm, sound: otherwise}
            how: Measure.
            minutes: 1
        """,
    "readings without a measurement": """
        questions:
          smell: {ask: Smell?, answer: yes_no, readings: {yes: otherwise}, how: Smell., minutes: 1}  # 40: only a question that is measured has 'readings' [unknown-key]
        """,
}
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


@pytest.mark.parametrize("text", [pytest.param(text, id=name) for name, text in PARTS_AND_QUESTIONS.items()])
def test_parts_and_questions(text: str) -> None:
    files = with_files(row=text)
    assert problems_of(files) == expected_problems(files) != []


@pytest.mark.parametrize("text", [pytest.param(text, id=name) for name, text in MEASUREMENTS.items()])
def test_measurements(text: str) -> None:
    files = with_files(row=text)
    assert problems_of(files) == expected_problems(files) != []


@pytest.mark.parametrize("text", [pytest.param(text, id=name) for name, text in RULES.items()])
def test_rules(text: str) -> None:
    files = with_files(row=text)
    assert problems_of(files) == expected_problems(files) != []


@pytest.mark.parametrize("text", [pytest.param(text, id=name) for name, text in FORMULAS.items()])
def test_formulas_in_records(text: str) -> None:
    files = with_files(row=text)
    assert problems_of(files) == expected_problems(files) != []
