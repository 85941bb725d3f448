"""What the customer reads of the proofs: plain statements, a reading with its unit and its limit."""

from __future__ import annotations

from expert.desk.opening import shop_of
from expert.desk.unattended import play
from expert.language.worked.job_answers import read_answers
from expert.trace.records import CustomerTold
from tests.dialogue.shipped_desk import shipped_knowledge

WORN_GASKET = """
machine: heat_exchanger_lever_tank
plate: {limits: germany}
complaints: [leaks_at_rim]
answers: {handle_position: past_centre, rim_on_blind: leaks, rim_with_other_portafilter: leaks}
rest: sound
after_repair: {handle_position: centre, rim_on_blind: dry, earth_bond: "0.1", blind_pressure: 138 psi}
"""


def test_what_was_tested_stands_as_statements_with_limits() -> None:
    knowledge = shipped_knowledge()
    _, records = play(knowledge, shop_of(knowledge), read_answers("answers.yaml", WORN_GASKET, knowledge.base), "7")
    slip = next("\n".join(record.lines) for record in records if isinstance(record, CustomerTold))
    for passed in (
        "  - earth connection 0.1 ohm, at most 0.3 ohm\n",  # DGUV 203-071 annex 5: 0.3 ohm up to 5 m of lead
        "  - brew pressure on a closed group 9.51 bar, from 7.98 bar to 11.0 bar\n",  # 138 psi; 9.5 bar on the plate
        "  - the portafilter closes straight\n",
    ):
        assert passed in slip
