"""Parts and questions that are wrong: each row is a circuit file as its author would type it, the problem noted on its line."""
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
                shows: {level: lo, flavour: bad}  # 24: 'lo' is not an outcome of level; it has low, normal, high; did you mean low? [unknown-outcome] || 28: there is no question or finding 'flavour'; there is coil, level, runs, supply [unknown-name]
                caused_by: [valve.stuk, valve]  # 21: there is no fault 'valve.stuk'; did you mean valve.stuck? [unknown-name] || 33: 'valve' is a part; one of its faults is wanted here: valve.stuck, valve.leaking [unknown-name]
                dangerous: true  # 20: 'dangerous' is 'true'; write yes or no [not-yes-or-no]
                repair: {minutes: -5, steps: [], tools: [spanner], bench: {mains: isolate}}  # 27: 'minutes' is '-5'; a plain number is wanted, as in 2 or 2.5 [not-a-number] || 42: 'tools' is not a key of a repair; it may have minutes, steps, parts, consumables, cautions, bench [unknown-key] || 75: 'isolate' is not a state of mains; it has isolated, on; did you mean isolated? [unknown-outcome]
                prove: [levels]  # 17: there is no question or finding 'levels'; did you mean level? [unknown-name]
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


@pytest.mark.parametrize("text", [pytest.param(text, id=name) for name, text in PARTS_AND_QUESTIONS.items()])
def test_parts_and_questions(text: str) -> None:
    files = with_files(row=text)
    assert problems_of(files) == expected_problems(files) != []


@pytest.mark.parametrize("text", [pytest.param(text, id=name) for name, text in MEASUREMENTS.items()])
def test_measurements(text: str) -> None:
    files = with_files(row=text)
    assert problems_of(files) == expected_problems(files) != []
