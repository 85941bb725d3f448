"""Whole conversations, line by line, on the small rule base."""

from __future__ import annotations

import pytest

from expert.desk.unattended import CannotPlay, play
from expert.job.state.job import Job, Phase
from expert.language.model.job_answers import JobAnswers
from expert.language.worked.job_answers import read_answers
from expert.trace.records import CautionShown, Closed, Found, NoLongerHolds, Record, Stopped
from tests.dialogue.conftest import Desk
from tests.dialogue.small_rules import small_knowledge, small_shop

COLD_TESTS = ("yes", "yes")  # isolate, covers off
HOT_TESTS = ("yes", "yes")  # covers on, switch on


def test_a_straight_job_from_complaint_to_close(filling: Desk) -> None:
    assert filling.type("yes") == ["How: Listen.", "Does the pump run?", "  (yes / no)"]
    assert filling.type("yes")[0] == "So: It runs."
    assert filling.type(*COLD_TESTS) == [
        "! Mains kills. Pull the plug.",
        "How: Pull one lead off.",
        "What does the coil read?",
        "  (a number in ohm, or OL; ohm meter)",
    ]
    assert filling.type("OL") == [
        "over range (OL): open (above 100 kohm).",
        "So: A coil without continuity cannot lift its plunger.",
        "FOUND: fill valve: coil open.",
        "  because: A coil without continuity cannot lift its plunger.",
        "Found.",
        "Repair: fill valve: coil open. About 20 min.",
        "You need: fill coil.",
        "1. Fit a new coil.",
        "Is it done? (done / no / instead, and what you did)",
    ]
    assert filling.type("done")[:2] == [
        "Repaired: fill valve: coil open.",
        "No longer counted: answer 2.",
    ]
    assert filling.type(*HOT_TESTS) == [
        "How: Look at the glass.",
        "Proof: Does water arrive in the boiler?",
        "  (yes / no)",
    ]
    assert "Proved." in filling.type("yes")
    filling.type("yes", "repaired", "ok", "25", "no")
    assert filling.job.phase is Phase.DONE
    assert filling.records[-1] == Closed("repaired", 25.0, ("fill coil",), "")


@pytest.mark.parametrize(
    ("line", "message"),
    [
        ("maybe", "'maybe' is no answer here. Type yes or no, or: can't tell"),
        ("", "An empty line is no answer here. Type yes or no, or: can't tell"),
        ("take back 9", "There is no answer to take back."),
        ("note", "Type note and the remark, such as: note lime on the probe"),
        ("what if", "Type what if and an answer, such as: what if yes"),
        ("x" * 2001, "That is too long: more than 2000 characters. Nothing was taken."),
    ],
    ids=["word", "empty", "take-back", "note", "what-if", "paste"],
)
def test_a_line_that_answers_nothing_changes_nothing(filling: Desk, line: str, message: str) -> None:
    filling.type("yes")
    before = filling.job
    assert filling.type(line) == [message]
    assert filling.job is before


@pytest.mark.parametrize(
    ("line", "message"),
    [
        (
            "900 bar",
            "'900 bar' is a pressure; a resistance is wanted, in ohm, kohm or Mohm, or OL. Or type: can't tell",
        ),
        ("twelve", "'twelve' has no number; a resistance is wanted, in ohm, kohm or Mohm, or OL. Or type: can't tell"),
    ],
    ids=["kind", "word"],
)
def test_a_silly_reading_is_refused_with_what_would_do(filling: Desk, line: str, message: str) -> None:
    filling.type("yes", "yes", *COLD_TESTS)
    assert filling.type(line) == [message]


def test_a_reading_near_a_limit_keeps_both_neighbours(filling: Desk) -> None:
    said = filling.type("yes", "yes", *COLD_TESTS, "1190")
    assert said[:2] == [
        "1.19 kohm is too close to a limit: it may be sound or off_value. Both stay possible. "
        "(sound is from 712 ohm to 1.19 kohm; expected 950 ohm; ohm meter: ±13.9 ohm)",
        "A better instrument or a second test would decide. Other tests are used meanwhile.",
    ]
    assert filling.job.state.possible("coil") == ("sound", "off_value")


