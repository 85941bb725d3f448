"""The plate in an answers file or a case: what the plate prompt takes is taken, the rest refused at its place."""

from __future__ import annotations

from dataclasses import replace
from textwrap import dedent

import pytest

from expert.language.load import load_rules
from expert.language.problems import RulesRefused
from expert.language.shipped import shipped
from expert.language.worked.job_answers import read_answers

BASE = load_rules(shipped("rules"))


def answers(plate: str) -> str:
    return dedent(
        f"""\
        machine: heat_exchanger_lever_tank
        complaints: [no_heat]
        plate: {plate}
        answers: {{lamp_lights: yes}}
        """
    )


TAKEN = [
    pytest.param("{element_power: 1.2 kW}", {"element_power": "1.2 kW"}, id="a rating"),
    pytest.param("{rated_voltage: 220-240 V}", {"rated_voltage": "220-240 V"}, id="a range"),
    pytest.param("{limits: uk, earthed: class_2}", {"limits": "uk", "earthed": "class_2"}, id="features behind limits"),
    pytest.param("{altitude: 1500 m}", {"altitude": "1500 m"}, id="a condition"),
    pytest.param("{room_temperature: 50 F}", {"room_temperature": "50 F"}, id="a condition in Fahrenheit"),
]


@pytest.mark.parametrize(("plate", "expected"), TAKEN)
def test_what_the_plate_prompt_takes_is_taken(plate: str, expected: dict[str, str]) -> None:
    assert read_answers("a.yaml", answers(plate), BASE).plate == expected


REFUSED = [
    pytest.param(
        "{limits: france}",
        "a.yaml:3:17: 'france' is not an outcome of machine.limits; it has germany, uk, australia, us, canada, japan, "
        "strictest [unknown-outcome]",
        id="no such country set",
    ),
    pytest.param(
        "{element_powr: 1200 W}",
        "a.yaml:3:9: there is no plate value 'element_powr'; did you mean element_power? [unknown-name]",
        id="a misspelt rating",
    ),
    pytest.param(
        "{limit: uk}",
        "a.yaml:3:9: there is no plate value 'limit'; did you mean limits? [unknown-name]",
        id="a misspelt feature",
    ),
    pytest.param(
        "{colour: red}", "a.yaml:3:9: there is no plate value 'colour' [unknown-name]", id="nothing that is on a plate"
    ),
    pytest.param(
        "{pump: rotary}",
        "a.yaml:3:9: no limit rests on the feature 'pump'; where a machine differs in it, write a machine file "
        "[unknown-name]",
        id="a feature on which no limit rests",
    ),
    pytest.param(
        "{element_power: 230 V}",
        "a.yaml:3:24: '230 V' is a voltage; a power is wanted, in W or kW [not-a-quantity]",
        id="another kind",
    ),
    pytest.param(
        "{altitude: 3 bar}",
        "a.yaml:3:19: '3 bar' is a pressure; a length is wanted, in m, mm or cm [not-a-quantity]",
        id="a condition of another kind",
    ),
    pytest.param(
        "{limits: [uk, germany]}",
        "a.yaml:3:17: 'limits' is a list; a text is wanted [wrong-shape]",
        id="two country sets",
    ),
]


@pytest.mark.parametrize(("plate", "problem"), REFUSED)
def test_what_it_does_not_take_is_refused_at_its_place(plate: str, problem: str) -> None:
    with pytest.raises(RulesRefused) as refused:
        read_answers("a.yaml", answers(plate), BASE)
    assert [str(one) for one in refused.value.problems] == [problem]


def test_a_rule_base_without_such_features_takes_ratings_only() -> None:
    base = replace(BASE, work_outs={})
    with pytest.raises(RulesRefused, match="no limit rests on the feature 'limits'"):
        read_answers("a.yaml", answers("{limits: uk}"), base)
