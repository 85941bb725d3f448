"""What could not be done or told can be taken back, is offered again when nothing else is left, and is never hidden."""

from __future__ import annotations

from expert.job.state.job import Phase
from expert.trace.records import CannotMove, CannotTell, Found, Moved, MoveOffered, TakenBack
from tests.dialogue.conftest import Desk

OFFERED = [
    "Nothing else is left to do. You said that this cannot be done: Take the covers off.",
    "It is offered once more. If it cannot be done: can't",
]
NOTED = "Noted: that cannot be done now. Looking for another way."


def without_covers(filling: Desk) -> Desk:
    """The pump runs, the covers cannot be taken off, no water comes; then the covers are offered once more."""
    filling.type("yes", "yes", "yes", "can't")
    assert filling.said[:2] == [NOTED, "Switch on. (2 min, as before: how)"]
    filling.type("yes", "no")
    assert filling.said[:2] == OFFERED
    filling.type("yes")
    return filling


def test_a_move_that_could_not_be_made_is_offered_once_more_and_only_once(filling: Desk) -> None:
    without_covers(filling)
    assert filling.job.prompt.subject == "open"
    filling.type("can't")
    assert filling.job.phase is Phase.CLOSE and filling.job.impossible == {"open"}
    assert [type(r) for r in filling.records if isinstance(r, CannotMove | MoveOffered)] == [
        CannotMove,
        MoveOffered,
        CannotMove,
    ]


def test_the_end_says_what_would_settle_the_rest_and_how_to_come_back_to_it(filling: Desk) -> None:
    without_covers(filling)
    said = filling.type("can't")
    assert said[: said.index("How does the job end? Type the number.")] == [
        NOTED,
        "Narrowed, not found.",
        "'Boiler does not fill': narrowed to a short list, not further:",
        "1. fill valve: coil open (74%). To settle it: What does the coil read? (needs what could not be done: "
        "Take the covers off; take back 4)",
        "2. fill valve: stuck shut (23%). To settle it: Is there water before the valve? (needs what could not be "
        "done: Take the covers off; take back 4)",
        "Or it is something that these rules do not know. Look along by hand, with their wires, hoses and fixings: "
        "fill valve, pump.",
        "Not accounted for: Does water arrive in the boiler? no.",
        "What would settle it: What does the coil read? (ohm meter)",
        "It needs what could not be done: Take the covers off. If it can be after all: take back 4",
    ]
    said = filling.type("take back 4")
    assert said == [
        "Answer 4: Take the covers off. can't",
        "  It is asked again when it is needed.",
        "Take it back? Type yes or no.",
    ]
    said = filling.type("yes")
    assert said[0] == "Answer 4 is taken back." and said[-1] == "Are they off? (yes / no)"
    assert TakenBack(4, "open") in filling.records
    filling.type("yes", "OL")
    assert [record.fault for record in filling.records if isinstance(record, Found)] == ["valve.coil_open"]


def test_a_move_made_when_offered_again_lets_the_search_go_on(filling: Desk) -> None:
    without_covers(filling)
    said = filling.type("yes")
    assert said[-2] == "What does the coil read?"
    assert "open" in [record.move for record in filling.records if isinstance(record, Moved)]


def test_answers_numbers_what_could_not_be_told_along_with_the_rest(filling: Desk) -> None:
    without_covers(filling)
    filling.type("yes", "can't tell no meter here")
    assert CannotTell("coil", "no meter here", 4) in filling.records
    assert filling.type("answers") == [
        "  1. Does the pump run? yes",
        "  2. Take the covers off. can't  (no longer holds)",
        "  3. Does water arrive in the boiler? no",
        "  4. What does the coil read? can't tell no meter here",
        "Bench: mains isolated, covers off.",
    ]


def test_a_can_t_tell_is_taken_back_and_asked_again(filling: Desk) -> None:
    filling.type("yes", "can't tell the shop is too loud")
    assert filling.type("take back 1") == [
        "Answer 1: Does the pump run? can't tell the shop is too loud",
        "  It is asked again when it is needed.",
        "Take it back? Type yes or no.",
    ]
    said = filling.type("yes")
    assert said[0] == "Answer 1 is taken back." and filling.job.cannot == {}
    assert said[-2] == "Does the pump run?"
    filling.type("yes")
    assert filling.job.given[2].text == "yes", "the number of what was taken back is not given anew"


def test_only_what_holds_can_be_taken_back(filling: Desk) -> None:
    filling.type("yes", "can't tell", "take back 1", "yes", "no")
    assert filling.type("take back 1") == [
        "Answer 1 no longer holds. Answers that hold: 2. Type answers to see them.",
    ]


def test_a_proof_that_could_not_be_told_is_due_again_when_taken_back(filling: Desk) -> None:
    filling.type("yes", "can't tell")
    while filling.job.prompt.kind != "repair":
        prompt = filling.job.prompt
        filling.type("OL" if prompt.subject == "coil" else "no" if prompt.kind == "question" else "yes")
    filling.type("done")
    while filling.job.prompt.kind == "move":
        filling.type("yes")
    number = filling.job.next_number
    filling.type("can't tell")
    assert filling.job.proofs == (("water_arrives", "can't tell", None),)
    filling.type(f"take back {number}", "yes")
    while filling.job.prompt.kind == "move":
        filling.type("yes")
    assert (filling.job.proofs, filling.job.prompt.kind) == ((), "proof")


def test_a_repair_out_of_reach_is_offered_when_the_move_can_be_made_after_all(filling: Desk) -> None:
    filling.type("yes", "no", "yes", "can't")
    assert filling.said[1:3] == OFFERED
    said = filling.type("can't")
    assert said[1] == "The bench cannot be made ready for this repair: pump: dead."
    assert filling.job.phase is Phase.CLOSE and filling.job.declined == {"pump.dead"}
    number = max(filling.job.unable)
    filling.type(f"take back {number}", "yes")
    assert (filling.job.prompt.kind, filling.job.prompt.subject) == ("move", "open")
    filling.type("yes")
    assert (filling.job.prompt.kind, filling.job.prompt.subject) == ("repair", "pump.dead")


def test_a_proof_out_of_reach_is_due_again_when_the_move_can_be_made_after_all(filling: Desk) -> None:
    filling.type("yes", "no", "yes", "yes", "done")
    assert filling.job.prompt.subject == "close"
    filling.type("can't", "can't")
    while filling.job.phase is not Phase.CLOSE:
        filling.type("can't")
    assert filling.job.proofs and all(passed is None for _, _, passed in filling.job.proofs)
    barred = {unable.subject: number for number, unable in filling.job.unable.items() if unable.holds}
    for number in barred.values():
        filling.type(f"take back {number}", "yes")
    assert filling.job.proofs == () and filling.job.to_prove


def test_no_job_is_closed_with_the_plug_in(filling: Desk) -> None:
    filling.type("yes", "can't tell", "can't")
    assert filling.said[1] == "Nothing else is left to do. You said that this cannot be done: Unplug."
    said = filling.type("can't")
    assert said[-1].startswith("The machine could not be made safe. Leave it,")
    assert filling.type("dealt with by Bo")[-1] == "Is it out? (yes / no)"