def test_taking_an_answer_back_widens_what_rested_on_it(filling: Desk) -> None:
    filling.type("yes", "yes", *COLD_TESTS, "OL")
    assert filling.type("take back 2") == [
        "Answer 2: What does the coil read? OL (open)",
        "  no longer found: fill valve: coil open",
        "Take it back? Type yes or no.",
    ]
    said = filling.type("yes")
    assert said[0] == "Answer 2 is taken back."
    assert said[-3] == "What does the coil read?"
    assert filling.job.state.possible("valve.coil_open") == ("present", "absent")
    assert filling.job.state.possible("pump.dead") == ("absent",)


def test_can_t_tell_leads_to_another_test(filling: Desk) -> None:
    said = filling.type("yes", "can't tell the shop is too loud")
    assert filling.job.cannot == {"pump_runs": "the shop is too loud"}
    assert "Does the pump run?" not in said


def test_nothing_unsafe_is_asked(filling: Desk) -> None:
    filling.type("yes", "yes", *COLD_TESTS)
    assert dict(filling.job.bench) == {"mains": "isolated", "covers": "off"}
    cautions = [record.caution for record in filling.records if isinstance(record, CautionShown)]
    assert cautions == ["isolate", "isolate", "isolate"], "before unplugging, before the covers, before the coil"


def test_a_danger_stops_everything_until_somebody_answers_for_it(desk: Desk) -> None:
    desk.type("Ann", "1", "ok", "safety valve blows", "ok", "no", "1", "yes")
    said = desk.type("2.4 bar")
    assert "STOP! The boiler pressure is out of control. Pull the plug." in said
    assert said[-1] == "Is it out? (yes / no)"
    assert desk.type("yes") == [
        "Work has stopped. When a responsible person has dealt with the danger, type: dealt with by NAME. Or: hand over"
    ]
    assert desk.type("go on") == [
        "'go on' does not lift the stop. Type: dealt with by NAME. Or: hand over",
    ]
    desk.type("hand over")
    assert (desk.job.outcome, desk.job.closing["ending"]) == ("stopped", "handed_over")
    assert [type(record) for record in desk.records if isinstance(record, Stopped)] == [Stopped]


def test_normal_behaviour_condemns_nothing(desk: Desk) -> None:
    desk.type("Ann", "1", "ok", "hisses", "ok", "no", "1", "yes")
    said = desk.type("1")
    assert said[:3] == [
        "So: The valve lets the air out and shuts.",
        "Normal behaviour.",
        "'Hisses on heat-up' is how a sound machine behaves. It is no fault.",
    ]
    assert not [record for record in desk.records if isinstance(record, Found)]


@pytest.mark.parametrize(
    ("hiss_ends", "outcome"), [("can't tell", "unresolved"), ("never", "unresolved"), ("click", "normal")]
)
def test_what_may_be_normal_condemns_nothing(hiss_ends: str, outcome: str) -> None:
    job, records = played(f'{{machine: test_machine, complaints: [hisses], answers: {{hiss_ends: "{hiss_ends}"}}}}')
    assert job.outcome == outcome and not [record for record in records if isinstance(record, Found)]


def test_two_complaints_two_faults() -> None:
    job, records = played(
        """
        machine: test_machine
        complaints: [will_not_fill, leaks]
        answers: {pump_runs: yes, coil: OL, hose_is_dry: no, water_arrives: no}
        after_repair: {water_arrives: yes, hose_is_dry: yes}
        """
    )
    assert [record.fault for record in records if isinstance(record, Found)] == ["valve.coil_open", "hose.split"]
    assert (job.outcome, job.closing["ending"]) == ("found", "repaired")


