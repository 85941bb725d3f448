"""A small rule base for tests of the dialogue: a boiler that does not fill, invented for this purpose only."""

from __future__ import annotations

from functools import cache

from expert.engine.knowledge import Knowledge, knowledge_of
from expert.job.state.shop import Shop
from expert.language.load import read_rules

FEATURES = """\
features:
  fill: {name: how the boiler is filled, values: [automatic, none]}
plate:
  rated_voltage: {name: rated voltage, measure: ac_voltage, unit: V}
  fill_coil: {name: resistance of the fill coil, measure: resistance, unit: ohm}
"""

MACHINE = """\
machine: test_machine
title: Test machine
layout: A boiler with an automatic fill.
features: {fill: automatic}
plate: {rated_voltage: 230 V, fill_coil: 950 ohm}
"""

COMPLAINTS = """\
complaints:
  will_not_fill: {name: Boiler does not fill, words: [no fill, empty boiler], seen: {water_arrives: no}}
  leaks: {name: Water under the machine, words: [puddle]}
  hisses: {name: Hisses on heat-up, words: [hiss]}
  blows: {name: Safety valve blows, words: [steam jet]}
"""

CAUTIONS = """\
cautions:
  isolate: "Mains kills. Pull the plug."
  steam: "Steam scalds."
"""

INSTRUMENTS = """\
instruments:
  ohms: {name: ohm meter, measures: resistance, ranges: [{percent: 1, digits: 2, step: 1 ohm}]}
  gauge: {name: boiler gauge, measures: gauge_pressure, class: 2.5, full_scale: 3 bar}
"""

BENCH = """\
states:
  mains: [isolated, on]
  covers: [on, off]
arrives:
  cold: {say: Unplugged and cold, state: {mains: isolated, covers: on}}
  plugged: {say: Plugged in, state: {mains: on, covers: on}}
safe: {mains: isolated}
qualified_only:
  - {mains: on, covers: off}
moves:
  isolate: {say: Unplug., needs: {mains: on}, makes: {mains: isolated}, minutes: 1, steps: [Pull the plug.], cautions: [isolate], confirm: Is it out?}
  open: {say: Take the covers off., needs: {mains: isolated, covers: on}, makes: {covers: off}, minutes: 5, steps: [Undo the screws.], cautions: [isolate], confirm: Are they off?}
  close: {say: Put the covers on., needs: {mains: isolated, covers: off}, makes: {covers: on}, minutes: 4, steps: [Screw them on.], cautions: [], confirm: Are they on?}
  switch_on: {say: Switch on., needs: {mains: isolated}, makes: {mains: on}, minutes: 2, steps: [Plug in.], cautions: [], confirm: Is it on?}
"""

