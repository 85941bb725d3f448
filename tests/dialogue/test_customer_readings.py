"""What the customer reads of the proofs: a bare number gets the unit it was taken in, a typed unit stays as typed."""

from __future__ import annotations

from expert.desk.opening import shop_of
from expert.desk.unattended import play
from expert.language.worked.job_answers import read_answers
from expert.trace.records import CustomerTold
from tests.dialogue.shipped_desk import shipped_knowledge

WORN_GASKET = """
machine: heat_exchanger_lever_tank
complaints: [leaks_at_rim]
answers: {handle_position: past_centre, rim_on_blind: leaks, rim_with_other_portafilter: leaks}
rest: sound
after_repair: {handle_position: centre, rim_on_blind: dry, earth_bond: "0.1", blind_pressure: 138 psi}
"""


def test_readings_have_units_on_the_customers_slip() -> None:
    knowledge = shipped_knowledge()
    _, records = play(knowledge, shop_of(knowledge), read_answers("answers.yaml", WORN_GASKET, knowledge.base), "7")
    slip = next("\n".join(record.lines) for record in records if isinstance(record, CustomerTold))
    for passed in (
        "What is the resistance from the plug's earth pin to bare metal of the body? 0.1 ohm (passed)",
        "With a blind disc in the portafilter and the lever up, what does the pump gauge show after ten seconds? "
        "138 psi (passed)",
        "Portafilter locked firmly by hand: where does the handle stand? at the centre, or short of it (passed)",
    ):
        assert passed in slip
