"""What a mended fault accounted for is not called normal behaviour afterwards."""

from __future__ import annotations

from expert.desk.result import result_of
from expert.desk.unattended import play
from expert.engine.knowledge import knowledge_of
from expert.job.state.situation import picture_of
from expert.language.load import read_rules
from expert.language.worked.job_answers import read_answers
from tests.dialogue.small_folder import FILES
from tests.dialogue.small_rules import small_shop

# The relay explains the hiss as well; once it is renewed, the valve hisses and clicks as it should.
CHANGES = {
    "explains: [blows]": "explains: [hisses]",
    "prove: [boiler_pressure]": "prove: [boiler_pressure, hiss_ends]",
    "{stop_work: The boiler pressure is out of control. Pull the plug., suspect: [heat_relay.shorted]}": (
        "{confirm: heat_relay.shorted, caution: steam}"
    ),
}


def test_a_complaint_is_either_mended_or_normal() -> None:
    circuit = FILES["circuits/fill.yaml"]
    for old, new in CHANGES.items():
        assert old in circuit
        circuit = circuit.replace(old, new)
    knowledge = knowledge_of(read_rules({**FILES, "circuits/fill.yaml": circuit}))
    text = """
    machine: test_machine
    complaints: [hisses]
    answers: {hiss_ends: never, boiler_pressure: 2 bar}
    after_repair: {hiss_ends: click, boiler_pressure: 1 bar}
    """
    job, records = play(knowledge, small_shop(), read_answers("answers.yaml", text, knowledge.base), "7")
    result = result_of(job, records, "")
    assert ([found["fault"] for found in result["findings"]], result["ending"]) == (["heat_relay.shorted"], "repaired")
    assert (result["outcome"], result["normal"], picture_of(job).normal) == ("found", [], ())
