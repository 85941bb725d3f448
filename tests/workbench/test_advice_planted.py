"""Each piece of advice, brought about by one slip in the shipped rules; the whole message, at the record it is about."""

# ruff: noqa: E501  (each message stands whole beside its cause)

from __future__ import annotations

from pathlib import Path

import pytest

from expert.language.load import read_rules
from expert.language.reading.kept import Trees
from expert.workbench.checks import CODES, advice

ROOT = Path(__file__).parents[2] / "rules"
RULES = {
    str(file.relative_to(ROOT)): file.read_text(encoding="utf-8")
    for file in ROOT.rglob("*.yaml")
    if file.relative_to(ROOT).parts[0] not in ("cases", "simulated")
}
HEAT, FILL, PUMP = "circuits/boiler_heat.yaml", "circuits/boiler_fill.yaml", "circuits/pump_and_pressure.yaml"
LOOKS = "circuits/safety_looks.yaml"
TREES = Trees()


def part_of(file: str, first: str, begin: str, end: str) -> str:
    """The text of a file from `begin` up to `end`, both after `first`."""
    at = RULES[file].index(begin, RULES[file].index(first))
    return RULES[file][at : RULES[file].index(end, at)]


WET_INSIDE = part_of("circuits/mains_and_earth.yaml", "\nquestions:\n", "  wet_inside:\n", "    how:")
# The code, the file, what is written, the slip, where the message points (the text that its line begins with), the message.
SLIPS = [
    (
        "no-bench-state",
        FILL,
        "          cautions: [mains_isolate, hot_water]\n          bench: {mains: isolated}\n",
        "          cautions: [mains_isolate, hot_water]\n",
        "      too_pure:",
        "the repair of feed_water.too_pure does not say how the machine stands for it, as {mains: isolated}",
    ),
    (
        "no-caution",
        FILL,
        "          cautions: [mains_isolate, hot_water]\n",
        "",
        "      too_pure:",
        "the repair of feed_water.too_pure has no caution",
    ),
    (
        "unused-finding",
        FILL,
        "findings:\n",
        "findings:\n  left_alone: {name: nobody asks for it, outcomes: [good, bad]}\n",
        "  left_alone:",
        "nothing builds on the finding left_alone",
    ),
    (
        "unused-name",
        "cautions.yaml",
        "cautions:\n",
        "cautions:\n  sharp: Sheet metal cuts.\n",
        "  sharp:",
        "nothing uses sharp",
    ),
    (
        "reversed-on-plate",
        HEAT,
        "sound: sensor_in_ice_least to sensor_in_ice_most",
        "sound: sensor_in_ice_most to sensor_in_ice_least",
        "      sound: sensor_in_ice_most",
        "'sound' of sensor_in_ice: on heat_exchanger_lever_tank the limits are 41.27 kohm to 26.01 kohm; the lower is not below the upper",
    ),
    (
        "never-on-plate",
        FILL,
        "low: below 0.8 * supply_here",
        "low: below 0.08 * supply_here",
        "      low: below 0.08",
        "'low' of pump_output_voltage can never come out on heat_exchanger_lever_tank: the readings above it take below 18.4 V",
    ),
    (
        "overlapping-readings",
        HEAT,
        "half_power: 1.6 * element_expected",
        "half_power: 1.0 * element_expected",
        "      half_power:",
        "element_resistance: 'sound' (34.94 ohm to 41.98 ohm) and 'half_power' (37.79 ohm to 98.24 ohm) overlap in part",
    ),
    (
        "hairline-gap",
        LOOKS,
        "lower: below plate.high_limit_temperature - 6 K",
        "lower: below plate.high_limit_temperature - 7 K",
        "      as_on_plate:",
        "limit_stamp: between 'lower' (below 138 °C) and 'as_on_plate' (139 °C to 151 °C) a small gap falls to 'otherwise'",
    ),
    (
        "limit-unlike-others",
        "circuits/mains_and_earth.yaml",
        "weak: below insulation_least_without_heaters\n",
        "weak: above insulation_least_without_heaters\n",
        "      weak: above insulation_least_without_heaters",
        "'weak' of insulation_at_plug is above insulation_least_without_heaters, and element_insulation_dried, which is read alike otherwise, has below insulation_least_without_heaters",
    ),
    (
        "beyond-believable",
        FILL,
        "open: above 100 kohm",
        "open: above 100000 kohm",
        "      open: above 100000",
        "the limit 100 Mohm of 'open' in fill_coil_resistance is not within 0 ohm to 50 Mohm",
    ),
    (
        "beyond-instrument",
        PUMP,
        "very_high: above 1.37 * plate.brew_pressure",
        "very_high: above 13.7 * plate.brew_pressure",
        "      very_high: above 13.7",
        "the limit 130 bar of 'very_high' in portafilter_pressure is more than portafilter gauge, 0 to 16 bar shows (16.0 bar)",
    ),
    (
        "below-accuracy",
        HEAT,
        "shorted: below 1 kohm",
        "shorted: below 0.1 ohm",
        "      shorted: below 0.1 ohm",
        "the limit 0.1 ohm of 'shorted' in relay_output is within the error of multimeter on ohms, leads shorted and subtracted there (+-0.2009 ohm)",
    ),
    (
        "narrower-than-accuracy",
        HEAT,
        "display_at_a_tenth_expected - 4 K to display_at_a_tenth_expected + 4 K",
        "display_at_a_tenth_expected - 0.04 K to display_at_a_tenth_expected + 0.04 K",
        "      sound: display_at_a_tenth_expected",
        "'sound' of display_with_resistor (87.1 °C to 87.2 °C) is narrower than the error of the machine's own display at both ends (+-2 K)",
    ),
    (
        "unreached-state",
        "bench.yaml",
        "altered: [nothing, for_test]",
        "altered: [nothing, for_test, lost]",
        "  isolate:",
        "no machine arrives with altered: lost, and no move leads there",
    ),
    (
        "long-question",
        HEAT,
        "What does the sensor read in melting ice?",
        "What does the sensor read, taken out of its well and hung into a glass of crushed and melting ice with a little water in between, stirred for five minutes?",
        "  sensor_in_ice:",
        "sensor_in_ice is asked in 155 characters; 120 can be taken in at a glance",
    ),
    (
        "every-outcome-sound",
        "circuits/mains_and_earth.yaml",
        WET_INSIDE,
        WET_INSIDE.replace("sound: no", "sound: [yes, no]"),
        "  wet_inside:",
        "every answer to wet_inside counts as sound",
    ),
    (
        "measured-on-wrong-mains",
        FILL,
        "    bench: {mains: isolated, covers: off}\n    alters: {altered: for_test}\n    minutes: 2\n",
        "    alters: {altered: for_test}\n    minutes: 2\n",
        "  fill_coil_resistance:",
        "fill_coil_resistance measures a resistance, which takes mains: isolated; its 'bench' says nothing of the mains",
    ),
    (
        "measured-on-wrong-mains",
        HEAT,
        "bench: {mains: on, covers: off, element: off, altered: for_test}",
        "bench: {mains: isolated, covers: off, element: off, altered: for_test}",
        "  controller_output_volts:",
        "controller_output_volts measures a DC voltage, which takes mains: on; its 'bench' says mains: isolated",
    ),
    (
        "limits-without-source",
        HEAT,
        '    source: "IEC 60751: three kelvin at the set temperature"\n',
        "",
        "  platinum_plug_drop:",
        "nothing says where the limits of platinum_plug_drop in boiler_heat come from",
    ),
]


@pytest.mark.parametrize(
    ("code", "file", "written", "slip", "place", "message"), SLIPS, ids=[slip[0] for slip in SLIPS]
)
def test_a_slip_brings_the_advice(code: str, file: str, written: str, slip: str, place: str, message: str) -> None:
    assert written in RULES[file]
    text = RULES[file].replace(written, slip, 1)
    found = [problem for problem in advice(read_rules({**RULES, file: text}, TREES)) if problem.code == code]
    assert [problem.message for problem in found] == [message]
    assert found[0].at.path == file and text.splitlines()[found[0].at.line - 1].startswith(place)


def test_every_advice_is_brought_about_by_some_test() -> None:
    """A new code comes with a row here or with a test of its own."""
    written = "".join(file.read_text(encoding="utf-8") for file in Path(__file__).parent.glob("test_*.py"))
    assert {code for code in CODES if f"[{code}]" not in written and f'"{code}"' not in written} == set()
