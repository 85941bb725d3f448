"""Dangers planted in the shipped rules, one in each row.

The file, the text that is put otherwise (its first occurrence), what it is put to; then what stands at the place that
the refusal names, and its whole message.
"""
# ruff: noqa: E501  (the messages stand whole beside their cause)

from __future__ import annotations

import pytest

LOOKS, FILL = "circuits/safety_looks.yaml", "circuits/boiler_fill.yaml"
HEAT, EARTH, FIRST = "circuits/boiler_heat.yaml", "circuits/mains_and_earth.yaml", "circuits/first_look.yaml"
LAST_STEP = "            - Tell the customer in writing that the machine was unsafe.\n"
LOOK_AT_THE_FUSE = 'how: "Plug out. Look on the board'
HOW_LIVE = 'how: "Tank full. Switch on, lift the lever by its handle, and read with the pump connected'
LOOKED_AT = "- tests: {lead_looks: [sound, no_earth_pin]}\n  customer"
TOLD = "    while: {told_of_danger: [shock, burnt, tripped, wet, burst, repaired, nobody_knows]}\n"

SLIPS = [
    pytest.param(
        LOOKS,
        LAST_STEP,
        "            - Watch a full heat-up.\n",
        "Watch a full heat-up.",
        "'Watch a full heat-up' in a dead machine; what needs that is a question or a proof in its own bench state [step-energises]",
        id="repair heats",
    ),
    pytest.param(
        FILL,
        LOOK_AT_THE_FUSE,
        'how: "Plug out. Then switch it on. Look on the board',
        '"Plug out. Then switch it on. Look on the board',
        "'Then switch it on' in a dead machine; what needs that is a question or a proof in its own bench state [step-energises]",
        id="how",
    ),
    pytest.param(
        LOOKS,
        LAST_STEP,
        "            - Bridge the high limits with a wire.\n",
        "Bridge the high limits with a wire.",
        "'Bridge the high limits'; a protective device is tested off the machine or renewed, and never put out of its work [defeats-protection]",
        id="repair bridges",
    ),
    pytest.param(
        "bench.yaml",
        "      - Prove dead at the terminals of the main switch.\n",
        "      - Block the safety valve with a plug.\n",
        "Block the safety valve with a plug.",
        "'Block the safety valve'; a protective device is tested off the machine or renewed, and never put out of its work [defeats-protection]",
        id="move blocks",
    ),
    pytest.param(
        FILL,
        "cautions: [mains_isolate, live_work, water_near_mains]",
        "cautions: [mains_isolate, water_near_mains]",
        "[mains_isolate, water_near_mains]",
        "in mains on, covers off, element off, altered for_test the caution live_work must be shown; put it under 'cautions' [caution-missing]",
        id="live without its caution",
    ),
    pytest.param(
        "bench.yaml",
        "    cautions: [mains_isolate, capacitor_charge]\n    word: dead\n",
        "    word: dead\n",
        "say: Take the covers off.",
        "in mains isolated, pressure none, covers off the caution mains_isolate must be shown; put it under 'cautions' [caution-missing]",
        id="move without its caution",
    ),
    pytest.param(
        HEAT,
        "cautions: [mains_isolate, burn, boiler_pressure, descaler, never_dry]",
        "cautions: [mains_isolate, burn, boiler_pressure, never_dry]",
        "[mains_isolate, burn, boiler_pressure, never_dry",
        "with 'descaler' the caution descaler must be shown; put it under 'cautions' [caution-missing]",
        id="descaler without its caution",
    ),
    pytest.param(
        "bench.yaml",
        "qualified_only:\n  - {mains: on, covers: off}\n",
        "",
        "states:",
        "live_work is for the qualified only, but 'qualified_only' does not name mains on, covers off [state-unguarded]",
        id="no qualified_only",
    ),
    pytest.param(
        "bench.yaml",
        "passing_only:\n  - {mains: isolated, covers: off, pressure: some}\n",
        "",
        "states:",
        "by boiler_pressure nobody works in mains isolated, covers off, pressure some, but 'passing_only' does not name it [state-unguarded]",
        id="no passing_only",
    ),
    pytest.param(
        "bench.yaml",
        "    needs: {mains: isolated, pressure: none, covers: on}\n    makes: {covers: off}\n",
        "    needs: {mains: isolated, covers: on}\n    makes: {covers: off}\n",
        "{mains: isolated, covers: on}",
        "covers_off may lead into mains isolated, covers off, pressure some; say under 'needs' what keeps it out [move-into-danger]",
        id="covers off under pressure",
    ),
    pytest.param(
        FILL,
        HOW_LIVE,
        'how: "Clip the meter to the output terminal and read',
        '"Clip the meter to the output terminal and read.',
        "'Clip the meter to the output terminal' in a live, open machine; set it up with 'prepare', the plug out [hand-on-live-part]",
        id="hand on a live terminal",
    ),
    pytest.param(
        "hazards.yaml",
        LOOKED_AT,
        "- tests: {lamp_lights: yes}\n  customer",
        "- tests: {lamp_lights: yes}",
        "lamp_lights cannot release lead_not_looked_at: it is asked in a state that the hazard forbids [release-not-dead]",
        id="released by a live test",
    ),
    pytest.param(
        "hazards.yaml",
        "      - tests: {inside_looks: sound, earth_bond: sound, insulation_at_plug: [sound, weak]}\n",
        "      - tests: {told_of_danger: nothing}\n",
        "- tests: {told_of_danger: nothing}",
        "told_of_danger opens told_of_danger and would be asked again at once; put first what changes it [release-by-itself]",
        id="asked once more",
    ),
    pytest.param(
        "hazards.yaml",
        TOLD,
        "    while: {not: {told_of_danger: nothing}}\n",
        "{not: {told_of_danger: nothing}}",
        "'while' of told_of_danger contains 'not'; name the outcomes that are dangerous [not-in-hazard]",
        id="not",
    ),
    pytest.param(
        LOOKS,
        "\nrules:\n",
        "\nrules:\n  planted:\n    if: {lamp_lights: no}\n    then: {stop_work: Leave it.}\n    because: It is dark.\n",
        "Leave it.}",
        "planted stops the work, but no hazard stands then; give one with 'while' and 'released_by' [stop-without-hazard]",
        id="stop that holds nothing",
    ),
    pytest.param(
        "hazards.yaml",
        ", {safety_valve_outlet.closed: present}",
        "",
        "yes",
        "safety_valve_outlet.closed is dangerous and opens no hazard; name it under 'while' of one [danger-unguarded]",
        id="danger that forbids nothing",
    ),
    pytest.param(
        LOOKS,
        "        dangerous: yes\n",
        "",
        'name: "closed: plugged, screwed shut, kinked or',
        "safety_valve_outlet.closed opens a hazard, so it is dangerous; write dangerous: yes [danger-not-marked]",
        id="danger mark deleted",
    ),
    pytest.param(
        LOOKS,
        LAST_STEP,
        "            - Plug it in and look.\n",
        "Plug it in and look.",
        "'Plug it in' in a dead machine; what needs that is a question or a proof in its own bench state [step-energises]",
        id="repair plugs in",
    ),
    pytest.param(
        LOOKS,
        LAST_STEP,
        "            - Bring it up to working pressure.\n",
        "Bring it up to working pressure.",
        "'Bring it up to working pressure' in a dead machine; what needs that is a question or a proof in its own bench state [step-energises]",
        id="repair pressurises",
    ),
    pytest.param(
        LOOKS,
        LAST_STEP,
        "            - Adjust the safety valve until it is quiet.\n",
        "Adjust the safety valve until it is quiet.",
        "'Adjust the safety valve'; a protective device is tested off the machine or renewed, and never put out of its work [defeats-protection]",
        id="repair adjusts",
    ),
    pytest.param(
        LOOKS,
        LAST_STEP,
        "            - Remove the safety valve and close its hole.\n",
        "Remove the safety valve and close its hole.",
        "'Remove the safety valve'; a protective device is tested off the machine or renewed, and never put out of its work [defeats-protection]",
        id="repair removes",
    ),
    pytest.param(
        LOOKS,
        LAST_STEP,
        "            - Leave out the thermal fuse.\n",
        "Leave out the thermal fuse.",
        "'Leave out the thermal fuse'; a protective device is tested off the machine or renewed, and never put out of its work [defeats-protection]",
        id="repair leaves out",
    ),
    pytest.param(
        LOOKS,
        'how: "Plug out. Look at the mouth of the valve',
        'how: "Plug out. Block the safety valve. Look at the mouth of the valve',
        '"Plug out. Block the safety valve. Look at the m',
        "'Block the safety valve'; a protective device is tested off the machine or renewed, and never put out of its work [defeats-protection]",
        id="how blocks",
    ),
    pytest.param(
        FIRST,
        "bench: {mains: on, covers: on, boiler: hot, element: connected}\n"
        "    minutes: 2\n"
        "    second_test: [second_gauge_pressure, wall_temperature]\n"
        "    cautions: [burn, steam]",
        "bench: {mains: on, covers: on, boiler: hot, element: connected}\n"
        "    minutes: 2\n"
        "    second_test: [second_gauge_pressure, wall_temperature]\n"
        "    cautions: [steam]",
        "[steam]",
        "in mains on, covers on, boiler hot, element connected the caution burn must be shown; put it under 'cautions' [caution-missing]",
        id="hot question without its caution",
    ),
    pytest.param(
        FIRST,
        "bench: {mains: on, covers: on, boiler: hot, element: connected}\n    minutes: 1\n    cautions: [burn]",
        "bench: {mains: on, covers: on, boiler: hot, pressure: some, element: connected}\n"
        "    minutes: 1\n"
        "    cautions: [burn]",
        "[burn]",
        "in mains on, covers on, boiler hot, pressure some, element connected the caution steam must be shown; put it under 'cautions' [caution-missing]",
        id="pressurised question without its caution",
    ),
    pytest.param(
        LOOKS,
        "          cautions: [mains_isolate, safety_device, boiler_pressure, gas_food]\n          bench: {mains: isolated, covers: off, boiler: cold, pressure: none}",
        "          cautions: [safety_device, boiler_pressure, gas_food]\n          bench: {mains: isolated, covers: off, boiler: cold, pressure: none}",
        "[safety_device, boiler_pressure, gas_food]",
        "in mains isolated, covers off, boiler cold, pressure none the caution mains_isolate must be shown; put it under 'cautions' [caution-missing]",
        id="repair without its caution",
    ),
    pytest.param(
        EARTH,
        "    prepare:\n"
        "      bench: {mains: isolated, covers: off, pressure: none, altered: nothing}\n"
        "      leaves: {altered: for_test}\n"
        "      steps:\n"
        '        - "Clip one insulated lead on the wire\'s copper before the suspected joints, the other on the tab behind them: inlet, switch, limits, relay, element, one pair at a time. Lay the meter outside the machine."\n',
        "",
        "{mains: on, covers: off, element: connected, alt",
        "joint_drop is measured in a live, open machine; clip on with 'prepare', the plug out [live-without-set-up]",
        id="probes held to live terminals",
    ),
    pytest.param(
        EARTH,
        "    only_if: {controller_calls: yes, any: [{heating_current: [reduced, sound, high]}, {boiler_heats: yes}]}\n",
        "",
        '"While it heats: what is the highest voltage dro',
        "'While it heats': say under 'only_if' which answers show that it is so, or that what it needs arrives [tells-nothing]",
        id="a joint measured at no current",
    ),
    pytest.param(
        HEAT,
        "    only_if: {element_resistance: sound, any: [{relay_lamp_when_calling: lit}, {relay_control_volts: sound}]}\n",
        "",
        '"Can you fit a relay that is known to be good in',
        "'known to be good': say under 'only_if' which answers show that it is so, or that what it needs arrives [tells-nothing]",
        id="another relay at no drive",
    ),
    pytest.param(
        HEAT,
        "    second_test: [element_resistance, element_volts]",
        "    second_test: [element_volts, element_resistance]",
        "[element_volts, element_resistance]",
        "element_volts is live work and stands before element_resistance, which is not; put element_resistance first [live-before-dead]",
        id="live before dead",
    ),
    pytest.param(
        "hazards.yaml",
        "{any: [{wall_temperature: high}, {second_gauge_pressure: high}]}",
        "{wall_temperature: high}",
        '"True over-pressure, shown by a second gauge.',
        "safety_valve_lifts_at_high_second_gauge stops the work at second_gauge_pressure, which no hazard that stands then names under 'while' [stop-without-hazard]",
        id="stop at what a hazard does not name",
    ),
]
