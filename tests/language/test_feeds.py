"""What feeds what: reading, consequences, and what is refused."""

from __future__ import annotations

import pytest

from expert.language.feeding import faults_meant, taken_away, way_of
from expert.language.load import read_rules
from expert.language.model import RuleBase
from tests.language.small_base import problems_of, with_files

# An invented chain: mains through a switch to a heater, steam out of the heat, and a lamp beside it.
CHAIN = """
feeds:
  mains: {name: mains after the switch, through: [switch], lacking: {lamp: no, heats: no}, explains: [no_fill]}
  heat: {name: heat, through: [mains, heater], lacking: {heats: no, level: [low, high]}, arrives: {heats: yes}}
  steam: {name: steam, through: [heat], lacking: {steams: no}, explains: [leaks]}
parts:
  switch:
    name: switch
    faults:
      burnt: {name: burnt, seen: rare, explains: [], cuts: mains, repair: {minutes: 1, steps: [Mend.]}, prove: [lamp]}
  heater:
    name: heater
    needs: mains
    faults:
      open:
        {name: open, seen: rare, explains: [no_fill], cuts: [heat], shows: {level: normal},
         repair: {minutes: 1, steps: [Mend.]}, prove: [heats]}
      tripped: {name: tripped, seen: rare, explains: [], result: yes, repair: {minutes: 1, steps: [Mend.]}, prove: []}
questions:
  lamp: {ask: "Lamp?", answer: yes_no, sound: yes, how: Look., minutes: 1}
  heats: {ask: "Hot?", answer: yes_no, sound: yes, how: Feel., minutes: 1}
  steams: {ask: "Steam?", answer: yes_no, sound: yes, how: Look., minutes: 1}
rules:
  heater_is_open: {if: {heats: no, lamp: yes}, then: {confirm: heater.open}, because: Cold., rivals: [steam, switch]}
"""
MACHINE = """
machine: one_boiler
title: One boiler
layout: One boiler and a tank.
features: {fill: automatic, sensor: ntc}
plate: {rated_voltage: 230 V, element_power: 1.4 kW, set_temperature: 123 degC}
wiring: {heat: [heater, mains]}
"""


def chain() -> RuleBase:
    return read_rules(with_files(row=CHAIN, machine=MACHINE))


def test_what_comes_through_a_cut_feed_is_lacking_as_well() -> None:
    faults = chain().faults
    assert dict(faults["switch.burnt"].shows) == {
        "lamp": ("no",),
        "heats": ("no",),
        "level": ("low", "high"),
        "steams": ("no",),
    }
    assert faults["switch.burnt"].explains == ("no_fill", "leaks")
    # What its author says of a question stands, and what lies before the cut goes on arriving.
    assert dict(faults["heater.open"].shows) == {"heats": ("no",), "level": ("normal",), "steams": ("no",)}
    assert faults["heater.tripped"].result and not faults["heater.tripped"].shows
    assert chain().parts["heater"].faults[0] == faults["heater.open"]


def test_names_stand_for_faults_and_ways_for_parts() -> None:
    base = chain()
    meant = faults_meant(base.rules["heater_is_open"].rivals, base.parts, base.feeds, base.faults)
    assert meant == ("switch.burnt", "heater.open")
    assert taken_away(base.feeds, ["heat"]) == ("heat", "steam")
    assert way_of(base.feeds, "steam") == ("switch", "heater")
    assert way_of(base.feeds, "steam", base.machines["one_boiler"].wiring) == ("heater", "switch")


@pytest.mark.parametrize(
    ("row", "problem"),
    [
        pytest.param(
            "feeds:\n  a: {name: a, through: [b]}\n  b: {name: b, through: [a, valve]}\n",
            "4:3: the feed a comes out of itself: a <- b <- a [feed-cycle]",
            id="circle",
        ),
        pytest.param(
            "feeds:\n  a: {name: a, through: [vale]}\n",
            "4:26: there is no feed or part 'vale'; did you mean valve? [unknown-name]",
            id="unknown-way",
        ),
        pytest.param(
            "feeds:\n  a: {name: a, through: valve, lacking: {level: lo}}\n",
            "4:49: 'lo' is not an outcome of level; it has low, normal, high; did you mean low? [unknown-outcome]",
            id="unknown-outcome",
        ),
        pytest.param(
            "rules:\n  r: {if: {level: low}, then: {advise: Look.}, because: Low., rivals: [valve.stuk]}\n",
            "4:72: there is no fault or part or feed 'valve.stuk'; did you mean valve.stuck? [unknown-name]",
            id="unknown-rival",
        ),
    ],
)
def test_refused(row: str, problem: str) -> None:
    assert problems_of(with_files(row=row)) == [f"circuits/your_row.yaml:{problem}"]
