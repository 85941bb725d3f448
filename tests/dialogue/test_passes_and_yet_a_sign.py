"""A reading that passes may still be a sign of the fault: after the repair it describes the machine of before."""

from __future__ import annotations

from expert.desk.opening import shop_of
from expert.desk.result import result_of
from expert.desk.unattended import play
from expert.language.worked.job_answers import read_answers
from tests.dialogue.shipped_desk import shipped_knowledge

# 0.5 Mohm passes for a machine with a heater; here the heater is good and another load leaks.
WEAK = """
machine: heat_exchanger_lever_tank
complaints: [trips_supply]
answers:
  what_trips: rcd
  trips_when: at_once
  insulation_at_plug: "0.5"
  insulation_after_drying: "0.5"
  insulation_at_plug_hot: "0.35"
  insulation_without_element_hot: "0.5"
rest: sound
after_repair: {insulation_at_plug: "20", insulation_at_plug_hot: "10", insulation_after_drying: "20"}
"""


def test_a_weak_reading_of_before_does_not_speak_against_the_repair() -> None:
    knowledge = shipped_knowledge()
    answers = read_answers("answers.yaml", WEAK, knowledge.base)
    job, records = play(knowledge, shop_of(knowledge), answers, "7")
    result = result_of(job, records, "")
    assert [found["fault"] for found in result["findings"]] == ["insulation.load_leaks"]
    assert all(proof["passed"] for proof in result["proofs"])
    assert result["ending"] == "repaired"