CIRCUIT = """\
circuit: fill
title: Boiler fill
parts:
  valve:
    name: fill valve
    faults:
      coil_open:
        name: coil open
        seen: common
        explains: [will_not_fill]
        shows: {water_arrives: no, coil: open}
        repair: {minutes: 20, steps: [Fit a new coil.], parts: [fill coil], cautions: [isolate], bench: {mains: isolated, covers: off}}
        prove: [water_arrives]
      stuck:
        name: stuck shut
        seen: occasional
        explains: [will_not_fill]
        shows: {water_arrives: no, water_before_valve: yes}
        repair: {minutes: 30, steps: [Clean the valve.], bench: {mains: isolated, covers: off}}
        prove: [water_arrives]
  pump:
    name: pump
    faults:
      dead:
        name: dead
        seen: common
        explains: [will_not_fill]
        shows: {pump_runs: no, water_arrives: no}
        repair: {minutes: 30, steps: [Fit a new pump.], parts: [pump], bench: {mains: isolated, covers: off}}
        prove: [pump_runs, water_arrives]
  hose:
    name: hose
    faults:
      split:
        name: split
        seen: common
        explains: [leaks]
        shows: {hose_is_dry: no}
        repair: {minutes: 10, steps: [Fit a new hose.], parts: [hose], bench: {mains: isolated, covers: off}}
        prove: [hose_is_dry]
  heat_relay:
    name: heat relay
    faults:
      shorted:
        name: shorted
        seen: occasional
        explains: [blows]
        dangerous: yes
        repair: {minutes: 20, steps: [Fit a new relay.], bench: {mains: isolated, covers: off}}
        prove: [boiler_pressure]
questions:
  pump_runs: {ask: Does the pump run?, answer: yes_no, sound: yes, how: Listen., bench: {mains: on, covers: on}, minutes: 1}
  water_arrives: {ask: Does water arrive in the boiler?, answer: yes_no, sound: yes, how: Look at the glass., bench: {mains: on, covers: on}, minutes: 2, only_if: {pump_runs: yes}}
  water_before_valve: {ask: Is there water before the valve?, answer: yes_no, sound: yes, how: Loosen the hose., bench: {mains: isolated, covers: off}, minutes: 6}
  coil:
    ask: What does the coil read?
    answer: {measure: resistance, with: ohms, unit: ohm}
    readings: {open: above 100 kohm, shorted: below 0.5 * coil_expected, sound: 0.75 * coil_expected to 1.25 * coil_expected, off_value: otherwise}
    nominal: coil_expected
    sound: sound
    expect: About the plate value.
    how: Pull one lead off.
    bench: {mains: isolated, covers: off}
    minutes: 3
    cautions: [isolate]
  hose_is_dry: {ask: Is the hose dry?, answer: yes_no, sound: yes, how: Look., bench: {mains: isolated, covers: off}, minutes: 1}
  hiss_ends:
    ask: How does the hiss end?
    answer: {one_of: {click: with a click within minutes, never: it does not end}}
    sound: click
    how: Heat up from cold and wait.
    bench: {mains: on, covers: on}
    minutes: 10
    cautions: [steam]
  boiler_pressure:
    ask: What does the boiler gauge show?
    answer: {measure: gauge_pressure, with: gauge, unit: bar}
    readings: {high: above 1.6 bar, sound: otherwise}
    sound: sound
    how: Read it.
    bench: {mains: on, covers: on}
    minutes: 2
work_out:
  coil_expected: {name: coil expected, gives: resistance, unit: ohm, formula: plate.fill_coil, source: "common practice, no source"}
rules:
  pump_is_dead: {if: {pump_runs: no}, then: {confirm: pump.dead}, because: A silent pump is dead in this little world.}
  pump_is_alive: {if: {pump_runs: yes}, then: {clear: pump.dead}, because: It runs.}
  held_up: {if: {pump_runs: yes, water_arrives: no}, then: {check: [valve.coil_open, valve.stuck]}, because: The water is held up after the pump.}
  water_comes: {if: {water_arrives: yes}, then: {clear: valve}, because: Water comes through the valve.}
  coil_is_open: {if: {coil: open}, then: {confirm: valve.coil_open}, because: A coil without continuity cannot lift its plunger.}
  coil_is_sound: {if: {coil: [sound, off_value]}, then: {clear: valve.coil_open}, because: The coil has continuity.}
  stuck_valve: {if: {coil: sound, water_before_valve: yes, water_arrives: no}, then: {confirm: valve.stuck}, because: "The coil is sound, water stands before the valve and none comes through."}
  no_water_before: {if: {water_before_valve: no}, then: {clear: valve.stuck}, because: No water gets as far as the valve.}
  hose_leaks: {if: {hose_is_dry: no}, then: {confirm: hose.split}, because: It is wet.}
  hose_is_fine: {if: {hose_is_dry: yes}, then: {clear: hose.split}, because: It is dry.}
  hiss_is_normal: {if: {hiss_ends: click}, then: {normal: hisses}, because: The valve lets the air out and shuts.}
  too_much_pressure: {if: {boiler_pressure: high}, then: {stop_work: The boiler pressure is out of control. Pull the plug., suspect: [heat_relay.shorted]}, because: Nothing holds the pressure back.}
  sound_coil_points_to_the_valve: {if: {coil: sound, water_arrives: no}, then: {points_to: {valve.stuck: slightly}}, because: The coil would lift it.}
"""


@cache
def small_knowledge() -> Knowledge:
    """The small rule base, ready for jobs."""
    return knowledge_of(
        read_rules(
            {
                "features.yaml": FEATURES,
                "machines/test_machine.yaml": MACHINE,
                "complaints.yaml": COMPLAINTS,
                "cautions.yaml": CAUTIONS,
                "instruments.yaml": INSTRUMENTS,
                "bench.yaml": BENCH,
                "circuits/fill.yaml": CIRCUIT,
            }
        )
    )


def small_shop() -> Shop:
    """A shop that owns every instrument of the small rule base."""
    return Shop(frozenset(small_knowledge().base.instruments))
