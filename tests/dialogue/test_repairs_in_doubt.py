"""A repair whose own proof failed is named at the end of a search that found nothing else."""

from __future__ import annotations

import pytest

from expert.desk.opening import shop_of
from expert.desk.unattended import play
from expert.language.worked.job_answers import read_answers
from expert.trace.records import Told
from tests.dialogue.shipped_desk import shipped_knowledge

DOUBT = (
    "Repaired, but its proof failed: suction hose and its joints: draws air. "
    "Look at this repair again: part, joints, setting."
)


@pytest.mark.parametrize(
    ("needle", "told"),
    [pytest.param("swings", [DOUBT], id="proof failed"), pytest.param("steady", [], id="proof passed")],
)
def test_the_repair_is_named_when_its_proof_failed(needle: str, told: list[str]) -> None:
    knowledge = shipped_knowledge()
    text = f"""
    machine: heat_exchanger_lever_tank
    complaints: [pump_noisy]
    answers: {{pump_noise: loud, water_at_group: weak, free_flow: 4 ml/s, needle_on_blind: swings, flow_from_jug: full,
      suction_hose_tight: no, blind_pressure: 7 bar, portafilter_pressure: 7 bar, return_when_blind: dry,
      pump_gauge_in_free_flow: 0.6 bar, pressure_with_return_held: no_change, fill_is_called: no, water_used: tap}}
    rest: sound
    after_repair: {{needle_on_blind: {needle}, free_flow: 8 ml/s, pump_noise: normal, water_at_group: full,
      blind_pressure: 9.5 bar, portafilter_pressure: 9.5 bar, return_when_blind: some, suction_hose_tight: yes,
      pump_gauge_in_free_flow: 3 bar, pressure_with_return_held: rises_full, flow_from_jug: full}}
    """
    _, records = play(knowledge, shop_of(knowledge), read_answers("answers.yaml", text, knowledge.base), "7")
    assert [r.text for r in records if isinstance(r, Told) and r.text.startswith("Repaired, but")] == told