def test_a_failed_proof_reopens_the_search_with_everything_known() -> None:
    _, records = played(
        """
        machine: test_machine
        complaints: [will_not_fill]
        answers: {pump_runs: yes, coil: OL, water_arrives: no}
        after_repair: {coil: 950, water_arrives: no, water_before_valve: yes}
        """
    )
    assert [record.fault for record in records if isinstance(record, Found)][:2] == ["valve.coil_open", "valve.stuck"]
    assert NoLongerHolds(2, "coil", "valve.coil_open") in records


def test_an_answers_file_with_a_silly_answer_is_refused() -> None:
    with pytest.raises(CannotPlay, match=r"^pump_runs: 'perhaps' is no answer here\. Type yes or no, or: can't tell$"):
        played("{machine: test_machine, complaints: [will_not_fill], answers: {pump_runs: perhaps}}")


def answers(text: str) -> JobAnswers:
    """An answers file, written as its author would."""
    return read_answers("answers.yaml", text, small_knowledge().base)


def played(text: str) -> tuple[Job, list[Record]]:
    """Play an answers file; the job at its end and all records."""
    return play(small_knowledge(), small_shop(), answers(text), "7")


REPAIRED = ("yes", "yes", *COLD_TESTS, "OL", "done", *HOT_TESTS, "yes")


def test_a_proof_that_is_taken_back_is_due_again_and_told_to_nobody(filling: Desk) -> None:
    filling.type(*REPAIRED)
    assert filling.job.phase is Phase.CLOSE and filling.job.proofs == (("water_arrives", "yes", True),)
    said = filling.type("take back 3", "yes")
    assert filling.job.proofs == () and filling.job.repaired == {"valve.coil_open": None}
    assert "Proof: Does water arrive in the boiler?" in said


@pytest.mark.parametrize("line", ["tak back 1", "hand over?", "x", "instead"])
def test_a_slip_is_no_repair(filling: Desk, line: str) -> None:
    filling.type("yes", "yes", *COLD_TESTS, "OL")
    before = filling.job
    assert "does not say what was done" in filling.type(line)[0]
    assert filling.job is before
    filling.type("instead cleaned the coil's plug")
    assert filling.job.repaired == {"valve.coil_open": None}


def test_only_somebody_else_lifts_a_stop_and_the_plug_is_confirmed_again(desk: Desk) -> None:
    desk.type("Ann", "1", "ok", "safety valve blows", "ok", "no", "2", "can't")
    assert desk.job.prompt.kind == "danger"
    assert desk.type("dealt with by ann") == [
        "Whoever works at the bench cannot lift the stop. Somebody else must answer for it by name."
    ]
    assert desk.type("dealt with by Bo")[-1] == "Is it out? (yes / no)"
    assert dict(desk.job.bench)["mains"] == "on", "a name does not pull a plug"


def test_no_means_not_yet_while_the_machine_is_not_safe(desk: Desk) -> None:
    desk.type("Ann", "1", "ok", "no fill", "ok", "no", "2")
    assert desk.type("no") == [
        "Nothing else comes before this. Type yes when it is done, or can't if it cannot be done."
    ]
    desk.type("yes")
    assert dict(desk.job.bench)["mains"] == "isolated"


def test_nobody_is_sent_away_from_a_machine_that_is_plugged_in(filling: Desk) -> None:
    filling.type("yes")
    warning = "! The machine is not safe to leave: mains on, covers on. Unplug it and keep the plug in sight."
    assert filling.type("pause")[0] == warning
    assert filling.type("hand over")[0] == "It is handed over as soon as the machine is safe."
    assert filling.job.prompt.subject == "isolate"
    assert "  expert resume 7" in filling.type("yes") and filling.job.phase is Phase.DONE
    assert "  Bench: mains isolated, covers on" in filling.said


def test_a_job_is_closed_only_with_the_plug_out(filling: Desk) -> None:
    filling.type(*REPAIRED)
    assert filling.job.prompt.subject == "isolate", "the last proof was made with the mains on"
    assert filling.type("yes")[0] == "How does the job end? Type the number."
