"""The short files when wrong: each row replaces files of the small base, the problem noted on its line."""
# ruff: noqa: E501  (the messages stand whole beside their cause)

from __future__ import annotations

import pytest

from tests.language.small_base import expected_problems, problems_of, with_files

ROWS = {
    "features": {
        "features": """
            features:
              fill: {name: fill, values: [automatic, by_hand, automatic]}  # 51: 'automatic' stands twice in this list [said-twice]
              sensor: {name: sensor, values: [ntc]}  # 26: sensor has one value only; two are needed [too-few-outcomes]
              pump: {values: [vibration, rotary]}  # 3: a feature must have 'name' [missing-key]
              limits: {name: limits, values: [uk, us], by_country: limits}  # 56: 'by_country' is 'limits'; write yes or no [not-yes-or-no]
            plate:
              rated_voltage: {name: rated voltage, measure: voltage, unit: V}  # 49: 'voltage' is no kind of quantity; did you mean dc_voltage? [unknown-kind]
              rated_power: {name: rated power, measure: power, unit: W, by_country: voltage}  # 3: 'by_country: voltage' goes with an AC voltage; this is a power [wrong-kind]
              coil: {name: coil, measure: resistance, unit: ohm, by_country: volts}  # 66: 'by_country' is 'volts'; it may be voltage, winding, lead; did you mean voltage? [unknown-word]
              element_power: {name: power of the element, measure: power, unit: bar}  # 69: 'bar' is no unit of a power; it may be W, kW [wrong-unit]
              set_temperature: {name: set temperature, measure: temperature, unit: degC, range: 5 K}  # 78: 'range' is not a key of a plate value; it may have name, measure, unit, part_of, by_country, believable [unknown-key]
            """,
    },
    "complaints": {
        "complaints": """
            complaint: {no_fill: {name: Does not fill}}  # 1: 'complaint' is not a key of the complaints file; did you mean complaints? [unknown-key]
            """
    },
    "complaints in a list": {
        "complaints": """
            complaints: [no_fill, leaks]  # 13: the list of complaints is a list; a mapping (key: value) is wanted [wrong-shape]
            """
    },
    "rows of words": {
        "complaints": """
            complaints: {no_fill: {name: Does not fill}, leaks: {name: Leaks}}
            same_words:
              - drip, dribble
              - weep  # 5: a row has two words or more, with commas between them, as in drip, dribble, weep [too-few-outcomes]
              - leak, Dribble  # 5: 'dribble' stands in a row already; a word that means two things stands in none [said-twice]
            """
    },
    "no complaints at all: said once, and not at every mention": {
        "complaints": """
            complaints: {}  # 13: the list of complaints is empty [empty-value]
            """,
    },
    "cautions": {
        "cautions": """
            cautions:
              isolate: Pull the plug.
              burn: {text: Gloves on., lasts: {mains: of}}  # 43: 'of' is not a state of mains; it has isolated, on [unknown-outcome]
              hot: {txt: Gloves on.}  # 9: 'txt' is not a key of a caution; did you mean text? [unknown-key]
              wet: {text: Dry., work: nobody}  # 27: 'work' is 'nobody'; it may be qualified, none [unknown-word]
              steam:  # 9: the caution is empty [empty-value]
            """,
    },
    "instruments": {
        "instruments": """
            instruments:
              ohmmeter: {name: ohmmeter, measures: resistance}  # 13: the accuracy is given by one of 'ranges', 'class' with 'full_scale', 'plus_minus' or 'percent' [no-accuracy]
              gauge: {name: gauge, measures: gauge_pressure, class: 2.5}  # 10: 'class' and 'full_scale' go together [no-accuracy]
              thermometer: {name: thermometer, measures: temperature, plus_minus: 2.5 bar}  # 71: '2.5 bar' is a pressure; a temperature difference is wanted, in K, degC or degF [not-a-quantity]
              both: {name: both, measures: resistance, percent: 2, ranges: [{percent: 1, digits: 2, step: 0.1 ohm}]}  # 9: the accuracy is given by one of 'ranges', 'class' with 'full_scale', 'plus_minus' or 'percent' [no-accuracy]
              lost: {name: lost, measures: resistance, ranges: [{percent: 1, digit: 2, step: 0.1 ohm}]}  # 66: 'digit' is not a key of a range; did you mean digits? [unknown-key]
            """,
    },
    "machine": {
        "machine": """
            machine: one_boiler
            title: One boiler
            layout: One boiler and a tank.
            features: {fill: automatic, senser: ntc, sensor: [ntc, none]}  # 29: there is no feature 'senser'; did you mean sensor? [unknown-name] || 50: sensor has several values here; a machine has one [wrong-shape]
            plate: {rated_voltage: 230 W, element_powr: 1.4 kW}  # 24: '230 W' is a power; an AC voltage is wanted, in V, mV or kV, or OL [not-a-quantity] || 31: there is no plate value 'element_powr'; did you mean element_power? [unknown-name]
            """,
    },
    "machine without one of the features": {
        "machine": """
            machine: one_boiler
            title: One boiler
            layout: One boiler and a tank.
            features:
              fill: automatic  # 3: one_boiler must state the feature 'sensor': one of ntc, platinum, none [missing-feature]
            plate: {rated_voltage: 230 V}
            """,
    },
    "machine without a rating that a question needs, through a worked-out value": {
        "machine": """
            machine: one_boiler
            title: One boiler
            layout: One boiler and a tank.
            features: {fill: automatic, sensor: ntc}
            plate: {rated_voltage: 230 V}  # 8: one_boiler must state the rating 'set_temperature'; the question warm needs it [missing-rating]
            """,
        "row": """
            questions:
              warm:
                ask: How warm?
                answer: {measure: temperature, with: thermometer}
                readings: {low: below limit, sound: otherwise}
                how: Measure.
                minutes: 1
              by_hand_only:
                ask: Ohms?
                answer: {measure: resistance, with: ohmmeter}
                readings: {low: "below element_resistance(plate.rated_voltage, plate.element_power)", sound: otherwise}
                how: Measure.
                minutes: 1
                applies: {machine.fill: by_hand}
            work_out:
              limit: {name: limit, gives: temperature, unit: degC, formula: plate.set_temperature - 5 K, source: none}
            """,
    },
    "bench": {
        "bench": """
            states:
              mains: [isolated, on, on]  # 25: 'on' stands twice in this list [said-twice]
              covers: [on]  # 3: covers has one state only; two are needed [too-few-outcomes]
            arrives:
              plugged_in: {say: Plugged in, state: {mains: on}}  # 40: 'state' must say how covers stands when a machine arrives [missing-key]
            safe: {mains: [isolated, on]}  # 15: the state of mains is a list; one state is wanted [wrong-shape]
            qualified_only: {mains: on}  # 17: 'qualified_only' is a mapping; a list of states ([{mains: on, covers: off}]) is wanted [wrong-shape]
            passing_only: [{mains: off}]  # 24: 'off' is not a state of mains; it has isolated, on [unknown-outcome]
            service: [lvel]  # 11: there is no question 'lvel'; did you mean level? [unknown-name]
            in_time: [{while: {mains: on}, turns: {covers: on}}]  # 11: an entry of 'in_time' must have 'becomes' [missing-key] || 32: 'turns' is not a key of an entry of 'in_time'; it may have while, becomes [unknown-key]
            moves:
              isolate: {say: Unplug., needs: {mains: off}, makes: {mains: isolated}, minutes: 1, steps: [Unplug.], confirm: Out?}  # 42: 'off' is not a state of mains; it has isolated, on [unknown-outcome]
              wait: {say: Wait., makes: {mains: on}, steps: [Wait.], confirm: Done?, unless: {levl: low}}  # 3: a move must have 'minutes' [missing-key] || 83: there is no question or finding 'levl'; did you mean level? [unknown-name]
            """,
    },
    "bench states that no move leads to": {
        "bench": """
            states: {mains: [isolated, on], covers: [on, off]}
            arrives:
              plugged_in: {say: Plugged in, state: {mains: on, covers: on}}
              unplugged: {say: Unplugged, state: {mains: isolated, covers: on}}
              open: {say: Covers off, state: {mains: isolated, covers: off}}
            safe: {mains: isolated}  # 7: no moves lead to mains isolated from a machine that arrives plugged_in [out-of-reach]
            moves:
              shut: {say: Shut it., makes: {covers: on}, minutes: 1, steps: [Shut it.], confirm: Shut?}
            """,
        "tank": """
            circuit: tank
            title: Tank
            questions:
              level:
                ask: How high is the water?
                answer: yes_no
                how: Look.
                bench: {mains: isolated, covers: off}  # 12: no moves lead to mains isolated, covers off from a machine that arrives plugged_in or unplugged [out-of-reach]
                minutes: 1
            """,
    },
    "a move that makes what it needs": {
        "bench": """
            states: {mains: [isolated, on], covers: [on, off]}
            arrives:
              unplugged: {say: Unplugged, state: {mains: isolated, covers: on}}
            safe: {mains: isolated}
            moves:
              open: {say: Open it., needs: {covers: on}, makes: {covers: on}, minutes: 1, steps: [Open it.], confirm: Open?}  # 53: open makes covers on, and that is what it needs already; one of the two is wrong [move-does-nothing]
            """,
    },
    "a bench state that several ask for in vain": {
        "bench": """
            states: {mains: [isolated, on], covers: [on, off]}
            arrives:
              unplugged: {say: Unplugged, state: {mains: isolated, covers: on}}
            safe: {mains: isolated}
            moves:
              switch_on: {say: Plug it in., makes: {mains: on}, minutes: 1, steps: [Plug it in.], confirm: In?}  # 3: no moves lead to covers off from a machine that arrives unplugged; 3 questions and repairs ask for it [out-of-reach]
            """,
        "tank": """
            circuit: tank
            title: Tank
            questions:
              level: {ask: Is it high?, answer: yes_no, how: Look., bench: {covers: off}, minutes: 1}
              wet: {ask: Is it wet?, answer: yes_no, how: Look., bench: {covers: off}, minutes: 1}
              warm: {ask: Is it warm?, answer: yes_no, how: Look., bench: {covers: off}, minutes: 1}
            """,
    },
    "one bad file does not blame the others": {
        "complaints": """
            complaints:
              no_fill: {name: Does: not fill}  # 23: this is not YAML: did not find expected ',' or '}'; a bracket or a comma is missing, or a text with ': ' or a bracket in it must stand in quotes [not-yaml]
            """,
        "cautions": """
            cautions: {isolate: Pull the plug., isolate: Gloves on., burn: Gloves on.}  # 37: 'isolate' stands twice in this mapping; it is already on line 1 [duplicate-key]
            """,
    },
}


@pytest.mark.parametrize("texts", [pytest.param(texts, id=name) for name, texts in ROWS.items()])
def test_small_files(texts: dict[str, str]) -> None:
    files = with_files(**texts)
    assert problems_of(files) == expected_problems(files) != []
