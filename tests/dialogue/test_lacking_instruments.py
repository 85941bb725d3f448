"""What needs an instrument that the shop lacks is not asked; another test is used, or the short list says so."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from expert.desk.opening import shop_of
from expert.engine.knowledge import knowledge_of
from expert.language.load import load_rules
from expert.language.problems import RulesRefused
from expert.language.shipped import shipped
from tests.dialogue.shipped_desk import ShippedDesk, shipped_knowledge

BASE = shipped_knowledge().base
TRIPS = {
    "lead_looks": "sound",
    "what_trips": "rcd",
    "trips_when": "when_hot",
    "stored_or_wet": "no",
    "wet_inside": "no",
}


def users_of(instrument: str) -> set[str]:
    """The questions that are measured with an instrument."""
    found = {q.id for q in BASE.questions.values() if q.measure is not None and q.measure.instrument == instrument}
    assert found, f"nothing is measured with {instrument}"
    return found


OFTEN_USED = ["clamp_meter", "multimeter_ohms", "stopwatch", "boiler_gauge", "plug_in_voltmeter", "machine_display"]


@pytest.mark.parametrize("instrument", OFTEN_USED)
def test_no_question_is_put_whose_instrument_is_missing(instrument: str) -> None:
    desk = ShippedDesk(without=(instrument,)).intake(complaint="slow_heat")
    desk.go({"lead_looks": "sound", "lamp_lights": "yes", "boiler_heats": "yes"}, most=150)
    assert not users_of(instrument) & set(desk.put())


def test_another_test_takes_its_place() -> None:
    """Without a clamp meter the element is measured dead, and found."""
    known = {
        "lead_looks": "sound",
        "lamp_lights": "yes",
        "boiler_heats": "no",
        "controller_calls": "yes",
        "heating_current": "0 A",
        "element_resistance": "OL",
        "boiler_water_low": "no",
        "boiler_pressure": "0",
        "terminal_look": "sound",
        "high_limit_tripped": "no",
        "high_limit_continuity": "yes",
    }
    for without in ((), ("clamp_meter",)):
        desk = ShippedDesk(without=without).intake(complaint="no_heat")
        desk.go(known)
        assert desk.job.found == {"heating_element.open_circuit": "found"}
        assert ("heating_current" in desk.put()) is (not without)


def test_the_short_list_is_honest_and_names_the_instrument() -> None:
    desk = ShippedDesk(without=("insulation_tester", "leakage_clamp")).intake(complaint="trips_supply")
    desk.go(TRIPS | {"wire_rubbed_through": "no", "element_to_body": "OL", "element_resistance": "38"}, most=90)
    assert set(desk.job.found.values()) == {"narrowed"}
    settle = [line for line in desk.all_said() if line.startswith("What would settle it: ")]
    assert len(settle) == 1 and settle[0].endswith("(insulation tester at 500 V DC)")


DEAD = {"element_resistance": "38", "earth_bond": "0.05"}  # what a machine that trips needs before it is plugged in


def test_with_the_instrument_the_same_job_is_settled() -> None:
    desk = ShippedDesk().intake(complaint="trips_supply")
    desk.go(
        TRIPS | {"insulation_at_plug": "60", "element_insulation": "60", "element_insulation_hot": "0.05"} | DEAD,
        most=120,
    )
    assert desk.job.found == {"heating_element.insulation_breakdown": "found"}


def test_what_the_shop_cannot_measure_is_not_proved_and_the_job_says_so() -> None:
    known = {"lead_looks": "sound", "lamp_lights": "yes", "boiler_heats": "no", "element_resistance": "OL"}
    desk = ShippedDesk(without=("earth_tester",)).intake(complaint="no_heat")
    desk.go(known | {"controller_calls": "yes", "heating_current": "0", "boiler_water_low": "no"})
    assert desk.job.prompt.kind == "repair"
    said = desk.type("done")
    for _ in range(60):
        prompt = desk.job.prompt
        if prompt.kind not in ("proof", "move", "question"):
            break
        said = desk.type(prompt.choices[0] if prompt.kind == "move" else _sound(desk))
    assert ("earth_bond", "", None) in desk.job.proofs
    assert "  1  repaired, not fully proved: do not hand out before it is" in said


def _sound(desk: ShippedDesk) -> str:
    from expert.desk.unattended import sound_answer

    return sound_answer(desk.job, desk.job.base.questions[desk.job.prompt.subject])


# ---------------------------------------------------------------- said in the instruments file


def rules_with(folder: Path, old: str, new: str) -> Path:
    """The shipped rules with an edited instruments file."""
    rules = folder / "rules"
    shutil.copytree(shipped("rules"), rules)
    file = rules / "instruments.yaml"
    text = file.read_text("utf-8")
    assert old in text
    file.write_text(text.replace(old, new, 1), "utf-8")
    return rules


def test_the_instruments_file_says_what_the_shop_lacks(tmp_path: Path) -> None:
    rules = rules_with(tmp_path, "  leakage_clamp:\n", "  leakage_clamp:\n    owned: no\n")
    knowledge = knowledge_of(load_rules(rules))
    assert shop_of(knowledge).instruments == set(BASE.instruments) - {"leakage_clamp"}


def test_owned_is_yes_or_no(tmp_path: Path) -> None:
    rules = rules_with(tmp_path, "  leakage_clamp:\n", "  leakage_clamp:\n    owned: broken\n")
    with pytest.raises(RulesRefused) as refused:
        load_rules(rules)
    assert [str(problem).partition("instruments.yaml:")[2] for problem in refused.value.problems] == [
        "35:12: 'owned' is 'broken'; write yes or no [not-yes-or-no]"
    ]
